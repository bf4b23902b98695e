"""True age and season age against cases printed elsewhere."""

from __future__ import annotations

from datetime import date

from fitting.age import completed_months, reaches_months, read_foaled, season_age


def test_thirty_months_are_counted_from_the_foaling_day() -> None:
    """A stallion show at the end of October 2021 set its cut-off at 28 April 2019.

    Source: in-the-focus.com, November 2021, on the German animal-welfare guideline
    as revised in 2020: training starts at 30 months, counted from the foaling day and
    not from 1 January. 28 April 2019 and 30 months give 28 October 2021.
    """
    cut_off = read_foaled("2019-04-28")
    assert reaches_months(cut_off, 30) == date(2021, 10, 28)
    assert completed_months(cut_off, date(2021, 10, 27)) == 29
    assert completed_months(read_foaled("2019-04-29"), date(2021, 10, 28)) == 29


def test_a_foal_of_new_years_eve_is_labelled_two_at_twelve_months() -> None:
    """Foaled 31 December 2012: "one" on 1 January 2013, "two" on 1 January 2014.

    Source: turfaccounts (a racing journal online), April 2013, on northern racing ages.
    """
    foal = read_foaled("2012-12-31")
    assert season_age(foal, date(2013, 1, 1), "north") == 1
    assert completed_months(foal, date(2013, 1, 1)) == 0
    assert season_age(foal, date(2014, 1, 1), "north") == 2
    assert completed_months(foal, date(2014, 1, 1)) == 12
