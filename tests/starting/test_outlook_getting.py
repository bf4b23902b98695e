"""What is got first is tried on after that, never on the same day."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal

import pytest

from starting.gates import CareDone
from starting.outlook.shared import after_getting
from starting.outlook.to_dos import ToDo
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION
from tests.starting.making_outlook import TODAY, horse_facts

EVERY_DAY = frozenset(range(7))


def to_do(kind: Literal["get", "try_on"], name: str) -> ToDo:
    return ToDo(
        kind=kind,
        name=name,
        what=name,
        useful_from=TODAY,
        due_by=TODAY,
        because="",
        path="",
        late=True,
    )


BAND = to_do("get", "bridle-browband")
BRIDLE, RUG = to_do("try_on", "bridle"), to_do("try_on", "rug")


def days_of(
    *planned: tuple[ToDo, date],
    free: frozenset[int] = EVERY_DAY,
    care: tuple[CareDone, ...] = (),
) -> dict[str, date]:
    found = after_getting(horse_facts(care=care), planned, free)
    return {one.name: day for one, day in found}


def test_a_try_on_on_the_day_of_the_getting_moves_to_the_next_free_day() -> None:
    same_day = [(one, TODAY) for one in (BAND, BRIDLE, RUG)]
    found = days_of(*same_day)
    assert found["bridle-browband"] == found["rug"] == TODAY
    assert found["bridle"] == TODAY + timedelta(days=1)
    later = TODAY + timedelta(days=5)
    assert days_of(*same_day, free=frozenset({later.weekday()}))["bridle"] == later


def test_it_keeps_clear_of_a_vaccination_too() -> None:
    jab = CareDone(
        kind="vaccination",
        on=TODAY - timedelta(days=300),
        next_due=TODAY + timedelta(days=1),
    )
    found = days_of((BAND, TODAY), (BRIDLE, TODAY), care=(jab,))
    quiet = QUIET_DAYS_AFTER_VACCINATION
    assert found["bridle"] == TODAY + timedelta(days=1 + quiet + 1)


@pytest.mark.parametrize("days", [1, 9])
def test_a_try_on_after_the_getting_keeps_its_day(days: int) -> None:
    tried = TODAY + timedelta(days=days)
    assert days_of((BAND, TODAY), (BRIDLE, tried))["bridle"] == tried


def test_a_try_on_before_the_getting_moves_after_it() -> None:
    got = TODAY + timedelta(days=9)
    found = days_of((BAND, got), (BRIDLE, TODAY))
    assert found == {"bridle-browband": got, "bridle": got + timedelta(days=1)}
