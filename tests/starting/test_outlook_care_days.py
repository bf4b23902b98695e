"""What records of care keep of the plan's days."""

from __future__ import annotations

from datetime import date

from starting.gates import CareDone
from starting.outlook.care_days import care_days, gelded_days, vaccinated

MARCH, APRIL = date(2026, 3, 2), date(2026, 4, 6)
MAY, LATER = date(2026, 5, 4), date(2027, 4, 6)


def test_a_named_day_counts_until_the_next_visit_of_its_kind() -> None:
    first = CareDone(kind="vaccination", on=MARCH, next_due=MAY)
    second = CareDone(kind="vaccination", on=APRIL, next_due=LATER)
    assert vaccinated([first]) == (MARCH, MAY)
    assert vaccinated([second, first]) == (MARCH, APRIL, LATER)
    assert care_days([second, first]) == (MARCH, APRIL, LATER)


def test_another_kind_of_visit_leaves_a_named_day_standing() -> None:
    teeth = CareDone(kind="teeth", on=MARCH, next_due=MAY)
    farrier = CareDone(kind="farrier", on=APRIL)
    assert care_days([teeth, farrier]) == (MARCH, APRIL, MAY)
    assert vaccinated([teeth, farrier]) == ()


def test_a_tooth_change_seen_keeps_no_day() -> None:
    assert care_days([CareDone(kind="tooth_change", on=MARCH)]) == ()


def test_gelding_holds_what_is_new_a_fortnight_and_until_cleared() -> None:
    clear = CareDone(kind="gelding", on=MARCH)
    waits = CareDone(kind="gelding", on=MARCH, clear=False)
    vet = CareDone(kind="vet", on=APRIL)
    assert gelded_days([clear], APRIL) == ((MARCH, date(2026, 3, 16)),)
    assert gelded_days([waits], APRIL) == ((MARCH, None),)
    assert gelded_days([waits, vet], MAY) == ((MARCH, date(2026, 4, 5)),)
    assert gelded_days([vet], MAY) == ()
