"""Straps about the head: which length, on which hole, is good for which body."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise, product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitting.fit import Answer, MadeUp, Part, Tack, Wearer, fits
from fitting.fit.answers import Window
from fitting.fit.clearances import STRAPS
from fitting.fit.covers import covers
from fitting.fit.findings import rules
from fitting.fit.lengths import Lengths, lengths_of
from fitting.fit.nosebands import NosebandRule
from fitting.fit.straps import StrapRule
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import Seen, Tried, TryOn
from fitting.units import read_length
from tests.fitting.making_fit import BORN, ON, make_wearer, spread, steady
from tests.fitting.making_straps import (
    KIND_OF,
    MEASURE_OF,
    of_parts,
    sized,
    strap,
    strap_on,
    strap_over,
)
from tests.fitting.test_taught import YOUNG

GOOD, WATCH, NO, UNKNOWN = Answer.GOOD, Answer.WATCH, Answer.NO, Answer.NOT_KNOWN
ORDER = [GOOD, WATCH, NO]
EVERY = st.sampled_from(sorted(KIND_OF))
NOSEBAND = Part(
    part="noseband", shortest_mm=560.0, longest_mm=680.0, holes=7, spacing_mm=20.0
)


@pytest.mark.parametrize(
    ("part", "room_mm", "answer"),
    [
        # the windows as they are laid down, edge by edge
        *(("noseband", room, GOOD) for room in (30, 42, 55)),
        *(("noseband", room, WATCH) for room in (0, 29.5, 55.5, 80)),
        *(("noseband", room, NO) for room in (-1, 80.5)),
        *(("browband", room, GOOD) for room in (10, 30, 50)),
        *(("browband", room, WATCH) for room in (0, 9.5, 50.5, 70)),
        *(("browband", room, NO) for room in (-1, 70.5)),
        *(("throatlash", room, GOOD) for room in (90, 110, 130)),
        *(("throatlash", room, WATCH) for room in (70, 89.5, 130.5, 160)),
        *(("throatlash", room, NO) for room in (69, 160.5)),
    ],
)
def test_a_strap_answers_by_its_room_over_the_body(
    part: str, room_mm: float, answer: Answer
) -> None:
    assert strap_over(part, 600 + room_mm, 600).answer is answer


@pytest.mark.parametrize(
    ("nose_mm", "hole", "answer"),
    [
        (625, 1, GOOD),  # hole 1 leaves 55 and hole 2 leaves 35: the loosest is named
        (624, 2, GOOD),
        (605, 2, GOOD),
        (585, 3, GOOD),
        (520, 7, GOOD),
        (480, 7, WATCH),  # 80 over even on the last
        (479, None, NO),
        (670, 1, WATCH),
        (681, None, NO),
    ],
)
def test_the_loosest_hole_that_is_good_is_named(
    nose_mm: float, hole: int | None, answer: Answer
) -> None:
    item = of_parts("bridle", NOSEBAND)
    found = strap_on(make_wearer(steady(nose_round=nose_mm)), item)
    assert (found.answer, found.hole) == (answer, hole)
    if hole is not None:
        assert (found.spare_longer, found.spare_shorter) == (hole - 1, 7 - hole)


@given(nose=st.floats(400, 760), holes=st.integers(1, 9), spacing=st.floats(8.0, 60.0))
def test_the_hole_named_is_the_best_by_trying_every_one(
    nose: float, holes: int, spacing: float
) -> None:
    item = strap("noseband", 680, holes=holes, spacing_mm=spacing)
    lengths = [680 - spacing * hole for hole in range(holes)]
    assume(lengths[-1] > 0)
    edges = (0, 30, 55, 80)
    assume(all(abs(one - nose - e) > 0.2 for one, e in product(lengths, edges)))
    answers = [STRAPS["noseband"].answer_at(one - nose) for one in lengths]
    best = min(answers, key=ORDER.index)
    found = strap_on(make_wearer(steady(nose_round=nose)), item)
    assert found.answer is best
    if best is GOOD:
        assert found.hole == answers.index(GOOD) + 1
    elif best is WATCH:
        assert found.hole is not None
        assert answers[found.hole - 1] is WATCH
        # too loose rather than too tight, where there is a choice
        loose = [one for one in lengths if 55 < one - nose < 80]
        if loose:
            assert lengths[found.hole - 1] == min(loose)
    else:
        assert found.hole is None


def test_a_strap_says_the_holes_left_to_let_down_before_those_to_take_up() -> None:
    item = of_parts("bridle", NOSEBAND)
    found = strap_on(make_wearer(steady(nose_round=605)), item)
    assert found.why == (
        "Hole 2 of 7, 55 mm more than round the nose: right."
        " 1 to let down, 5 to take up."
    )


def test_of_a_throatlash_s_good_holes_the_middlemost_is_named() -> None:
    part = Part(part="throatlash", length_mm=890, holes=5, spacing_mm=15)
    found = strap_on(make_wearer(steady(throat_round=780)), of_parts("bridle", part))
    # 890 on its middle hole, 110 more than the throat: the middle of the window
    assert (found.answer, found.hole, found.size_mm) == (GOOD, 3, 890)


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
    short, long = (_of_strap(exactly, item) for item in items)
    assert not _too_short(exactly, items[1], long) or _too_short(
        exactly, items[0], short
    )
    body_as_known = loosely.growth.at(long.measure, ON)
    assert body_as_known is not None
    small = [rule.chances(body_as_known).small for rule in (short, long)]
    assert small[1] <= small[0] + 1e-12


def _of_strap(wearer: Wearer, item: Tack) -> StrapRule:
    rule = rules(wearer, (item,), (), ON)[-1]
    assert isinstance(rule, StrapRule)
    return rule


def _too_short(wearer: Wearer, item: Tack, rule: StrapRule) -> bool:
    found = strap_on(wearer, item)
    return found.answer is NO and rule.tight in found.why


@pytest.mark.parametrize(
    ("nose_mm", "answer"),
    [(665, WATCH), (601, WATCH), (599, NO), (521, NO), (519, WATCH), (439, NO)],
)
def test_a_nose_between_two_holes_far_apart_is_a_no(
    nose_mm: float, answer: Answer
) -> None:
    # done up 680 or 520: 0 to 80 mm over the nose is worn at all
    item = strap("noseband", 680, holes=2, spacing_mm=160)
    assert strap_on(make_wearer(steady(nose_round=nose_mm)), item).answer is answer


def test_the_lengths_of_strap_that_would_be_good_are_named() -> None:
    found = strap_over("noseband", 700, 600)
    assert (found.needs_from_mm, found.needs_to_mm) == (630, 655)
    crown = strap_over("crown", 700, 1000)  # it lies along 880 of the head
    assert (crown.needs_from_mm, crown.needs_to_mm) == (820, 940)


@pytest.mark.parametrize("part", sorted(KIND_OF))
def test_a_strap_that_cannot_be_done_up_says_which_way(part: str) -> None:
    _, share = MEASURE_OF[part]
    wearer = make_wearer(sized(part, 600.0 / share))
    for length, loose in ((400.0, False), (1000.0, True)):
        item = strap(part, length, holes=3, spacing_mm=20)
        found, rule = strap_on(wearer, item), _of_strap(wearer, item)
        hole, mm = (3, length - 40 - 600) if loose else (1, 600 - length)
        assert (found.answer, found.hole) == (NO, None)
        assert (
            f"hole {hole} of 3, {mm:.0f} mm {'more' if loose else 'less'}" in found.why
        )
        assert found.why.endswith(f": {rule.loose if loose else rule.tight}.")


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


@pytest.mark.parametrize("part", sorted(KIND_OF))
def test_a_body_never_measured_is_asked_for_and_never_good(part: str) -> None:
    measure, _ = MEASURE_OF[part]
    growth = sized(part, 560.0, measured=False)
    found = strap_on(make_wearer(growth), strap(part, 600))
    asks = {
        "nose_round": "round the nose",
        "brow": "brow",
        "throat_round": "round the throat",
        "head_length": "head length",
    }
    assert (found.answer, found.ask) == (UNKNOWN, asks[measure])
    assert found.why.endswith("was never measured, and it was not put on lately.")


@pytest.mark.parametrize(
    ("part", "ask"),
    [
        (Part(part="noseband"), "length of the noseband"),
        (Part(part="browband"), "length of the browband"),
        (Part(part="throatlash"), "length of the throatlash"),
        (
            Part(part="noseband", longest_mm=680, holes=7),
            "hole spacing of the noseband",
        ),
        (Part(part="noseband", longest_mm=680), "the shortest of the noseband"),
        (Part(part="noseband", shortest_mm=580), "the longest of the noseband"),
        (
            Part(part="noseband", length_mm=650, holes=7, spacing_mm=20),
            "the hole the noseband was measured on",
        ),
        (
            Part(part="noseband", longest_mm=120, holes=7, spacing_mm=20),
            "hole spacing of the noseband",
        ),
    ],
)
def test_a_size_not_written_down_is_asked_for_and_never_good(
    part: Part, ask: str
) -> None:
    growth = steady(nose_round=600, brow=380, throat_round=780)
    found = strap_on(make_wearer(growth), of_parts("bridle", part))
    assert (found.answer, found.ask) == (UNKNOWN, ask)
    assert found.cautions


@pytest.mark.parametrize(
    ("part", "first", "last"),
    [
        (NOSEBAND, 680, 560),
        (replace(NOSEBAND, spacing_mm=None), 680, 560),
        (replace(NOSEBAND, longest_mm=None), 680, 560),
        (replace(NOSEBAND, shortest_mm=None), 680, 560),
        (
            Part(part="noseband", length_mm=640, hole=3, holes=7, strap_width_mm=20),
            680,
            560,
        ),
        (Part(part="noseband", longest_mm=600, holes=1), 600, 600),
    ],
)
def test_the_holes_follow_from_whichever_sizes_are_written_down(
    part: Part, first: float, last: float
) -> None:
    found = lengths_of(part, "nose_round")
    assert isinstance(found, Lengths)
    assert (found.on_holes[0], found.on_holes[-1]) == (first, last)
    assert found.on(1) == first
    assert (found.on(None), found.on(0), found.on(8)) == (None, None, None)


def test_a_strap_without_holes_is_done_up_anywhere_between_its_ends() -> None:
    part = Part(part="noseband", shortest_mm=560, longest_mm=680)
    item = of_parts("bridle", part)
    found = strap_on(make_wearer(steady(nose_round=580)), item)
    assert (found.answer, found.hole, found.size_mm) == (GOOD, None, 622.5)
    assert strap_on(make_wearer(steady(nose_round=690)), item).answer is NO
    assert "Let right out" in strap_on(make_wearer(steady(nose_round=690)), item).why


def test_a_strap_lasts_until_growth_takes_it_off_its_last_hole() -> None:
    growth = steady(nose_round=600, a_day={"nose_round": 0.1})
    found = strap_on(make_wearer(growth), of_parts("bridle", NOSEBAND))
    # hole 1 is good to 650, 50 mm or 500 days away
    assert found.good_until is not None
    assert (found.good_until - ON).days == pytest.approx(501, abs=1)
    assert found.reach_to_mm == 650
    holes = [
        strap_on(
            make_wearer(growth), of_parts("bridle", NOSEBAND), date(year, month, 1)
        ).hole
        for year, month in ((2026, 3), (2026, 9), (2027, 3))
    ]
    assert holes == [3, 2, 1]


def test_a_nose_known_loosely_is_watch_near_the_end_of_the_strap() -> None:
    wearer = make_wearer(steady(nose_round=672, sd=8.0))
    found = strap_on(wearer, of_parts("bridle", NOSEBAND))
    assert found.answer is WATCH
    # 8 mm or one SD until it is shorter than the nose
    assert found.chance_no == pytest.approx(0.157, abs=0.005)


def test_a_set_lends_its_straps_from_several_items() -> None:
    bridle = of_parts("bridle", NOSEBAND)
    band = Tack(
        name="Spare", kind="bridle", parts=(Part(part="browband", length_mm=400),)
    )
    made = MadeUp(name="Made", parts=(("noseband", bridle), ("browband", band)))
    wearer = make_wearer(steady(nose_round=600, brow=370))
    found = fits(wearer, (), (made,), ON)
    assert [(one.part, one.answer) for one in found] == [
        ("noseband", GOOD),
        ("browband", GOOD),
    ]


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


@pytest.mark.parametrize(
    ("part", "kind", "window"),
    [
        ("nose", "headcollar", STRAPS["young_headcollar_nose"]),
        ("crown", "headcollar", STRAPS["headcollar_crown"]),
        ("jowl", "headcollar", STRAPS["headcollar_jowl"]),
        ("nose", "cavesson", STRAPS["cavesson_nose"]),
        ("crown", "cavesson", STRAPS["cavesson_crown"]),
        ("jowl", "cavesson", STRAPS["cavesson_jowl"]),
    ],
)
@pytest.mark.parametrize(
    ("seen", "kind_of_bound", "way"),
    [
        ("too_short", "at_least", 1),
        ("too_long", "at_most", -1),
        ("sits_right", "about", 0),
    ],
)
def test_a_headcollar_or_cavesson_teaches_the_size_of_the_head(
    part: str, kind: str, window: Window, seen: Seen, kind_of_bound: str, way: int
) -> None:
    item = strap(part, 700, holes=5, spacing_mm=20, kind=kind)
    tried = Tried(part=part, seen=seen, hole=2)
    word = TryOn(on=ON, item=item.name, how="worn", parts=(tried,))
    (bound,) = bounds_of(YOUNG, TriedOn(tryons=(word,), tack=(item,)))
    measure, share = MEASURE_OF[part]
    assert (bound.measure, bound.kind) == (measure, kind_of_bound)
    middle = (window.good_from + window.good_to) / 2
    half = (window.good_to - window.good_from) / 2
    assert bound.value == pytest.approx((680 - middle + way * half) / share)
    assert bound.sigma == pytest.approx(half / share)
    assert bound.on > BORN
