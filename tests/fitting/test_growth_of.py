"""A horse's growth, read from its rows."""

from __future__ import annotations

from datetime import date

import pytest
from pytest_django import DjangoAssertNumQueries

from fitting.body import Taken
from fitting.growth import Subject, fit_growth
from fitting.models import Yard
from fitting.reads.growth import growth_of
from tests.make import make_horse, make_measurement

DAY = date(2026, 11, 2)
HEIGHT = Taken(
    measure="withers_height",
    on=DAY,
    readings=(1320.0,),
    method="stick",
    same_person=True,
    shod=True,
)


def test_growth_is_fitted_to_all_that_counts_of_the_horse(yard: Yard) -> None:
    horse = make_horse(yard, dam_height_mm=1340, sire_height_mm=1380)
    make_measurement(horse, on=DAY, same_person=True, shod=True)
    make_measurement(horse, on=date(2026, 5, 2), struck="It rested a leg")
    subject = Subject(
        horse_type="pony",
        foaled=horse.foaled_days,
        dam_height_mm=1340,
        sire_height_mm=1380,
    )
    assert growth_of(horse) == fit_growth(subject, [HEIGHT])


def test_what_is_typed_counts_before_it_is_written_in(yard: Yard) -> None:
    horse = make_horse(yard)
    before = growth_of(horse, typed=[HEIGHT])
    make_measurement(horse, on=DAY, same_person=True, shod=True)
    assert growth_of(horse) == before


@pytest.mark.parametrize("readings", [1, 12])
def test_growth_asks_the_same_however_much_was_measured(
    yard: Yard, django_assert_num_queries: DjangoAssertNumQueries, readings: int
) -> None:
    horse = make_horse(yard)
    for month in range(1, readings + 1):
        make_measurement(horse, on=date(2026, month, 2))
    # Measurements, tack, sets, try-ons, sessions, fitters; no rows hang on the last.
    with django_assert_num_queries(6):
        growth_of(horse)
