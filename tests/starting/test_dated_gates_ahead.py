"""Each planned day is asked of the gates themselves: none dated is shut on it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.age import read_foaled
from starting.gates import CareDone, GateAnswer, Off, Passed, RestSpan, gates_of, holds
from starting.gates.season import answer_in, winters_ahead
from starting.outlook import HorseFacts
from starting.outlook.again import of_step
from starting.outlook.compute import _sight
from starting.outlook.work import yard_days
from starting.programme import shipped
from starting.progress import Incident
from starting.schedule import PlannedStage, plan_yard
from tests.starting.making_ahead import ahead_of
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    TODAY,
    established,
    good_session,
    horse_facts,
    yard_facts,
)
from tests.starting.schedule_checker import broken_rules

OUTDOORS = tuple(s.key for s in shipped().stages if "season" in s.gates_dated)
UP_TO_THE_BIT = (*BEFORE_THE_BRIDLE, "bridle", "mouthing", "led_in_bit")
DAY = timedelta(days=1)
NOVEMBER = date(2026, 11, 10)


def ready_for_the_roller(**fields: Any) -> HorseFacts:
    fields.setdefault("foaled", read_foaled("2023-10-05"))
    fields.setdefault("records", established(UP_TO_THE_BIT, date(2026, 9, 20)))
    return horse_facts(**fields)


def reason(stage: str, on: date) -> Passed:
    why = "The sand is dry."
    return Passed(stage=stage, gate="season", reason=why, who="Jo", on=on)


def planned(
    horse: HorseFacts, on: date = TODAY, **fields: Any
) -> dict[str, PlannedStage]:
    """Return the plan by step, once nothing is wrong with it."""
    yard = replace(yard_facts(horse), **fields)
    ahead, days = ahead_of(horse, yard, on), yard_days(yard)
    plans = plan_yard([ahead], days, on)
    assert broken_rules([ahead], days, on, plans) == []
    facts = _sight(yard, horse, on).facts
    assert facts is not None
    for one in plans[0].stages:
        stage = shipped().stage(of_step(one.stage))
        for day in one.days:
            gates = [g for g in gates_of(stage, facts, day) if g.kind == "dated"]
            shut = {g.gate for g in gates if holds(g) and g.gate != "stages_before"}
            assert not shut, (one.stage, day, shut)
    return {one.stage: one for one in plans[0].stages}


def test_five_steps_are_for_out_of_doors() -> None:
    assert len(OUTDOORS) == 5
    assert {"roller", "long_reins"} < {*OUTDOORS}


@pytest.mark.parametrize("hemisphere", ["north", "south"])
def test_no_day_of_an_outdoor_step_lies_in_any_winter(hemisphere: str) -> None:
    foal = horse_facts(foaled=read_foaled("2026-05-01"), as_early_as_allowed=True)
    plan = planned(foal, hemisphere=hemisphere, sessions_a_day=1)
    dated = [key for key in OUTDOORS if plan[key].days]
    assert dated
    for key in dated:
        answers = {answer_in(day, hemisphere) for day in plan[key].days}
        assert answers == {GateAnswer.MET}


def test_a_step_reached_in_a_later_winter_waits_for_spring() -> None:
    summer = date(2026, 8, 10)
    young = ready_for_the_roller(
        foaled=read_foaled("2024-05-15"),  # 30 months in mid-November 2026
        records=established(UP_TO_THE_BIT, date(2026, 7, 20)),
        as_early_as_allowed=True,
    )
    roller = planned(young, summer)["roller"]
    assert roller.start == date(2027, 3, 1)
    assert (roller.because.kind, roller.because.subject) == ("gate", "season")
    assert roller.because.text == (
        "Out of doors this step is for March to October (ours): 1 Mar 2027"
    )
    under_cover = planned(young, summer, covered=True)["roller"]
    assert under_cover.start == date(2026, 11, 15)


def test_a_step_begun_in_october_pauses_over_winter_and_says_so() -> None:
    october = date(2026, 10, 26)
    roller = planned(ready_for_the_roller(as_early_as_allowed=True), october)["roller"]
    assert {day.month for day in roller.days} == {10, 3}
    assert roller.finish_because is not None
    assert roller.finish_because.subject == "season"


def test_a_written_reason_opens_its_own_part_of_this_winter_and_no_other() -> None:
    early = ready_for_the_roller(as_early_as_allowed=True)
    held = planned(early, NOVEMBER)["roller"]
    assert held.start == date(2027, 3, 1)
    passed = (reason("roller", NOVEMBER),)
    november = planned(
        replace(early, passed=passed), NOVEMBER, free_days=frozenset({0})
    )
    months = [day.month for day in november["roller"].days]
    assert months[:2] == [11, 11]
    assert set(months[2:]) == {3}
    december = date(2026, 12, 5)
    passed = (reason("roller", december),)
    midwinter = planned(
        replace(early, passed=passed), december, free_days=frozenset({0})
    )
    months = [day.month for day in midwinter["roller"].days]
    assert months[0] == 12
    assert {1, 2} & set(months)


def test_a_step_gone_over_again_keeps_to_its_season_too() -> None:
    """Roller is established, and due once more before the long reins."""
    horse = ready_for_the_roller(
        records=established((*UP_TO_THE_BIT, "roller"), date(2026, 9, 1)),
        sessions=(good_session("roller", date(2026, 9, 1)),),
        as_early_as_allowed=True,
    )
    plan = planned(horse, NOVEMBER)
    assert plan["roller:again"].start == date(2027, 3, 1)


SCENES: dict[str, dict[str, Any]] = {
    "rest": {"rests": (RestSpan(start=TODAY + 9 * DAY, end=TODAY + 130 * DAY),)},
    "off_work": {"off": (Off(start=TODAY - DAY, why="Lame", until=TODAY + 40 * DAY),)},
    "gelded": {"care": (CareDone(kind="gelding", on=TODAY - 3 * DAY),), "she": "he"},
    "fell": {"incidents": (Incident(on=TODAY - 3 * DAY, what="fall"),)},
    "teeth": {
        "care": (
            CareDone(
                kind="teeth", on=TODAY - DAY, wolf_teeth="out",
                healing_until=TODAY + 20 * DAY,
            ),
        )
    },
}  # fmt: skip


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("covered", [True, False])
def test_what_holds_for_a_time_holds_the_plan(scene: str, *, covered: bool) -> None:
    plan = planned(ready_for_the_roller(**SCENES[scene]), covered=covered)
    assert any(one.days for one in plan.values())


DAYS = st.dates(date(2024, 1, 1), date(2036, 12, 31))


@settings(max_examples=60)
@given(DAYS, st.sampled_from(["north", "south"]))
def test_the_winters_ahead_are_the_days_the_gate_does_not_meet(
    on: date, side: str
) -> None:
    until = on + 800 * DAY
    spans = winters_ahead(on, until, side)
    assert all(on < first <= last for first, last in spans)
    first_met = next(
        on + n * DAY
        for n in range(1, 200)
        if answer_in(on + n * DAY, side) is GateAnswer.MET
    )
    for n in range((first_met - on).days, 800):
        day = on + n * DAY
        closed = any(first <= day <= last for first, last in spans)
        assert closed is (answer_in(day, side) is not GateAnswer.MET)
