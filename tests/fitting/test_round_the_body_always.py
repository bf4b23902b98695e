"""What holds of every roller, girth and rug on any body."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Tack
from fitting.fit.covers import covers
from fitting.fit.findings import rules
from fitting.fit.rollers import RollerRule
from fitting.fit.straps import StrapRule
from fitting.units import read_length
from tests.fitting.making_fit import GOOD, NO, ON, WATCH, make_wearer
from tests.fitting.making_round_the_body import (
    INCH,
    STRAP,
    body_of,
    girth,
    long_roller,
    on_body,
    roller,
    rug,
)

OFF_EDGE = 0.2  # mm: more than what an edge forgives
IN_ORDER = {NO: 0, WATCH: 1, GOOD: 2}


@given(
    length=st.floats(1300, 1800),
    body=st.floats(1300, 1800),
    sd=st.floats(0.1, 200),
    kind=st.sampled_from(["roller", "girth", "rug"]),
)
def test_the_chances_of_what_goes_round_the_body_are_chances(
    length: float, body: float, sd: float, kind: str
) -> None:
    made = {"roller": long_roller, "girth": girth, "rug": rug}[kind](length)
    growth = body_of(body, sd)
    (rule,) = rules(make_wearer(growth), (made,), (), ON)
    assert isinstance(rule, RollerRule | StrapRule)
    spread = growth.at("heart_girth", ON)
    assert spread is not None
    found = rule.chances(spread)
    assert found.good >= -1e-12
    assert -1e-12 <= found.small <= found.no + 1e-12
    assert found.good + found.no <= 1 + 1e-4 / sd + 1e-9


ITEMS = st.sampled_from([roller(), girth(1560.0), rug(1560.0)])


@given(item=ITEMS, body=st.floats(1300, 1800))
def test_what_goes_round_the_body_covers_what_its_rule_calls_good(
    item: Tack, body: float
) -> None:
    (cover,) = covers(make_wearer(body_of(body)), (item,), (), ON)
    edges = [*sum(cover.good, ()), cover.least_mm, cover.most_mm]
    if min(abs(body - edge) for edge in edges) < OFF_EDGE:
        return
    answer = on_body(item, body).answer
    assert (answer is GOOD) == any(low <= body <= high for low, high in cover.good)
    assert (answer is NO) == (not cover.least_mm <= body <= cover.most_mm)


@given(item=ITEMS, start=st.floats(1300, 1800), sd=st.floats(0.1, 60))
def test_once_good_growth_takes_it_through_watch_to_no_and_never_back(
    item: Tack, start: float, sd: float
) -> None:
    # Exception, stated: too long comes before good, and growth mends that.
    answers = [on_body(item, start + grown, sd).answer for grown in range(0, 700, 20)]
    if GOOD not in answers:
        return
    ranks = [IN_ORDER[answer] for answer in answers[answers.index(GOOD) :]]
    assert ranks == sorted(ranks, reverse=True)
    assert ranks[-1] == IN_ORDER[NO]


@given(
    body=st.floats(1300, 1800),
    sd=st.floats(0.1, 60),
    more=st.floats(0, 300),
    kind=st.sampled_from(["roller", "girth", "rug"]),
)
def test_a_longer_one_is_never_too_short_where_a_shorter_was_not(
    body: float, sd: float, more: float, kind: str
) -> None:
    def small(length: float) -> float:
        made = {
            "roller": roller(replace(STRAP, longest_mm=length)),
            "girth": girth(length),
            "rug": rug(length),
        }[kind]
        growth = body_of(body, sd)
        (rule,) = rules(make_wearer(growth), (made,), (), ON)
        assert isinstance(rule, RollerRule | StrapRule)
        spread = growth.at("heart_girth", ON)
        assert spread is not None
        return rule.chances(spread).small

    assert small(1560 + more) <= small(1560) + 1e-12


@given(quarters=st.integers(200, 290), body=st.floats(1250, 1900))
def test_units_never_change_an_answer_about_what_goes_round_the_body(
    quarters: int, body: float
) -> None:
    inches = quarters / 4
    typed = (f"{inches:g} in", f"{inches * 2.54:g} cm", f"{inches * INCH:g} mm")
    lengths = [read_length(text, unit="cm").mm for text in typed]
    for kind in (long_roller, girth, rug):
        found = [on_body(kind(mm), body) for mm in lengths]
        assert len({(one.answer, one.hole, one.why) for one in found}) == 1
