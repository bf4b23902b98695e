"""What is to be measured next: by when, from when, and why."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from fitting.body import Standing
from fitting.fit import Answer, Finding
from starting.gates import CareDone, MeasureStands
from starting.measuring import Due
from starting.outlook.due import Need, due_measures
from tests.starting.making_outlook import TODAY, horse_facts

MOUTH_STANDS = 84  # ours: head and mouth, 24 to 48 months


def day(ahead: int) -> date:
    return TODAY + timedelta(days=ahead)


def mouth(taken: int, stands: int = MOUTH_STANDS) -> MeasureStands:
    """Return a mouth width taken so many days from today."""
    until = day(taken + stands)
    standing: Standing = "stands" if until >= TODAY else "stale"
    return MeasureStands(
        measure="mouth_width",
        name="mouth width",
        standing=standing,
        last_on=day(taken),
        until=until,
    )


def never(measure: str) -> MeasureStands:
    return MeasureStands(measure=measure, name=measure, standing="never")


def step(starts: int, measure: str = "mouth_width") -> Need:
    return Need(measure=measure, stage_name="Mouthing", start=day(starts))


def bit(good_until: int, chance_no: float | None = 0.1) -> Finding:
    return Finding(
        item="Small eggbutt",
        kind="bit",
        part="mouthpiece",
        answer=Answer.GOOD,
        why="It fits.",
        chance_no=chance_no,
        good_until=day(good_until),
    )


def dues(
    stand: MeasureStands,
    *needs: Need,
    in_use: tuple[Finding, ...] = (),
    **horse: Any,
) -> list[Due]:
    return list(due_measures(horse_facts(**horse), [stand], needs, in_use, TODAY))


def due(
    stand: MeasureStands,
    *needs: Need,
    in_use: tuple[Finding, ...] = (),
    **horse: Any,
) -> Due:
    (found,) = dues(stand, *needs, in_use=in_use, **horse)
    return found


def test_a_measurement_is_due_by_the_end_of_its_standing_and_useful_from_half() -> None:
    found = due(mouth(-10))
    assert (found.useful_from, found.due_by) == (day(32), day(74))
    assert found.because == "a measurement stands 84 days"


def test_what_was_measured_for_a_step_is_not_asked_for_again() -> None:
    assert due(mouth(0), step(2)) == due(mouth(0))
    assert due(mouth(0), step(MOUTH_STANDS)) == due(mouth(0))


def test_what_will_not_stand_when_a_step_starts_is_due_a_week_before_it() -> None:
    found = due(mouth(-10), step(75))
    assert (found.due_by, found.because) == (day(68), "needed for Mouthing")


def test_a_later_step_is_asked_for_where_the_first_is_served() -> None:
    found = due(mouth(-10), step(20), step(78))
    assert found.due_by == day(71)


def test_a_bit_that_will_not_be_sure_to_fit_is_measured_for_before_it_is_so() -> None:
    found = due(mouth(-10), in_use=(bit(30),))
    assert found.due_by == day(29)
    assert found.because == "Small eggbutt may no longer fit after it"
    assert found.useful_from == day(29)


def test_what_was_only_seen_to_fit_asks_for_no_measurement() -> None:
    assert due(mouth(-10), in_use=(bit(30, chance_no=None),)) == due(mouth(-10))


def test_a_tooth_change_is_the_reason_where_it_ends_a_measurement() -> None:
    change = CareDone(kind="tooth_change", on=TODAY)
    found = due(mouth(-10, stands=9), care=(change,))
    assert found.due_by == day(-1)
    assert found.because == "a tooth change was noted since"


def test_a_step_asks_for_a_measure_never_taken_by_the_age_of_that_day() -> None:
    yearling = read_foaled(day(-600).isoformat())  # backs are asked from 24 months
    found = due(never("back_length"), step(300, "back_length"), foaled=yearling)
    assert (found.useful_from, found.due_by) == (day(265), day(293))
    assert dues(never("back_length"), step(100, "back_length"), foaled=yearling) == []


def test_nothing_is_asked_for_that_was_never_taken_and_no_step_needs() -> None:
    assert dues(never("brow")) == []
    assert dues(never("mouth_width"), grown=True) == []


def test_a_foal_is_due_for_its_head_once_it_is_half_a_year_old() -> None:
    foal = read_foaled(day(-100).isoformat())
    head = MeasureStands(
        measure="head_length",
        name="head length",
        standing="stale",
        last_on=day(-20),
        until=day(-13),
    )
    assert dues(head, foaled=foal) == []
    assert dues(head, foaled=read_foaled(day(-190).isoformat()))


@pytest.mark.parametrize(
    ("kind", "measure"), [("roller", "heart_girth"), ("girth", "girth_path")]
)
def test_a_girth_goes_by_its_path_and_a_roller_by_the_heart_girth(
    kind: str, measure: str
) -> None:
    strap = replace(bit(5), kind=kind, part="strap", item="Web")
    for asked in ("heart_girth", "girth_path"):
        stand = replace(mouth(-10), measure=asked)
        told = due(stand, in_use=(strap,)).because
        assert ("Web may no longer fit" in told) is (asked == measure)
