"""What many horses have on one day is told in one line, and nothing is lost by it."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest
from django.test import Client
from hypothesis import given
from hypothesis import strategies as st

from fitting.models import Yard
from starting.dated import DiaryRow, Standing, together
from starting.dated.together import TOGETHER_FROM
from starting.models import CareVisit, DiaryEntry
from starting.writes import replan
from tests.make import make_horse
from tests.starting.making_diary import diary, today

__all__ = ["today"]

ON = date(2026, 12, 17)
STANDINGS: tuple[Standing, ...] = ("likely", "set", "due", "done")


def row(number: int, horse: str, short: str, standing: Standing = "set") -> DiaryRow:
    return DiaryRow(
        on=ON,
        title=f"{horse}: {short}",
        short=short,
        horse=horse,
        horse_key=horse.lower(),
        kind="care",
        reason="",
        standing=standing,
        words=standing,
        href=f"/diary/{number}/",
    )


ROWS = st.lists(
    st.tuples(
        st.sampled_from("ABCDE"),
        st.sampled_from(["farrier", "measure", "get a bridle"]),
        st.sampled_from(STANDINGS),
    ),
    max_size=16,
).map(lambda drawn: tuple(row(n, *one) for n, one in enumerate(drawn)))


@given(rows=ROWS)
def test_every_row_is_told_once_with_its_own_task_and_state(
    rows: tuple[DiaryRow, ...],
) -> None:
    told = together(rows)
    assert sorted(one.href for of in told for one in of.rows) == sorted(
        one.href for one in rows
    )
    for of in told:
        assert {(one.short, one.standing) for one in of.rows} == {
            (of.first.short, of.first.standing)
        }
        assert of.is_one or len({one.horse for one in of.rows}) >= TOGETHER_FROM


@given(rows=ROWS)
def test_no_three_horses_with_the_same_are_told_apart(
    rows: tuple[DiaryRow, ...],
) -> None:
    alone: dict[tuple[str, str], set[str]] = {}
    for of in together(rows):
        if of.is_one:
            same = alone.setdefault((of.first.short, of.first.standing), set())
            same.add(of.first.horse)
    assert all(len(horses) < TOGETHER_FROM for horses in alone.values())


@given(rows=ROWS)
def test_the_order_of_the_day_is_kept(rows: tuple[DiaryRow, ...]) -> None:
    place = {one.href: number for number, one in enumerate(rows)}
    told = together(rows)
    for of in told:
        places = [place[one.href] for one in of.rows]
        assert places == sorted(places)
    firsts = [place[of.first.href] for of in told]
    assert firsts == sorted(firsts)


def test_two_horses_stand_by_themselves_and_three_together() -> None:
    two = [row(1, "Tansy", "farrier"), row(2, "Yarrow", "farrier")]
    assert [of.is_one for of in together(two)] == [True, True]
    (of,) = together([*two, row(3, "Wren", "farrier")])
    assert [one.horse for one in of.rows] == ["Tansy", "Yarrow", "Wren"]


def test_one_horse_is_never_many() -> None:
    rows = [row(number, "Tansy", "farrier") for number in range(5)]
    assert all(of.is_one for of in together(rows))


@pytest.fixture
def shod(yard: Yard, today: date) -> Yard:
    """Return a yard of four horses with one farrier's day, and a vet's for one."""
    for name in ("Tansy", "Yarrow", "Wren", "Sorrel"):
        horse = make_horse(yard, name=name, plan=False, grown=True)
        for kind in ("farrier", "vet")[: 2 if name == "Wren" else 1]:
            CareVisit.objects.create(
                horse=horse,
                kind=kind,
                on=today - timedelta(days=30),
                next_due=today + timedelta(days=3),
            )
    assert replan(yard, today)
    return yard


@pytest.mark.parametrize("shape", ["list", "month"])
def test_the_pages_tell_one_line_and_lead_to_each_entry(
    keeper: Client, shod: Yard, today: date, shape: str
) -> None:
    on = today + timedelta(days=3)
    page = diary(keeper, f"?as={shape}&month={on:%Y-%m}")
    assert len(re.findall(r">4 horses: farrier<", page)) == 1
    assert "Wren: vet" in page
    rows = DiaryEntry.objects.filter(yard=shod, on=on)
    numbers = [one.uid.partition("@")[0] for one in rows]
    assert len(numbers) == 5
    for number in numbers:
        assert page.count(f"/diary/{number}/") == 1


def test_one_horses_own_diary_tells_nothing_together(
    keeper: Client, shod: Yard, today: date
) -> None:
    on = today + timedelta(days=3)
    page = diary(keeper, f"?as=month&horse=wren&month={on:%Y-%m}")
    assert "horses:" not in page
    assert "farrier</span>" in page
