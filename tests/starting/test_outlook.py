"""One horse's outlook, from plain facts: everything joined, nothing faked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.age import read_foaled
from starting.gates import CareDone, Off, Passed, RestSpan
from starting.outlook import Brief, Outlook, brief_of, look_at_yard
from starting.outlook.to_dos import AHEAD_DAYS
from tests.starting.making_first_bit import BIT, BRIDLE, look, ready_for_a_bit
from tests.starting.making_outlook import (
    LAST_WEEK,
    TODAY,
    good_session,
    horse_facts,
    yard_facts,
)


def test_measuring_days_fall_on_free_days_and_stand_in_the_diary() -> None:
    horse = ready_for_a_bit()
    outlook = look(horse, free_days=frozenset({5}))
    assert outlook.measuring_days
    assert all(day.on.weekday() == 5 for day in outlook.measuring_days)
    in_diary = {e.on for e in outlook.entries if e.kind == "measure"}
    reached = TODAY + timedelta(days=AHEAD_DAYS)
    assert in_diary == {d.on for d in outlook.measuring_days if d.on <= reached}


def test_a_visit_that_will_have_run_out_by_the_step_is_in_the_diary() -> None:
    horse = ready_for_a_bit(
        care=(
            CareDone(kind="teeth", on=TODAY - timedelta(days=85), wolf_teeth="none"),
        ),
        sessions=(),
    )
    outlook = look(horse)
    visits = [e for e in outlook.entries if e.kind == "care"]
    assert any("teeth" in e.title for e in visits)


def test_a_grown_horse_is_asked_for_nothing() -> None:
    outlook = look(ready_for_a_bit(programme=None, grown=True))
    assert outlook.stages == ()
    assert outlook.measuring_days == ()
    assert outlook.entries == ()
    assert outlook.fits


def test_the_same_facts_give_the_same_outlook() -> None:
    assert look(ready_for_a_bit()) == look(ready_for_a_bit())


def test_horses_in_another_order_have_the_same_outlooks() -> None:
    one, other = ready_for_a_bit(), horse_facts("Bramling", records=())
    there = look_at_yard(yard_facts(one, other, tack=(BIT, BRIDLE)), TODAY)
    back = look_at_yard(yard_facts(other, one, tack=(BIT, BRIDLE)), TODAY)
    assert there == tuple(reversed(back))


def test_an_outlook_reads_back_as_it_was_written() -> None:
    outlook = look(ready_for_a_bit())
    brief = brief_of(outlook)
    assert msgspec.json.decode(msgspec.json.encode(outlook), type=Outlook) == outlook
    assert msgspec.json.decode(msgspec.json.encode(brief), type=Brief) == brief


@settings(max_examples=25)
@given(days=st.integers(0, 900))
def test_nothing_starts_before_its_earliest_age_unless_somebody_wrote_why(
    days: int,
) -> None:
    on = date(2024, 6, 1) + timedelta(days=days)
    outlook = look(horse_facts(), on)
    programme = horse_facts().programme
    assert programme is not None
    for stage in outlook.stages:
        floor = programme.stage(stage.stage).earliest_months
        if stage.start is not None and floor >= 1:
            months = (stage.start.year - 2024) * 12 + stage.start.month - 4
            assert months - (stage.start.day < 24) >= int(floor)


def test_nothing_new_is_for_today_just_after_a_vaccination() -> None:
    horse = ready_for_a_bit()
    jab = CareDone(kind="vaccination", on=TODAY - timedelta(days=1))
    calm = look(horse).can_do_now[0]
    after = look(replace(horse, care=(*horse.care, jab))).can_do_now[0]
    assert (calm.stage, calm.next_on) == ("mouthing", None)
    assert (after.stage, after.next_on) == ("mouthing", TODAY + timedelta(days=2))


def test_a_step_worked_its_days_in_a_row_is_not_for_today() -> None:
    days = [TODAY - timedelta(days=d) for d in (1, 2, 3)]
    horse = ready_for_a_bit(sessions=tuple(good_session("bridle", d) for d in days[:2]))
    three = replace(
        horse,
        sessions=tuple(replace(good_session("bridle", d), checks=()) for d in days),
    )
    assert look(horse).can_do_now[0].next_on is None
    later = look(three).can_do_now[0]
    assert later.stage == "bridle"
    assert later.next_on is not None
    assert later.next_on > TODAY


def test_what_is_worn_is_what_the_gate_found_to_fit() -> None:
    thick = replace(BIT, parts=(replace(BIT.parts[0], thickness_mm=30.0),))
    outlook = look(ready_for_a_bit(), tack=(thick, BRIDLE))
    assert all("Small eggbutt" not in s.wear for s in outlook.can_do_now)


def test_a_youngster_never_measured_is_measured_on_the_first_free_day() -> None:
    foal = horse_facts(foaled=read_foaled((TODAY - timedelta(days=300)).isoformat()))
    outlook = look(foal, free_days=frozenset({5}))
    first = outlook.measuring_days[0]
    assert first.on == TODAY + timedelta(days=3)  # Saturday
    assert set(first.measures) >= {"withers_height", "heart_girth", "weight"}


def test_a_foal_is_not_asked_for_what_needs_no_tape_at_its_age() -> None:
    foal = horse_facts(foaled=read_foaled((TODAY - timedelta(days=60)).isoformat()))
    asked = {m for day in look(foal).measuring_days[:1] for m in day.measures}
    assert "withers_height" in asked
    assert not asked & {"head_length", "mouth_width"}


def test_a_reason_for_going_ahead_early_brings_the_planned_day_forward() -> None:
    young = read_foaled((TODAY - timedelta(days=28 * 30 + 20)).isoformat())
    horse = ready_for_a_bit(foaled=young)
    early = Passed(
        stage="mouthing", gate="age", reason="Big and bored", who="Jo", on=TODAY
    )
    waits = look(horse).stage("mouthing")
    goes = look(replace(horse, passed=(early,))).stage("mouthing")
    assert waits is not None
    assert goes is not None
    assert waits.start is not None
    assert waits.start > TODAY
    assert goes.start == TODAY


@pytest.mark.parametrize(
    ("days_ago", "says"),
    [
        (30, "Resting until 24 Jan 2027 as reckoned (ours): no last day is written"),
        (90, "Resting until 25 Nov 2026 as reckoned (ours): no last day is written"),
        (91, "Resting, and no last day is written down"),
    ],
)
def test_a_rest_without_an_end_is_reckoned_for_a_while_and_says_so(
    days_ago: int, says: str
) -> None:
    rest = RestSpan(start=TODAY - timedelta(days=days_ago), end=None)
    mouthing = look(ready_for_a_bit(rests=(rest,))).stage("mouthing")
    assert mouthing is not None
    assert mouthing.because.startswith(says)
    last = rest.start + timedelta(days=90)
    assert mouthing.start == (last + timedelta(days=1) if days_ago <= 90 else None)


def test_nobody_is_off_work_on_the_day_back_nor_resting_after_the_last_day() -> None:
    for span, back in (
        ({"off": (Off(start=LAST_WEEK, why="lame", until=TODAY),)}, TODAY),
        ({"rests": (RestSpan(start=LAST_WEEK, end=TODAY),)}, TODAY + timedelta(days=1)),
    ):
        before = look(ready_for_a_bit(**span), back - timedelta(days=1))
        after = look(ready_for_a_bit(**span), back)
        assert before.off_work or before.resting
        assert (after.off_work, after.resting) == ("", "")
        assert before.can_do_now == ()
        assert after.can_do_now
        mouthing = before.stage("mouthing")
        assert mouthing is not None
        assert mouthing.start == back


def test_a_step_that_a_gate_holds_is_waiting_though_the_steps_before_are_done() -> None:
    mouthing = look(ready_for_a_bit(care=())).stage("mouthing")
    assert mouthing is not None
    assert mouthing.state == "waiting"


def test_what_to_wear_names_its_hole() -> None:
    assert "Brown bridle on hole 4" in look(ready_for_a_bit()).can_do_now[0].wear
