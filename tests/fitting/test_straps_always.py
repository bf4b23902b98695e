"""What holds of every strap about the head, on any body."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitting.fit import Answer, Tack, Wearer
from fitting.fit.answers import Window
from fitting.fit.clearances import STRAPS
from fitting.fit.covers import covers
from fitting.fit.lengths import Lengths
from fitting.fit.nosebands import NosebandRule
from fitting.fit.straps import StrapRule
from fitting.units import read_length
from tests.fitting.making_fit import GOOD, NO, ON, make_wearer, spread
from tests.fitting.making_straps import (
    KIND_OF,
    MEASURE_OF,
    ORDER,
    rule_of_strap,
    sized,
    strap,
    strap_on,
    strap_over,
)

EVERY = st.sampled_from(sorted(KIND_OF))


@given(part=EVERY, room=st.floats(-150, 200), quarters=st.integers(60, 180))
def test_units_never_change_an_answer(part: str, room: float, quarters: int) -> None:
    inches = quarters / 4
    typed = (f"{inches:g} in", f"{inches * 2.54:g} cm", f"{inches * 25.4:g} mm")
    lengths = [read_length(text, unit="cm").mm for text in typed]
    body = (lengths[0] - room) / MEASURE_OF[part][1]
    found = [strap_over(part, length, body) for length in lengths]
    assert len({(one.answer, one.hole, one.why) for one in found}) == 1


@given(
    part=EVERY,
    kind=st.sampled_from(["headcollar", "cavesson"]),
    sd=st.floats(0.01, 12),
    holes=st.integers(1, 9),
    bodies=st.lists(st.floats(250, 1500), min_size=2, max_size=12),
)
def test_a_growing_body_takes_a_strap_from_good_through_watch_to_no(
    part: str, kind: str, sd: float, holes: int, bodies: list[float]
) -> None:
    # Except on the way to its last hole, and where holes lie farther apart than the
    # good window is wide: 20 mm are not.
    worn = kind if KIND_OF[part] == "headcollar" else "bridle"
    item = strap(part, 700, holes=holes, spacing_mm=20, kind=worn)
    (cover,) = covers(make_wearer(sized(part, 600.0)), (item,), (), ON)
    seen = [
        ORDER.index(strap_on(make_wearer(sized(part, body, sd=sd)), item).answer)
        for body in sorted(bodies)
        if body >= (cover.good[0][0] + cover.good[0][1]) / 2
    ]
    assume(seen)
    assert seen == sorted(seen)


@given(
    worn=st.tuples(EVERY, st.sampled_from(["headcollar", "cavesson"])),
    grown=st.booleans(),
    body=st.floats(250, 1200),
    sd=st.floats(0.01, 40),
    lengths=st.tuples(st.floats(300, 1100), st.floats(0, 200)),
    holes=st.integers(1, 9),
)
def test_a_longer_strap_is_never_too_short_where_a_shorter_one_was_not(
    worn: tuple[str, str],
    grown: bool,
    body: float,
    sd: float,
    lengths: tuple[float, float],
    holes: int,
) -> None:
    (part, kind), (longest, longer) = worn, lengths
    assume(longest - 20 * holes > 0)
    kind = kind if KIND_OF[part] == "headcollar" else "bridle"
    items = [
        strap(part, mm, holes=holes, spacing_mm=20, kind=kind)
        for mm in (longest, longest + longer)
    ]
    exactly = make_wearer(sized(part, body), grown=grown)
    loosely = make_wearer(sized(part, body, sd=sd), grown=grown)
    short, long = (rule_of_strap(exactly, item) for item in items)
    assert not _too_short(exactly, items[1], long) or _too_short(
        exactly, items[0], short
    )
    body_as_known = loosely.growth.at(long.measure, ON)
    assert body_as_known is not None
    small = [rule.chances(body_as_known).small for rule in (short, long)]
    assert small[1] <= small[0] + 1e-12


def _too_short(wearer: Wearer, item: Tack, rule: StrapRule) -> bool:
    found = strap_on(wearer, item)
    return found.answer is NO and rule.tight in found.why


@given(
    body=st.floats(350, 760),
    sd=st.floats(1, 30),
    holes=st.integers(1, 4),
    spacing=st.floats(8, 140),  # past 80 mm some noses lie between two holes
)
def test_the_chances_of_a_strap_are_those_of_each_body_it_may_be(
    body: float, sd: float, holes: int, spacing: float
) -> None:
    lengths = tuple(680 - spacing * hole for hole in range(holes))
    assume(lengths[-1] > 0)
    rule = NosebandRule(
        item="",
        kind="bridle",
        part="noseband",
        lengths=Lengths(
            shortest_mm=lengths[-1], longest_mm=lengths[0], on_holes=lengths
        ),
        window=STRAPS["noseband"],
    )
    found = rule.chances(spread(body, sd))
    assert -1e-9 <= found.good <= 1 - found.no + 1e-6
    # summed over the bodies it may be, one by one
    normal = spread(body, sd)
    steps = [body + sd * step / 200 for step in range(-1200, 1201)]
    good = no = 0.0
    for low, high in pairwise(steps):
        share = normal.below(high) - normal.below(low)
        best = _best(rule.window, lengths, (low + high) / 2)
        good += share * (best is GOOD)
        no += share * (best is NO)
    # each of the edges lies inside one step, and is forgiven 0.05 mm
    off = 4 * holes * 0.4 * (0.005 + 0.05 / sd)
    assert found.good == pytest.approx(good, abs=off)
    assert found.no == pytest.approx(no, abs=off)
    assert found.small == pytest.approx(1 - normal.below(680.05))


def _best(window: Window, lengths: tuple[float, ...], body: float) -> Answer:
    answers = (window.answer_at(length - body) for length in lengths)
    return min(answers, key=ORDER.index)


@given(
    part=EVERY,
    kind=st.sampled_from(["headcollar", "cavesson"]),
    body=st.floats(300, 1300),
    holes=st.integers(1, 9),
    spacing=st.sampled_from([12.7, 20.0, 40.0, 60.0]),
)
def test_a_strap_covers_the_bodies_that_its_rule_calls_good(
    part: str, kind: str, body: float, holes: int, spacing: float
) -> None:
    measure, _ = MEASURE_OF[part]
    worn = kind if KIND_OF[part] == "headcollar" else "bridle"
    item = strap(part, 700, holes=holes, spacing_mm=spacing, kind=worn)
    wearer = make_wearer(sized(part, body))
    found = covers(wearer, (item,), (), ON)
    cover = next(one for one in found if one.measure == measure)
    edges = [*sum(cover.good, ()), cover.least_mm, cover.most_mm]
    assume(all(abs(body - edge) > 0.3 for edge in edges))
    answer = strap_on(wearer, item).answer
    assert (answer is GOOD) == any(low <= body <= high for low, high in cover.good)
    if not cover.least_mm <= body <= cover.most_mm:
        assert answer is NO
    assert len(cover.holes) == holes
