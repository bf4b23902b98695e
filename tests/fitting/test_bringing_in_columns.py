"""Columns are known by their headings, days by the order that the file shows."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.body import MEASURES
from fitting.bringing_in import Order, find_order, match_headings
from fitting.bringing_in.columns import ROLES, unit_in
from fitting.bringing_in.days import NoDayError, read_day


@pytest.mark.parametrize(
    ("heading", "role"),
    [
        ("Horse", "horse"),
        ("  NAME ", "horse"),
        ("Date", "day"),
        ("measured_by", "who"),
        ("Same person", "same_person"),
        ("Withers", "withers_height"),
        ("Height (cm)", "withers_height"),
        ("withers height cm", "withers_height"),
        ("Withers 2", "withers_height"),
        ("Withers 2 [cm]", "withers_height"),
        ("Heart girth, in", "heart_girth"),
        ("Weight kg", "weight"),
        ("Condition score", "condition_score"),
        ("back width, last rib", "back_width_last_rib"),
        ("Colour", ""),
        ("", ""),
        ("=1+1", ""),
    ],
)
def test_a_heading_says_what_its_column_holds(heading: str, role: str) -> None:
    assert match_headings([heading]) == (role,)


def test_every_measure_and_role_is_known_by_its_own_name() -> None:
    keys = [measure.key for measure in MEASURES]
    assert match_headings(keys) == tuple(keys)
    assert match_headings([m.name for m in MEASURES]) == tuple(keys)
    assert match_headings(list(ROLES)) == tuple(ROLES)


def test_a_measure_may_have_several_columns_and_a_horse_one() -> None:
    found = match_headings(["Horse", "Name", "Mouth 1", "Mouth 2", "Mouth 3"])
    assert found == ("horse", "", "mouth_width", "mouth_width", "mouth_width")


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        ("Withers (cm)", "cm"),
        ("Withers [Hands]", "hands"),
        ("Withers (hh)", "hands"),
        ("Mouth (in)", "in"),
        ("Weight kg", "kg"),
        ("What the horse stands in", ""),
        ("Withers", ""),
        ("Withers (left)", ""),
    ],
)
def test_a_heading_may_name_the_unit(heading: str, unit: str) -> None:
    assert unit_in(heading) == unit


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["2026-11-03", "3 Nov 2026"], "none"),
        (["03/03/2026"], "none"),
        (["03/04/2026", "13/04/2026"], "day"),
        (["03/04/2026", "04/13/2026"], "month"),
        (["03/04/2026", "2026-04-13"], "ask"),
        (["13/04/2026", "04/13/2026"], "ask"),
        (["3.4.2026"], "ask"),
        ([], "none"),
    ],
)
def test_the_order_is_found_where_a_day_shows_it_and_else_asked(
    cells: list[str], order: str
) -> None:
    assert find_order(cells) == order


@pytest.mark.parametrize(
    ("text", "order", "on"),
    [
        ("2026-04-03", "ask", date(2026, 4, 3)),
        ("2026-04-03T00:00:00", "none", date(2026, 4, 3)),
        ("2026/4/3 9:30", "none", date(2026, 4, 3)),
        ("03/04/2026", "day", date(2026, 4, 3)),
        ("03/04/2026", "month", date(2026, 3, 4)),
        ("3.4.2026", "day", date(2026, 4, 3)),
        ("03-03-2026", "none", date(2026, 3, 3)),
        ("3 Apr 2026", "none", date(2026, 4, 3)),
        ("3rd April 2026", "none", date(2026, 4, 3)),
        ("03-Sept-2026", "none", date(2026, 9, 3)),
    ],
)
def test_a_day_is_read_as_files_write_it(text: str, order: Order, on: date) -> None:
    assert read_day(text, order) == on


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("03/04/2026", "may mean two days"),
        ("03/04/26", "year with four figures"),
        ("2026-02-30", "no day of the calendar"),
        ("0000-01-01", "no day of the calendar"),
        ("3 Nev 2026", "nev is no month"),
        ("3 J 2026", "j is no month"),
        ("last week", "is no day. Write"),
        ("46123", "is no day. Write"),
        ("٣/٤/٢٠٢٦", "is no day. Write"),
        ("9" * 300, "is no day. Write"),
    ],
)
def test_what_is_no_day_is_refused_in_words(text: str, why: str) -> None:
    with pytest.raises(NoDayError, match=why):
        read_day(text, "none")


@given(st.dates(date(1950, 1, 1), date(2199, 12, 31)))
def test_every_day_is_read_the_same_in_every_order(on: date) -> None:
    assert read_day(on.isoformat(), "none") == on
    assert read_day(f"{on:%d/%m/%Y}", "day") == on
    assert read_day(f"{on:%m/%d/%Y}", "month") == on
    assert read_day(f"{on.day} {on:%B %Y}", "none") == on
    assert find_order([f"{on:%d/%m/%Y}"]) in {"none", "day", "ask"}
