"""True age by calendar months, and the labels that never open a gate."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import (
    Foaled,
    UnreadableDayError,
    completed_months,
    months_old,
    possible_days,
    reaches_months,
    read_foaled,
    rising_words,
    say_age,
    season_age,
    write_foaled,
)

days = st.dates(date(1990, 1, 1), date(2060, 12, 31))


def on_day(day: date) -> Foaled:
    return Foaled(first=day, last=day)


@st.composite
def foalings(draw: st.DrawFn) -> Foaled:
    day = draw(days)
    shown = draw(st.sampled_from([10, 7, 4]))
    return read_foaled(day.isoformat()[:shown])


def test_a_foaling_date_may_be_known_to_the_day_the_month_or_the_year() -> None:
    day, month, year = (read_foaled(t) for t in ("2024-04-19", "2024-04", "2024"))
    assert (day.first, day.last) == (date(2024, 4, 19), date(2024, 4, 19))
    assert (month.first, month.last) == (date(2024, 4, 1), date(2024, 4, 30))
    assert (year.first, year.last) == (date(2024, 1, 1), date(2024, 12, 31))
    assert [f.precision for f in (day, month, year)] == ["day", "month", "year"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is written 2024-04-19, or 2024-04 or 2024"),
        ("19/04/2024", "is written 2024-04-19, or 2024-04 or 2024"),
        ("2024-4", "is written 2024-04-19, or 2024-04 or 2024"),
        ("٢٠٢٤", "is written 2024-04-19, or 2024-04 or 2024"),
        ("2024-13", "Months run from 01 to 12; 13 is none."),
        ("2024-00-10", "Months run from 01 to 12; 00 is none."),
        ("2023-02-29", "2023-02 has days 01 to 28."),
        ("2024-04-00", "2024-04 has days 01 to 30."),
        ("0024", "The year of a foaling date is 1950 to 2199."),
        ("1066-10-14", "The year of a foaling date is 1950 to 2199."),
    ],
)
def test_what_is_no_foaling_date_is_refused_in_words(text: str, says: str) -> None:
    with pytest.raises(UnreadableDayError) as caught:
        read_foaled(text)
    assert says in str(caught.value)


@given(st.text() | st.from_regex(r"[0-9]{4}(-[0-9]{2}){0,2}", fullmatch=True))
def test_any_text_is_a_foaling_date_or_refused_and_nothing_else(text: str) -> None:
    try:
        foaled = read_foaled(text)
    except UnreadableDayError:
        return
    assert write_foaled(foaled) == text.strip()


@given(foalings())
def test_a_written_foaling_date_reads_back(foaled: Foaled) -> None:
    assert read_foaled(write_foaled(foaled)) == foaled


def test_a_last_day_before_the_first_is_no_foaling_date() -> None:
    with pytest.raises(ValueError, match="comes before"):
        Foaled(first=date(2024, 5, 2), last=date(2024, 5, 1))


@pytest.mark.parametrize(
    ("foaled", "on", "months"),
    [
        ("2024-04-19", date(2024, 4, 19), 0),
        ("2024-04-19", date(2024, 5, 18), 0),
        ("2024-04-19", date(2024, 5, 19), 1),
        ("2024-04-19", date(2026, 10, 19), 30),
        ("2024-04-19", date(2026, 10, 18), 29),
        ("2024-04-19", date(2024, 1, 1), 0),
        ("2024-01-31", date(2024, 2, 28), 0),
        ("2024-01-31", date(2024, 2, 29), 1),
        ("2024-01-31", date(2024, 3, 30), 1),
        ("2024-01-31", date(2024, 3, 31), 2),
        ("2024-01-31", date(2024, 4, 30), 3),
        ("2024-02-29", date(2025, 2, 28), 12),
        ("2024-04", date(2026, 10, 29), 29),
        ("2024-04", date(2026, 10, 30), 30),
        ("2024", date(2026, 12, 30), 23),
        ("2024", date(2026, 12, 31), 24),
    ],
)
def test_months_are_completed_by_the_calendar_from_the_last_possible_day(
    foaled: str, on: date, months: int
) -> None:
    assert completed_months(read_foaled(foaled), on) == months


@given(foaled=foalings(), months=st.integers(1, 400))
def test_a_whole_age_is_reached_on_its_first_day(foaled: Foaled, months: int) -> None:
    day = reaches_months(foaled, months)
    assert completed_months(foaled, day) == months
    assert completed_months(foaled, day - timedelta(days=1)) == months - 1


@given(foaled=foalings(), months=st.floats(0.01, 400))
def test_a_broken_age_lies_between_its_whole_months(
    foaled: Foaled, months: float
) -> None:
    day = reaches_months(foaled, months)
    assert completed_months(foaled, day) >= math.floor(months)
    assert completed_months(foaled, day - timedelta(days=1)) < months
    assert day <= reaches_months(foaled, math.ceil(months))


@given(foaled=foalings(), one=st.floats(0, 400), two=st.floats(0, 400))
def test_a_higher_age_is_never_reached_earlier(
    foaled: Foaled, one: float, two: float
) -> None:
    low, high = sorted((one, two))
    assert reaches_months(foaled, low) <= reaches_months(foaled, high)


def test_part_of_a_month_is_counted_in_days_rounded_up() -> None:
    foal = read_foaled("2024-04-19")
    assert reaches_months(foal, 0) == date(2024, 4, 19)
    assert reaches_months(foal, 0.25) == date(2024, 4, 27)  # 7.6 days
    assert reaches_months(foal, 1.5) == date(2024, 6, 4)  # 19 May and 15.2 days
    # 0.99 months would be 31 days, past the whole month of a short February.
    assert reaches_months(read_foaled("2023-02-01"), 0.99) == date(2023, 3, 1)


@pytest.mark.parametrize("months", [-1, math.nan, math.inf])
def test_an_impossible_age_is_refused(months: float) -> None:
    with pytest.raises(ValueError, match="nought or more"):
        reaches_months(read_foaled("2024"), months)


def test_age_for_growth_counts_days() -> None:
    assert months_old(date(2024, 4, 19), date(2028, 4, 19)) == 48
    assert months_old(date(2024, 4, 19), date(2024, 4, 18)) < 0


@given(foalings())
def test_possible_days_are_ascending_and_possible(foaled: Foaled) -> None:
    possible = possible_days(foaled)
    wanted = {"day": 1, "month": 3, "year": 12}
    assert len(possible) == wanted[foaled.precision]
    assert list(possible) == sorted(set(possible))
    assert all(foaled.first <= day <= foaled.last for day in possible)


@given(foalings())
def test_the_mean_possible_day_is_the_middle_of_all(foaled: Foaled) -> None:
    possible = possible_days(foaled)
    mean = sum((day - foaled.first).days for day in possible) / len(possible)
    assert abs(mean - (foaled.last - foaled.first).days / 2) <= 0.5


def test_a_horse_already_measured_was_not_foaled_later() -> None:
    seen = date(2024, 6, 10)
    possible = possible_days(read_foaled("2024"), not_after=seen)
    assert len(possible) == 12
    assert max(possible) <= seen
    first_day = possible_days(read_foaled("2024-04"), not_after=date(2024, 4, 1))
    assert first_day == (date(2024, 4, 1),)


@pytest.mark.parametrize(
    ("foaled", "on", "hemisphere", "years"),
    [
        ("2024-04-19", date(2024, 12, 31), "north", 0),
        ("2024-04-19", date(2025, 1, 1), "north", 1),
        ("2024-09-19", date(2025, 7, 31), "south", 0),
        ("2024-09-19", date(2025, 8, 1), "south", 1),
        ("2024-07-31", date(2024, 8, 1), "south", 1),
        ("2024", date(2025, 7, 31), "south", 0),
        ("2024-04-19", date(2020, 1, 1), "north", 0),
    ],
)
def test_the_label_turns_on_the_day_of_the_hemisphere(
    foaled: str, on: date, hemisphere: str, years: int
) -> None:
    assert season_age(read_foaled(foaled), on, hemisphere) == years


def test_another_hemisphere_is_refused() -> None:
    with pytest.raises(ValueError, match="north or south"):
        season_age(read_foaled("2024"), date(2025, 1, 1), "east")


@pytest.mark.parametrize(
    ("on", "words"),
    [
        (date(2024, 11, 1), "foal"),
        (date(2025, 6, 30), "yearling"),
        (date(2025, 7, 1), "rising two"),
        (date(2026, 1, 1), "two-year-old"),
        (date(2026, 12, 1), "rising three"),
        (date(2037, 2, 1), "13-year-old"),
        (date(2037, 9, 1), "rising 14"),
    ],
)
def test_the_label_is_said_as_horse_people_say_it(on: date, words: str) -> None:
    assert rising_words(read_foaled("2024-04-19"), on, "north") == words


def test_in_the_south_a_horse_rises_from_february() -> None:
    filly = read_foaled("2024-09-19")
    assert rising_words(filly, date(2026, 1, 31), "south") == "yearling"
    assert rising_words(filly, date(2026, 2, 1), "south") == "rising two"


@pytest.mark.parametrize(
    ("foaled", "on", "words"),
    [
        ("2024-04-19", date(2024, 4, 1), "not foaled yet"),
        ("2024-04-19", date(2024, 4, 19), "0 days"),
        ("2024-04-19", date(2024, 4, 20), "1 day"),
        ("2024-04-19", date(2024, 5, 1), "12 days"),
        ("2024-04-19", date(2024, 6, 18), "60 days"),
        ("2024-04-19", date(2024, 6, 19), "2 months"),
        ("2024-04-19", date(2026, 11, 25), "31 months"),
        ("2024-04-19", date(2029, 4, 18), "59 months"),
        ("2024-04-19", date(2029, 4, 19), "5 years"),
        ("2017-04-19", date(2026, 11, 25), "9 years"),
        ("2024-04", date(2024, 4, 10), "0 to 9 days"),
        ("2024-04", date(2026, 10, 10), "29 to 30 months"),
        ("2024-04", date(2026, 10, 30), "30 months"),
        ("2024", date(2026, 11, 25), "22 to 34 months"),
        ("2017", date(2026, 11, 25), "about 9 years"),
    ],
)
def test_age_is_said_in_days_months_or_years(foaled: str, on: date, words: str) -> None:
    assert say_age(read_foaled(foaled), on) == words


@given(foaled=foalings(), on=days)
def test_age_can_always_be_said(foaled: Foaled, on: date) -> None:
    assert say_age(foaled, on)
