"""The checker sees each rule that a plan leaves out, and every yard keeps them all."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from typing import Any

import pytest
from django.conf import settings

from starting.schedule import Closed, Hold, HorseAhead, YardDays, plan_yard
from tests.starting.making_schedule import (
    TODAY,
    day,
    make_ahead,
    make_horse,
    make_yard,
)
from tests.starting.schedule_checker import broken_rules

HELD = (Hold(gate="season", until=day(5), why="Season"),)
NEVER = (Hold(gate="vet", until=None, why="The vet said wait"),)
SHUT = (Closed(gate="season", first=day(1), last=day(3), why="Season"),)


def step(left: int = 4, **changed: Any) -> HorseAhead:
    return make_horse(make_ahead(left=left, **changed))


def kept(**facts: Any) -> HorseAhead:
    return make_horse(make_ahead(left=4), **facts)


def two(*before: str) -> HorseAhead:
    """Roller is checked before the bridle is done, but where it has to wait."""
    return make_horse(
        make_ahead("bridle", 2),
        make_ahead("roller", kind="check", prerequisites=before),
    )


def resting(days: int) -> HorseAhead:
    return make_horse(make_ahead("roller", kind="rest", rest_days=days))


PLAIN = make_yard()
# What is so, and what the scheduler is told: one rule left out.
LEFT_OUT: dict[str, tuple[HorseAhead, HorseAhead, YardDays, YardDays, str]] = {
    "a dated gate": (step(holds=HELD), step(), PLAIN, PLAIN, "opens"),
    "a gate nobody can date": (step(holds=NEVER), step(), PLAIN, PLAIN, "opens None"),
    "a gate that shuts again": (step(closed=SHUT), step(), PLAIN, PLAIN, "shut to"),
    "age": (step(earliest_months=37), step(), PLAIN, PLAIN, "too young"),
    "the usual age": (step(typical_months=(38, 40)), step(), PLAIN, PLAIN, "too young"),
    "the step before": (two("bridle"), two(), PLAIN, PLAIN, "bridle ends"),
    "a rest": (kept(rests=((day(1), day(2)),)), kept(), PLAIN, PLAIN, "resting"),
    "a rest without an end": (
        kept(rests=((day(1), None),)), kept(), PLAIN, PLAIN, "resting",
    ),
    "a rest of the programme": (resting(9), resting(8), PLAIN, PLAIN, "not 9 days"),
    "off work": (kept(off_work=((day(1), None),)), kept(), PLAIN, PLAIN, "off work"),
    "a care day": (kept(care_days=(day(1),)), kept(), PLAIN, PLAIN, "a care day"),
    "a vaccination": (
        kept(vaccinated=(day(-2),)), kept(), PLAIN, PLAIN, "vaccinated",
    ),
    "gelding": (kept(gelded=((day(-9), day(2)),)), kept(), PLAIN, PLAIN, "gelded"),
    "free days": (kept(), kept(), make_yard("0"), PLAIN, "not a free day"),
    "the helper": (
        step(people=2), step(), make_yard(helper="5"), PLAIN, "no helper",
    ),
    "the helper at first": (
        step(gates_on_the_day=("second_person_first",)),
        step(),
        make_yard(helper="5"),
        PLAIN,
        "no helper",
    ),
    "days a week": (
        step(days_a_week=(1, 2)), step(), PLAIN, PLAIN, "days in the week of",
    ),
    "days in a row": (step(days_in_a_row=2), step(), PLAIN, PLAIN, "day 3 in a row"),
    "days in a row, yesterday": (
        step(days_in_a_row=1, under_way=True, recent_days=(day(-1),)),
        step(days_in_a_row=1, under_way=True),
        PLAIN,
        PLAIN,
        "day 2 in a row",
    ),
    "one session a day": (step(), step(two_a_day=True), PLAIN, PLAIN, "2 sessions"),
    "today's session": (
        kept(recent_days=(TODAY,)), kept(), PLAIN, PLAIN, "a second session today",
    ),
    "the people's sessions": (
        step(two_a_day=True),
        step(two_a_day=True),
        make_yard(sessions=1),
        PLAIN,
        "the people have 1",
    ),
    "how many sessions": (step(left=5), step(), PLAIN, PLAIN, "4 of 5 days"),
}  # fmt: skip


@pytest.mark.parametrize("rule", LEFT_OUT)
def test_a_rule_the_scheduler_leaves_out_is_seen(rule: str) -> None:
    true, told, days, told_days, words = LEFT_OUT[rule]
    sound = plan_yard([true], days, TODAY)
    assert broken_rules([true], days, TODAY, sound) == []
    found = broken_rules([true], days, TODAY, plan_yard([told], told_days, TODAY))
    assert any(words in fault for fault in found), found


def test_sessions_of_two_horses_that_want_one_place_are_seen() -> None:
    horses = [kept(), replace(kept(), horse="Tansy")]
    few, many = make_yard(sessions=1), make_yard(sessions=2)
    found = broken_rules(horses, few, TODAY, plan_yard(horses, many, TODAY))
    assert any("the people have 1" in fault for fault in found)


def test_what_was_done_today_counts_among_the_people_s_sessions() -> None:
    few, tansy = make_yard(sessions=1), replace(kept(), horse="Tansy")
    horses = [kept(recent_days=(TODAY,)), tansy]
    sound = plan_yard(horses, few, TODAY)
    assert broken_rules(horses, few, TODAY, sound) == []
    assert sound[1].stages[0].start == day(2)  # the other horse has tomorrow
    told = plan_yard([kept(), tansy], make_yard(sessions=2), TODAY)
    found = broken_rules(horses, few, TODAY, told)
    assert any("the people have 1" in fault for fault in found)


def test_a_session_while_turned_away_is_seen() -> None:
    away = make_ahead("roller", kind="rest", rest_days=5)
    horse = make_horse(away, make_ahead("bridle", 2))
    grass = make_ahead("roller", kind="rest", ends_at_months=37)
    told = make_horse(grass, make_ahead("bridle", 2))
    (plan,) = plan_yard([told], PLAIN, TODAY)
    first = replace(plan.stages[0], finish=day(4))
    found = broken_rules(
        [horse], PLAIN, TODAY, [replace(plan, stages=(first, *plan.stages[1:]))]
    )
    assert any("turned away" in fault for fault in found)


def test_a_rest_that_begins_while_its_gate_is_shut_is_seen() -> None:
    shut = (Closed(gate="season", first=TODAY, last=day(3), why="Season"),)
    rest = make_horse(make_ahead(kind="rest", rest_days=3, closed=shut))
    assert broken_rules([rest], PLAIN, TODAY, plan_yard([rest], PLAIN, TODAY)) == []
    told = plan_yard([make_horse(make_ahead(kind="rest", rest_days=3))], PLAIN, TODAY)
    found = broken_rules([rest], PLAIN, TODAY, told)
    assert found == ["bridle: rests from 2026-03-02, season shut"]


PLAN = """
from tests.starting.making_ahead import ahead_of
from tests.starting.making_outlook import TODAY, horse_facts, yard_facts
from fitting.age import read_foaled
from starting.outlook.work import yard_days
from starting.schedule import plan_yard, spreads
horses = [horse_facts(name, foaled=read_foaled("2024-04-24")) for name in ("A", "B")]
yard = yard_facts(*horses, helper_days=frozenset({2, 5}))
ahead = [ahead_of(horse, yard, TODAY) for horse in horses]
plans = plan_yard(ahead, yard_days(yard), TODAY)
print(plans, spreads(ahead, yard_days(yard), TODAY, plans))
"""


def test_another_process_plans_the_same_byte_for_byte() -> None:
    """Sets are gone through in another order in each."""
    bodies = {
        subprocess.run(
            [sys.executable, "-c", PLAN],
            cwd=settings.BASE_DIR,
            env={**os.environ, "PYTHONHASHSEED": seed},
            check=True,
            capture_output=True,
        ).stdout
        for seed in ("1", "2")
    }
    (body,) = bodies
    assert len(body) > 10_000
