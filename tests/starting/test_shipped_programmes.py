"""The shipped ways up, and what each changes in the usual one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from starting.gates import Somebody
from starting.outlook import Aim, HorseFacts, Outlook, brief_of, look_at_yard
from starting.programme import Programme, mounted, shipped, shipped_keys, shipped_text
from tests.starting.making_outlook import (
    TODAY,
    established,
    horse_facts,
    yard_facts,
)

OTHERS = [key for key in shipped_keys() if key != "default"]
LATER_RIDDEN = {
    "ready_check": (42, (44, 54)),
    "person_above": (42, (44, 54)),
    "leaned_over": (42, (44, 54)),
    "astride": (42, (44, 54)),
    "led_walk": (42, (44, 54)),
    "off_the_lead": (42, (45, 57)),
    "first_trot": (42, (45, 57)),
    "first_hack": (42, (45, 57)),
    "riding_away": (42, (45, 57)),
    "turned_away": (43, (46, 60)),
    "brought_back": (48, (52, 66)),
}
LATER_TACKED = dict.fromkeys(
    ("roller", "long_reins", "long_reins_on_bit", "long_reins_out", "saddle"),
    (33, (36, 44)),
)
NOT_AT_FOOT = {
    "company", "first_headcollar", "feet", "led_with_dam", "ramp_with_dam", "weaned",
}  # fmt: skip
HANDLING = {
    "handling_block", "tied_and_groomed", "led_out", "travels", "stands_to_measure",
    "yields_in_hand",
}  # fmt: skip
WITH_TRAINER = {"ready_check", "person_above", "leaned_over", "astride", "led_walk"}
WAY_BACK = (
    "body_check", "yields_in_hand", "bridle", "led_in_bit", "roller",
    "long_reins_on_bit", "long_reins_out", "saddle", "ready_check",
)  # fmt: skip


def gone(key: str) -> set[str]:
    kept = {stage.key for stage in shipped(key).stages}
    return {stage.key for stage in shipped().stages} - kept


def ages(key: str) -> dict[str, tuple[float, tuple[float, float]]]:
    usual = {s.key: s for s in shipped().stages}
    return {
        s.key: (s.earliest_months, s.typical_months)
        for s in shipped(key).stages
        if (s.earliest_months, s.typical_months)
        != (usual[s.key].earliest_months, usual[s.key].typical_months)
    }


def test_five_ways_up_are_shipped_the_usual_one_first() -> None:
    assert shipped_keys() == (
        "default", "small_pony", "late_big_heavy", "late_starter", "restart",
    )  # fmt: skip
    assert len({shipped(key).name for key in shipped_keys()}) == 5


def test_a_small_pony_is_ridden_later_and_may_finish_in_long_reins() -> None:
    pony = shipped("small_pony")
    assert ages("small_pony") == LATER_RIDDEN
    assert gone("small_pony") == set()
    assert pony.stage("long_reins_on_bit").min_good_sessions == 8
    assert pony.stage("long_reins_out").min_good_sessions == 8
    assert pony.may_end_at == "long_reins_out"
    assert not pony.stage("turned_away").optional


def test_a_big_horse_is_led_out_sooner_and_all_else_is_later() -> None:
    assert ages("late_big_heavy") == LATER_RIDDEN | LATER_TACKED | {
        "led_out": (9, (10, 18))
    }
    assert gone("late_big_heavy") == {"big_circle", "side_reins"}
    assert shipped("late_big_heavy").stage("riding_away").first_minutes == (8, 20)


def test_a_late_starter_walks_through_the_handling_steps_by_clean_days() -> None:
    late = shipped("late_starter")
    assert gone("late_starter") == NOT_AT_FOOT
    assert {s.key for s in late.stages if s.clean_days == 2} == HANDLING
    assert {s.key for s in late.stages if s.clean_days} == HANDLING
    assert (late.settle_days, late.more_sessions) == (14, 1.5)
    assert ages("late_starter") == {}


@pytest.mark.parametrize("key", ["late_starter", "restart"])
def test_a_thin_history_asks_for_a_trainer_before_a_rider(key: str) -> None:
    asking = {s.key for s in shipped(key).stages if "trainer" in s.gates_to_do}
    assert asking - {"side_reins"} == WITH_TRAINER


def test_a_restart_begins_with_the_check_and_one_clean_day_of_each() -> None:
    again = shipped("restart")
    keys = [s.key for s in again.stages]
    assert tuple(keys[: len(WAY_BACK)]) == WAY_BACK
    assert again.stage("body_check").prerequisites == ()
    assert {s.key for s in again.stages if s.clean_days} == {
        "yields_in_hand", "bridle", "led_in_bit", "roller", "long_reins_on_bit",
        "saddle", "person_above", "leaned_over", "astride", "led_walk",
    }  # fmt: skip
    assert "wolf_teeth" in again.stage("led_in_bit").gates_to_do


@pytest.mark.parametrize("key", OTHERS)
def test_no_shipped_way_up_lowers_a_floor_or_an_age(key: str) -> None:
    for stage in shipped(key).stages:
        usual = shipped().stage(stage.key)
        assert stage.floor_months == usual.floor_months
        assert stage.earliest_months >= usual.earliest_months
        assert set(stage.gates_to_do) >= set(usual.gates_to_do)
        assert set(stage.gates_on_the_day) >= set(usual.gates_on_the_day)
        assert stage.stop_signs == usual.stop_signs
        assert stage.cautions == usual.cautions


@pytest.mark.parametrize("key", OTHERS)
def test_a_step_taken_out_hands_on_what_it_waited_for(key: str) -> None:
    """No step with tack or a rider opens sooner because one before it is gone."""
    way, usual = shipped(key), shipped()
    kept = {s.key for s in way.stages}
    for stage in way.stages:
        if (stage.floor_months or 0) and not usual.stage(stage.key).optional:
            assert _far(way, stage.key) >= {
                k for k in _far(usual, stage.key) & kept if _holds(usual, k)
            } - {"cloth_and_ropes", "stands_to_measure", *HANDLING}


def _holds(way: Programme, key: str) -> bool:
    return not way.stage(key).optional


def _far(way: Programme, key: str) -> set[str]:
    found: set[str] = set()
    todo = list(way.stage(key).prerequisites)
    while todo:
        one = todo.pop()
        found.add(one)
        todo += way.stage(one).prerequisites
    return found


def test_a_shipped_way_up_is_one_whole_text_of_its_own() -> None:
    for key in shipped_keys():
        assert shipped_text(key).count("[[stage]]") == len(shipped(key).stages)
    assert len({shipped(key).digest for key in shipped_keys()}) == 5


# A horse on each of them


def look(**fields: Any) -> Outlook:
    (outlook,) = look_at_yard(yard_facts(horse_facts(**fields)), TODAY)
    return outlook


@pytest.mark.parametrize("key", OTHERS)
@pytest.mark.parametrize("foaled", ["2026-05-01", "2024-04-24", "2021-06-01"])
def test_every_shipped_way_up_plans_for_a_horse_of_any_age(
    key: str, foaled: str
) -> None:
    outlook = look(
        programme=shipped(key),
        foaled=read_foaled(foaled),
        rider=Somebody(name="Perrin", weight_kg=30.0, has_backed_horses=True),
    )
    keys = [stage.key for stage in shipped(key).stages]
    assert [look.stage for look in outlook.stages] == keys
    first = outlook.stages[0]
    assert first.start is not None or first.because
    ridden = [s for s in outlook.stages if mounted(shipped(key).stage(s.stage))]
    assert all(s.state == "waiting" for s in ridden)
    assert not outlook.complete


PONY = shipped("small_pony")
TO_THE_END = tuple(
    s.key for s in PONY.stages[: [k.key for k in PONY.stages].index("saddle")]
)


def pony(**fields: Any) -> HorseFacts:
    on = TODAY - timedelta(days=10)
    fields.setdefault("records", established(TO_THE_END, on))
    fields.setdefault("foaled", read_foaled("2023-04-24"))
    return horse_facts(programme=PONY, horse_type="small_pony", **fields)


def of(horse: HorseFacts, on: date = TODAY) -> Outlook:
    (outlook,) = look_at_yard(yard_facts(horse), on)
    return outlook


def test_a_small_pony_without_a_rider_is_complete_in_long_reins() -> None:
    outlook = of(pony())
    since = "15 Nov 2026"
    assert outlook.complete == (
        f"Long-reined out is established since {since}: Tansy's way up is complete."
    )
    assert outlook.why_not_more == ""
    brief = brief_of(outlook)
    assert brief.complete == outlook.complete
    assert [state for _, state in brief.phases][-2:] == ["left_out", "left_out"]
    assert {s.state for s in outlook.stages[len(TO_THE_END) :]} == {"left_out"}
    assert outlook.stages[-1].because == (
        "Nobody is named to ride Tansy: the way up ends with Long-reined out."
    )
    assert not [w for w in outlook.wants.wanted if w.kind == "saddle"]


def test_a_small_pony_on_its_way_is_not_planned_for_a_rider_nobody_named() -> None:
    outlook = of(pony(records=established(TO_THE_END[:-1], TODAY)))
    assert outlook.complete == ""
    end = outlook.stage("long_reins_out")
    assert end is not None
    assert end.state in {"open", "waiting"}
    saddle = outlook.stage("saddle")
    assert saddle is not None
    assert saddle.state == "left_out"
    assert saddle.start is None


def test_a_rider_or_an_aim_beyond_takes_the_small_pony_on() -> None:
    rider = Somebody(name="Perrin", weight_kg=30.0, has_backed_horses=True)
    for more in ({"rider": rider}, {"aim": Aim(stage="astride")}):
        outlook = of(pony(**more))
        assert outlook.complete == ""
        saddle = outlook.stage("saddle")
        assert saddle is not None
        assert saddle.state != "left_out"


def test_the_usual_way_up_never_ends_before_a_rider() -> None:
    horse = replace(pony(), programme=shipped())
    assert of(horse).complete == ""
    assert not [s for s in of(horse).stages if s.state == "left_out"]


def test_what_was_begun_beyond_the_end_stays_as_it_is() -> None:
    saddled = (*TO_THE_END, "saddle")
    outlook = of(pony(records=established(saddled, TODAY)))
    saddle = outlook.stage("saddle")
    assert saddle is not None
    assert saddle.state == "established"
