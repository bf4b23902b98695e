"""What a rider with all tack comes to, as a gate."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.weight import BestWeight, Weight
from fitting.weight.best import WeightMethod
from starting.gates import Gate, GateAnswer, Passed, Somebody, may_start
from starting.gates.load import Load
from tests.starting.making_gates import ASTRIDE, ON, born, gate

DAY = timedelta(days=1)
MET, CAUTION, SHUT, NOT_KNOWN = (
    GateAnswer.MET, GateAnswer.CAUTION, GateAnswer.SHUT, GateAnswer.NOT_KNOWN,
)  # fmt: skip
FIVE_YEARS = born(date(2021, 3, 2))  # 60 months on ON
NEARLY_FIVE = born(date(2021, 3, 3))


def backed(kg: float | None) -> Somebody:
    return Somebody(name="Jo", weight_kg=kg, has_backed_horses=True)


def weighs(
    kg: float,
    method: WeightMethod = "weighbridge",
    share: float = 0.01,
    *,
    small: bool = False,
    until: date = ON,
) -> BestWeight:
    weight = Weight(on=ON - 7 * DAY, kg=kg, method=method, share=share, until=until)
    return BestWeight(weight=weight, why="", small=small, cautions=())


def asked(
    rider: Somebody | None = None,
    tack: float | None = 10.0,
    weight: BestWeight | None = None,
    **changes: Any,
) -> Gate:
    return gate(
        "rider_load", ASTRIDE, rider=rider, tack_kg=tack, weight=weight, **changes
    )


@pytest.mark.parametrize(
    ("rider_kg", "young", "grown"),
    [
        (49.0, MET, MET),  # 59 of 500 kg: 11.8 %, 11.92 by the lighter edge
        (50.0, CAUTION, CAUTION),  # 12 %, 12.12 by the lighter edge
        (65.0, CAUTION, CAUTION),  # 15 %
        (65.1, SHUT, CAUTION),
        (90.0, SHUT, CAUTION),  # 20 %
        (90.1, SHUT, SHUT),
    ],
)
def test_twelve_is_light_fifteen_the_most_of_the_young_twenty_of_all(
    rider_kg: float, young: GateAnswer, grown: GateAnswer
) -> None:
    for foaled, answer in ((NEARLY_FIVE, young), (FIVE_YEARS, grown)):
        found = asked(backed(rider_kg), weight=weighs(500), foaled=foaled)
        assert found.answer is answer
        assert found.may_pass is (answer is CAUTION)
        assert may_start([found]) is (answer is MET)


def test_twelve_in_a_hundred_exactly_is_light_where_the_weight_is_sure() -> None:
    sure = weighs(500, share=0.0)
    assert asked(backed(50.0), weight=sure).answer is MET
    assert asked(backed(50.01), weight=sure).answer is CAUTION


def test_the_lighter_edge_alone_is_a_caution_that_asks_for_a_scale() -> None:
    found = asked(backed(46), weight=weighs(500, "weigh_tape", 0.10))
    assert found.answer is CAUTION  # 56 of 500 is 11.2 %, of 450 it is 12.4 %
    assert found.why == (
        "Jo with all the tack is 11.2 % of Bracken's weight, but 12.4 % if Bracken is"
        " as light as the weight's error allows: use a scale; up to 12 % is light"
        " (ours)."
    )
    assert "or Bracken on a scale" in found.would_meet
    assert asked(backed(46), weight=weighs(500)).answer is MET


def test_over_the_limit_by_the_lighter_edge_alone_is_not_shut() -> None:
    found = asked(backed(60), weight=weighs(500, "formula", 0.10))
    assert found.answer is CAUTION  # 14 % by the middle, 15.6 by the edge
    assert "It is 15.6 % if Bracken is as light" in found.why


def test_a_novice_counts_a_tenth_more_and_the_tack_does_not() -> None:
    sure = weighs(500, share=0.0)
    assert asked(replace(backed(65)), weight=sure).answer is CAUTION
    novice = Somebody(name="Sam", weight_kg=65)
    found = asked(novice, weight=sure)  # 71.5 and 10 of 500: 16.3 %
    assert found.answer is SHUT
    assert "counted a tenth heavier as a novice, with all the tack is 16.3 %" in (
        found.why
    )
    assert found.would_meet == "A rider of 45 kg at most, dressed, with this tack."
    assert asked(replace(novice, weight_kg=45), weight=sure).answer is MET


def test_nobodys_kilograms_are_told() -> None:
    found = asked(backed(63), weight=weighs(500))
    assert "63" not in found.why + found.would_meet + found.caution


def test_tack_alone_too_heavy_says_so() -> None:
    found = asked(backed(20), tack=14, weight=weighs(100))
    assert found.answer is SHUT
    assert found.would_meet == "Less tack: this alone is more than 12 %."


GOOD = {"rider": backed(40), "tack": 8.0, "weight": weighs(500)}
MISSING = [
    ("rider", None, "who rides", "plan:people"),
    ("rider", backed(None), "what Jo weighs dressed", "people:weight"),
    ("tack", None, "what all the tack weighs", "plan:tack"),
    ("weight", None, "what Bracken weighs now", "weight:load"),
    (
        "weight",
        BestWeight(weight=None, why="", small=False, cautions=()),
        "what Bracken weighs now",
        "weight:load",
    ),
    ("weight", weighs(500, until=ON - DAY), "what Bracken weighs now", "weight:load"),
    (
        "weight",
        weighs(140, "formula", 0.1, small=True),
        "by a scale (under 100 cm nothing else is sure)",
        "weight:load",
    ),
]


@pytest.mark.parametrize(("fact", "value", "words", "record"), MISSING)
def test_each_missing_fact_is_not_known_and_holds(
    fact: str, value: object, words: str, record: str
) -> None:
    assert asked(**GOOD).answer is MET  # type: ignore[arg-type]
    why = Passed(stage="astride", gate="rider_load", reason="Light.", who="Jo", on=ON)
    found = asked(**{**GOOD, fact: value}, passed=(why,))  # type: ignore[arg-type]
    assert found.answer is NOT_KNOWN
    assert words in found.why
    assert found.record == record
    assert not found.may_pass
    assert not may_start([found])


def test_a_small_pony_on_a_scale_is_known() -> None:
    assert asked(backed(10), tack=5, weight=weighs(140, small=True)).answer is MET


def test_a_reason_from_before_the_last_weight_no_longer_counts() -> None:
    why = Passed(
        stage="astride", gate="rider_load", reason="Short.", who="Jo", on=ON - 7 * DAY
    )
    heavy = {"rider": backed(55), "weight": weighs(500)}
    assert asked(**heavy, passed=(why,)).went_ahead  # type: ignore[arg-type]
    early = replace(why, on=ON - 8 * DAY)
    assert not asked(**heavy, passed=(early,)).went_ahead  # type: ignore[arg-type]


ORDER = ["light", "unsure", "heavy", "too_heavy"]


@given(
    st.floats(1, 200), st.floats(0, 60), st.floats(60, 900), st.floats(0, 0.2),
    st.sampled_from([0.15, 0.20]),
)  # fmt: skip
def test_more_on_the_back_or_a_lighter_horse_is_never_lighter(
    kg: float, more: float, horse: float, share: float, limit: float
) -> None:
    weight = Weight(on=ON, kg=horse, method="eye", share=share, until=ON)
    load = Load(kg=kg, weight=weight, limit=limit)
    heavier = replace(load, kg=kg + more)
    lighter = replace(load, weight=replace(weight, kg=horse * 0.9))
    unsure = replace(load, weight=replace(weight, share=min(share + 0.05, 0.2)))
    level = ORDER.index(load.level)
    assert level <= ORDER.index(heavier.level)
    assert level <= ORDER.index(lighter.level)
    assert level <= ORDER.index(unsure.level)
