from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from starting.gates import GateAnswer, Off, RestSpan
from tests.starting.making_gates import BRIDLE, ON, gate

DAY = timedelta(days=1)


def test_rest_opens_the_day_after_its_last_day() -> None:
    span = RestSpan(start=ON - DAY, end=ON, why="turned away")
    asked = gate("rest", BRIDLE, rests=(span,))
    assert asked.answer is GateAnswer.SHUT
    assert asked.opens_on == ON + DAY
    assert "turned away" in asked.why
    assert gate("rest", BRIDLE, ON + DAY, rests=(span,)).answer is GateAnswer.MET


def test_rests_that_touch_open_after_the_last() -> None:
    first = RestSpan(start=ON, end=ON + 5 * DAY)
    then = RestSpan(start=ON + 6 * DAY, end=ON + 9 * DAY)
    assert gate("rest", BRIDLE, rests=(then, first)).opens_on == ON + 10 * DAY


def test_a_rest_without_an_end_opens_on_no_day() -> None:
    asked = gate("rest", BRIDLE, rests=(RestSpan(start=ON, end=None),))
    assert (asked.answer, asked.opens_on) == (GateAnswer.SHUT, None)


def test_a_rest_step_is_not_held_by_the_rest_it_is() -> None:
    away = replace(BRIDLE, kind="rest")
    span = RestSpan(start=ON, end=None)
    assert gate("rest", away, rests=(span,)).answer is GateAnswer.MET


def test_off_work_until_a_day_opens_on_that_day() -> None:
    off = Off(start=ON, why="lame behind", until=ON + 7 * DAY)
    asked = gate("off_work", BRIDLE, off=(off,))
    assert asked.opens_on == ON + 7 * DAY
    assert "lame behind" in asked.why
    assert gate("off_work", BRIDLE, ON + 7 * DAY, off=(off,)).answer is GateAnswer.MET


def test_off_work_until_cleared_waits_for_whom_it_names() -> None:
    off = Off(start=ON, why="lame", until=ON + DAY, cleared_by="the vet")
    later = ON + 30 * DAY
    asked = gate("off_work", BRIDLE, later, off=(off,))
    assert (asked.answer, asked.opens_on) == (GateAnswer.SHUT, None)
    assert asked.would_meet == "Cleared by the vet."
    cleared = replace(off, cleared_on=later)
    assert gate("off_work", BRIDLE, later, off=(cleared,)).answer is GateAnswer.MET


def test_two_times_off_open_only_when_both_are_over() -> None:
    short = Off(start=ON, why="a cough", until=ON + DAY)
    named = Off(start=ON, why="lame", cleared_by="the vet")
    assert gate("off_work", BRIDLE, off=(short, named)).opens_on is None
