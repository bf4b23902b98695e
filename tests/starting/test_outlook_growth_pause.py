"""A growth pause on the plan, in the diary and on the first page."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from fitting.body import Taken
from fitting.fit import Part, Tack
from fitting.tryons import TryOn
from starting.diary import Entry
from starting.gates import GateAnswer, Off
from starting.outlook import MeasuredText, Outlook, look_at_yard
from starting.outlook.values import StageLook
from starting.programme import shipped
from tests.fitting.making_croup import FIRST, both, day, several
from tests.starting.making_outlook import (
    established,
    good_session,
    horse_facts,
    measured,
    yard_facts,
)

SADDLE = Tack(
    name="Brown saddle", kind="saddle", parts=(Part(part="panel", length_mm=420),)
)
FOUR_WEEKS = timedelta(days=28)
OTHERS = (
    ("back_length", 450.0, "tape"),
    ("back_width_front", 300.0, "gauge"),
    ("back_width_last_rib", 320.0, "gauge"),
    ("heart_girth", 1600.0, "tape"),
    ("head_length", 980.0, "tape"),
    ("mouth_width", 118.0, "dowel"),
    ("weight", 380.0, "weigh_tape"),
    ("cannon_round", 180.0, "tape"),
    ("condition_score", 5.0, "eye"),
)
HIGH_TWICE = ((-60, 25.0), (-9, 65.0), (-2, 66.0))
ENDS = day(-2) + FOUR_WEEKS


def up_to(stage: str) -> tuple[str, ...]:
    keys = [one.key for one in shipped().stages]
    return tuple(keys[: keys.index(stage)])


def looked(*pairs: tuple[int, float], on: date = FIRST, **horse: Any) -> Outlook:
    """Return the outlook of a filly of three years with her first saddle under way.

    Her saddle was seen to sit right the day before.
    """
    taken = several(*pairs) + horse.pop("also", ())
    saddled = day(-1)
    horse.setdefault("foaled", read_foaled((FIRST - timedelta(days=1130)).isoformat()))
    horse.setdefault("records", established(up_to("saddle"), day(-20)))
    horse.setdefault("sessions", (good_session("saddle", saddled),))
    text = tuple(MeasuredText(taken=one, text="as read") for one in taken)
    known = (*text, *(measured_on(*one) for one in OTHERS))
    seen = TryOn(on=saddled, item=SADDLE.name, how="worn", answer="good")
    facts = horse_facts(measured=known, tryons=(seen,), **horse)
    return look_at_yard(yard_facts(facts, tack=(SADDLE,)), on)[0]


def measured_on(measure: str, value: float, method: str) -> MeasuredText:
    return measured(measure, day(-1), value, method)


def stage(found: Outlook, key: str) -> StageLook:
    look = found.stage(key)
    assert look is not None
    return look


def answer(found: Outlook, key: str) -> GateAnswer:
    gates = stage(found, key).gates
    return next(one.answer for one in gates if one.gate == "growth_pause")


def measuring(found: Outlook, measure: str = "croup height") -> list[Entry]:
    return [e for e in found.entries if e.kind == "measure" and measure in e.text]


def test_what_is_under_way_waits_and_is_dated_after_the_pause() -> None:
    before = looked((-60, 25.0), (-2, 26.0))
    assert stage(before, "saddle").may_start
    assert stage(before, "saddle").next_on == FIRST
    paused = looked(*HIGH_TWICE)
    saddle = stage(paused, "saddle")
    assert answer(paused, "saddle") is GateAnswer.SHUT
    assert not saddle.may_start
    assert saddle.next_on == ENDS
    assert "high twice running" in saddle.because
    for one in paused.stages:
        if any(gate.gate == "growth_pause" for gate in one.gates) and one.start:
            assert one.start >= ENDS


def test_the_first_page_says_why_and_suggests_nothing_it_bars() -> None:
    paused = looked(*HIGH_TWICE)
    assert paused.why_not_more.startswith(
        "First saddle: not now. Tansy's croup was high twice running"
    )
    assert paused.why_not_more_stage == "saddle"
    barred = {
        one.stage
        for one in paused.stages
        if any(gate.gate == "growth_pause" for gate in one.gates)
    }
    assert not barred & {one.stage for one in paused.can_do_now}
    assert "saddle" in {one.stage for one in looked((-2, 26.0)).can_do_now}


def test_what_a_pause_bars_is_not_gone_over_again() -> None:
    records = established(up_to("off_the_lead"), day(-50))
    calm = looked((-2, 26.0), records=records, sessions=())
    again = {s.stage for s in calm.can_do_now if s.state == "go_over_again"}
    lapsed = {s.stage for s in calm.stages if s.go_over_again}
    assert "led_walk" in again
    paused = looked(*HIGH_TWICE, records=records, sessions=())
    assert {s.stage for s in paused.stages if s.go_over_again} == lapsed
    assert "led_walk" not in {s.stage for s in paused.can_do_now}


def test_off_work_is_said_before_a_pause() -> None:
    off = Off(start=day(-3), why="lame", cleared_by="the vet")
    assert looked(*HIGH_TWICE, off=(off,)).why_not_more == ""


def test_a_pause_is_not_the_reason_of_what_is_too_young_or_not_prepared() -> None:
    young = looked(
        *HIGH_TWICE,
        foaled=read_foaled((FIRST - timedelta(days=400)).isoformat()),
        records=(),
        sessions=(),
    )
    assert answer(young, "saddle") is GateAnswer.SHUT
    assert "twice running" not in young.why_not_more


def test_both_are_measured_on_the_day_a_pause_ends() -> None:
    paused = looked(*HIGH_TWICE)
    (first, *_) = paused.measuring_days
    assert first.on == ENDS
    assert {"croup_height", "withers_height"} <= set(first.measures)
    (entry, *_) = measuring(paused)
    assert entry.on == ENDS
    assert "with the withers, as the growth pause ends" in entry.text


def test_both_are_measured_a_week_after_a_high_reading_and_within_two() -> None:
    found = looked((-60, 25.0), (-1, 65.0))
    assert answer(found, "saddle") is GateAnswer.CAUTION
    day_of = {m: d.on for d in reversed(found.measuring_days) for m in d.measures}
    assert day_of["croup_height"] == day_of["withers_height"]
    assert day(6) <= day_of["croup_height"] <= day(13)
    assert "the croup was high" in measuring(found)[0].text


def test_never_taken_together_both_are_measured_before_the_first_such_step() -> None:
    found = looked()
    assert answer(found, "saddle") is GateAnswer.NOT_KNOWN
    days = [d for d in found.measuring_days if "croup_height" in d.measures]
    assert days[0].on == FIRST
    assert "withers_height" in days[0].measures


def test_each_alone_on_its_day_is_asked_for_together_again() -> None:
    withers, _ = both(-5, 25)
    _, croup = both(-4, 25)
    found = looked(also=(withers, croup))
    assert answer(found, "saddle") is GateAnswer.NOT_KNOWN
    assert {"croup_height", "withers_height"} <= set(found.measuring_days[0].measures)
    assert found.measuring_days[0].on == FIRST


def test_nothing_is_asked_for_together_years_before_any_such_step() -> None:
    withers: tuple[Taken, ...] = both(-5, 25)[:1]
    found = looked(
        also=withers,
        foaled=read_foaled((FIRST - timedelta(days=400)).isoformat()),
        records=(),
        sessions=(),
    )
    soon = [d for d in found.measuring_days if d.on < day(60)]
    assert not any("croup_height" in d.measures for d in soon)


@pytest.mark.parametrize("pairs", [HIGH_TWICE, ((-60, 25.0), (-1, 65.0))])
def test_a_grown_horse_is_asked_for_nothing(
    pairs: tuple[tuple[int, float], ...],
) -> None:
    found = looked(*pairs, grown=True, programme=None, records=(), sessions=())
    assert found.measuring_days == ()


def test_every_step_on_a_circle_under_saddle_or_with_a_rider_asks() -> None:
    asking = {s.key for s in shipped().stages if "growth_pause" in s.gates_dated}
    assert asking == {
        "big_circle", "saddle", "ready_check", "person_above", "leaned_over",
        "astride", "led_walk", "off_the_lead", "first_trot", "first_hack",
        "riding_away", "brought_back",
    }  # fmt: skip
