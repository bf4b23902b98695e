"""When teeth and feet are due again where nobody has named a day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from starting.gates import CareDone
from starting.outlook.care_due import NextCare, next_care

FOALED = read_foaled("2024-04-24")
ON = date(2026, 11, 25)  # 31 months


def visit(on: date, kind: str = "teeth", **more: Any) -> CareDone:
    return CareDone(kind=kind, on=on, **more)


def due(*care: CareDone, on: date = ON) -> dict[str, NextCare]:
    return {one.kind: one for one in next_care(care, FOALED, on)}


@pytest.mark.parametrize(
    ("seen", "by"),
    [
        (date(2026, 9, 1), date(2027, 3, 1)),  # 28 months: six months later
        (date(2029, 4, 23), date(2029, 10, 23)),  # 59 months: still six
        (date(2029, 4, 24), date(2030, 4, 24)),  # 60 months: a year
        (date(2025, 1, 10), date(2026, 4, 24)),  # too young to be asked: two years old
    ],
)
def test_teeth_are_due_half_yearly_to_five_years_then_yearly(
    seen: date, by: date
) -> None:
    found = due(visit(seen), on=max(ON, seen))["teeth"]
    assert found.due_by == by
    assert found.useful_from == by - timedelta(days=30)
    assert "as practices advise" in found.because


def test_teeth_never_looked_at_are_due_at_two_years() -> None:
    found = due()["teeth"]
    assert found.due_by == date(2026, 4, 24)
    assert "No look at the teeth is written down" in found.because


def test_feet_are_due_after_eight_weeks_and_a_foals_after_four() -> None:
    grown = due(visit(ON, "farrier"))["farrier"]
    assert (grown.useful_from - ON).days == 28
    assert (grown.due_by - ON).days == 56
    early = date(2024, 12, 1)
    foal = due(visit(early, "farrier"), on=early)["farrier"]
    assert (foal.due_by - early).days == 28
    assert "farrier" not in due()


def test_a_named_day_goes_before_the_general_one() -> None:
    named = visit(date(2026, 9, 1), next_due=date(2027, 9, 1))
    assert "teeth" not in due(named)
    later = visit(date(2026, 10, 1))
    assert due(named, later)["teeth"].due_by == date(2027, 4, 1)
    assert "teeth" not in due(replace(named, clear=False))


@pytest.mark.parametrize("kind", ["teeth", "vet", "back", "saddle_fitter", "farrier"])
def test_what_was_left_open_is_due_at_once_until_it_is_closed(kind: str) -> None:
    open_one = visit(date(2026, 11, 1), kind, clear=False)
    found = due(open_one)[kind]
    assert found.due_by == ON
    assert found.because == "Something was left open on 1 Nov 2026."
    closed = due(open_one, visit(date(2026, 11, 9), kind))
    assert kind not in closed or closed[kind].due_by > ON


@pytest.mark.parametrize("kind", ["vaccination", "worming", "vet", "back", "other"])
def test_what_follows_the_vet_has_no_date_of_ours(kind: str) -> None:
    assert kind not in due(visit(date(2020, 1, 1), kind))
