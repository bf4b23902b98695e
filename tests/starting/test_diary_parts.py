"""A long list of the diary: the coming weeks stand open, later months are folded."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.dated import DiaryRow, in_parts, month_of, open_until
from starting.diary import EntryKind

TODAY = date(2026, 11, 26)


def row(on: date, kind: EntryKind = "care", title: str = "") -> DiaryRow:
    return DiaryRow(
        on=on,
        title=title or f"Tansy: {kind} {on}",
        short=title or f"{kind} {on}",
        horse="Tansy",
        horse_key="tansy",
        kind=kind,
        reason="",
        standing="likely",
        words="likely",
        href=f"/{kind}/{on}/{title}",
    )


def in_days(*days: int) -> list[DiaryRow]:
    return [row(TODAY + timedelta(days=day)) for day in days]


def parts(rows: list[DiaryRow], today: date = TODAY) -> list[tuple[str, bool, int]]:
    return [
        (part.month.key, part.is_open, sum(len(of.rows) for of in part.told))
        for part in in_parts(rows, month_of(today), today)
    ]


@pytest.mark.parametrize(
    ("today", "until"),
    [
        (date(2026, 11, 26), date(2026, 12, 23)),
        (date(2026, 12, 1), date(2026, 12, 31)),
        (date(2027, 2, 1), date(2027, 2, 28)),
        (date(2027, 2, 2), date(2027, 3, 1)),
    ],
)
def test_this_month_and_four_weeks_stand_open(today: date, until: date) -> None:
    assert open_until(month_of(today), today) == until


def test_a_month_asked_for_stands_open_and_no_more() -> None:
    assert open_until(month_of(date(2027, 3, 9)), TODAY) == date(2027, 3, 31)


def test_a_long_list_folds_what_is_further_off() -> None:
    rows = in_days(0, 3, 27, 28, *range(40, 49), 100)
    assert parts(rows) == [
        ("2026-11", True, 3),
        ("2026-12", False, 1),
        ("2027-01", False, 9),
        ("2027-03", False, 1),
    ]
    rest = in_parts(rows, month_of(TODAY), TODAY)[1:]
    assert [part.is_rest for part in rest] == [True, False, False]


def test_a_short_list_is_not_folded() -> None:
    assert {is_open for _, is_open, _ in parts(in_days(*range(0, 240, 20)))} == {True}
    assert {is_open for _, is_open, _ in parts(in_days(*range(0, 241, 20)))} == {
        True,
        False,
    }


def test_where_all_is_far_off_the_first_of_it_stands_open() -> None:
    assert parts(in_days(*range(60, 60 + 40 * 13, 40)))[:3] == [
        ("2026-11", True, 0),
        ("2027-01", True, 1),
        ("2027-03", False, 1),
    ]


def test_a_folded_month_says_what_it_holds() -> None:
    kinds: list[EntryKind] = ["measure", "measure", "care", "stage_starts"]
    rows = [row(TODAY + timedelta(days=n), kind) for n, kind in enumerate(kinds)]
    (part,) = in_parts(rows, month_of(TODAY), TODAY)
    assert part.counted == "2 measuring days, 1 day of care and 1 step starts"


@given(
    days=st.lists(st.integers(0, 1500), max_size=40),
    today=st.dates(date(2026, 1, 1), date(2027, 12, 31)),
)
def test_every_row_stands_in_one_part_in_order(days: list[int], today: date) -> None:
    rows = [
        row(today + timedelta(days=day), title=str(n))
        for n, day in enumerate(sorted(days))
    ]
    found = in_parts(rows, month_of(today), today)
    assert [r for part in found for of in part.told for r in of.rows] == rows
    keys = [part.month.key for part in found]
    assert keys == sorted(set(keys)), "an address of its own each"
