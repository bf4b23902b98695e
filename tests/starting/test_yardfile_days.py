"""Days of a yard file: as they are written, and told from the day of loading."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.models.yard import WEEKDAYS
from fitting.yardfile.days import ALLOWED, read_day
from fitting.yardfile.place import ROOT, YardFileError
from tests.starting.rich_yard import ON


def walked(on: date, sign: int, days: int, weekday: str) -> date:
    """Walk there day by day, and on in the same direction to the weekday."""
    step, day = timedelta(days=sign), on
    for _ in range(days):
        day += step
    while weekday and WEEKDAYS[day.weekday()] != weekday:
        day += step
    return day


@given(
    on=st.dates(date(1990, 1, 1), date(2060, 12, 31)),
    sign=st.sampled_from([-1, 1]),
    count=st.integers(0, 300),
    unit=st.sampled_from("dw"),
    weekday=st.sampled_from(["", *WEEKDAYS]),
)
def test_a_relative_day_is_the_one_found_by_walking(
    on: date, sign: int, count: int, unit: str, weekday: str
) -> None:
    text = f"{'+' if sign > 0 else '-'}{count}{unit} {weekday}".strip()
    days = count * (7 if unit == "w" else 1)
    assert read_day(ROOT, text, on) == walked(on, sign, days, weekday)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("-400d", date(2025, 10, 21)),
        ("-57w tue", date(2025, 10, 21)),
        ("-57w wed", date(2025, 10, 22)),
        ("+2w sat", date(2026, 12, 12)),
        ("+2w wed", date(2026, 12, 9)),
        ("-0d", ON),
        ("2026-02-28", date(2026, 2, 28)),
    ],
)
def test_days_are_read_as_the_format_says(text: str, wanted: date) -> None:
    assert read_day(ROOT, text, ON) == wanted


@pytest.mark.parametrize(
    "text",
    ["", "400d", "-400", "-4m", "-57w Tue", "-57w  tue", "+2w sat ", "2026-2-3",
     "2026-02-30", "20260228", "-99999d", "+99999999d", "tue", "-٣d", "２026-02-28"],
)  # fmt: skip
def test_what_is_no_day_is_refused_with_what_would_be(text: str) -> None:
    with pytest.raises(YardFileError) as error:
        read_day(ROOT / "on", text, date(20, 1, 1))
    assert str(error.value).startswith("$.on: found ")
    assert " ".join(ALLOWED.split()) in str(error.value)
