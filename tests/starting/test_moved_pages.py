"""What moved, told on its pages and on the plan."""

from __future__ import annotations

import zlib
from dataclasses import replace
from datetime import date, timedelta

import msgspec
import pytest
from django.test import Client
from django.utils import timezone

from fitting.models import Horse, Yard
from starting.models import LastTold, Moved, OffWork, Plan, Session
from starting.moves import Mark
from starting.reads.moved import MOVE
from starting.writes import moves as writes
from starting.writes import replan
from tests.make import make_horse
from tests.starting.making_log import make_session, make_youngster, page, today
from tests.starting.making_moved import (
    moved,
    of_yard,
    plan_today,
    planned_yesterday,
    read,
    rest,
)
from tests.starting.making_moves import item

LONG = "Marjoram of the Thistlethwaitesbottom Meadows"


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return planned_yesterday(yard)


def as_of(content: bytes, on: date) -> bytes:
    """Return what was last told, as if told on another day."""
    told = writes.TOLD.decode(zlib.decompress(content))
    return zlib.compress(msgspec.json.encode(replace(told, on=on)))


def whats_of(horse: Horse, subject: str) -> set[str]:
    rows = Moved.objects.filter(horse=horse, subject=subject)
    return {MOVE.decode(row.content).what for row in rows}


@pytest.mark.parametrize("name", ["moved", "plan"])
def test_the_yard_says_what_moved_and_why(
    tansy: Horse, viewer: Client, name: str
) -> None:
    rest(tansy)
    plan_today(tansy)
    told = read(viewer, of_yard(tansy.yard, name))
    assert "Bridle without a bit" in told
    assert "Resting until" in told or "resting until" in told
    assert page("horse-moved", tansy) in told


def test_a_horse_says_what_moved_and_what_was_written_that_day(
    tansy: Horse, keeper: Client
) -> None:
    rest(tansy)
    make_session(tansy, 0, checks={})
    make_session(tansy, 0, checks={})
    plan_today(tansy)
    told = read(keeper, page("horse-moved", tansy))
    assert "days later" in told
    assert "With it, as they wait for it: Mouthing" in told
    written = told[told.index("Written down that day") :]
    assert page("sessions", tansy) in written
    assert "1 rest" in written


def test_what_came_of_a_day_alone_says_that_nothing_was_written(
    tansy: Horse, keeper: Client
) -> None:
    LastTold.objects.all().delete()
    replan(tansy.yard, today(tansy.yard) - timedelta(days=9))
    for kept in (Session, Plan, Horse):
        before = timezone.now() - timedelta(days=3)
        kept.history.update(history_date=before)
    plan_today(tansy)
    told = read(keeper, page("horse-moved", tansy))
    assert "Of Tansy nothing was written down that day." in told


def test_another_horse_s_records_are_not_told_as_this_one_s(
    tansy: Horse, keeper: Client
) -> None:
    rest(tansy)
    hob = make_youngster(tansy.yard, name="Hob")
    OffWork.objects.create(
        horse=hob, start=today(tansy.yard), cleared_by="the vet", why="Lame"
    )
    plan_today(tansy)
    told = read(keeper, page("horse-moved", tansy))
    assert "off work" not in told.casefold()


def test_the_plan_says_nothing_of_what_went_to_and_fro(
    tansy: Horse, keeper: Client
) -> None:
    on = today(tansy.yard)
    row = rest(tansy)
    plan_today(tansy)
    Moved.objects.update(on=on - timedelta(days=1))
    for told in LastTold.objects.all():
        told.content = as_of(bytes(told.content), on - timedelta(days=1))
        told.save()
    row.delete()
    plan_today(tansy)
    assert {"later", "sooner"} <= whats_of(tansy, "bridle")
    assert "Tansy's Bridle" not in read(keeper, of_yard(tansy.yard, "plan"))


def test_the_plan_says_nothing_of_what_moved_a_week_ago(
    tansy: Horse, keeper: Client
) -> None:
    rest(tansy)
    plan_today(tansy)
    assert "Moved since last week" in read(keeper, of_yard(tansy.yard, "plan"))
    Moved.objects.update(on=today(tansy.yard) - timedelta(days=7))
    assert "Moved since last week" not in read(keeper, of_yard(tansy.yard, "plan"))
    assert "Bridle" in read(keeper, of_yard(tansy.yard, "moved"))


@pytest.mark.parametrize("grown", [True, False])
def test_where_nothing_moved_the_page_says_what_will_stand_there(
    yard: Yard, keeper: Client, *, grown: bool
) -> None:
    horse = make_horse(yard, name=LONG, grown=grown)
    replan(yard, today(yard))
    for address in (page("horse-moved", horse), of_yard(yard, "moved")):
        assert "Nothing has moved" in read(keeper, address)


def test_an_empty_yard_has_nothing_to_tell(yard: Yard, keeper: Client) -> None:
    replan(yard, today(yard))
    assert "Nothing has moved" in read(keeper, of_yard(yard, "moved"))


def test_of_many_horses_the_plan_tells_those_that_moved_furthest(
    tansy: Horse, keeper: Client
) -> None:
    plan_today(tansy)
    rest(tansy, days=200)
    plan_today(tansy)
    rows = list(Moved.objects.filter(horse=tansy))
    for number in range(9):
        other = make_horse(tansy.yard, name=f"Another {number}", plan=False)
        for row in rows[: 1 + number % 2]:
            row.pk, row.horse = None, other
            row.save()
    told = read(keeper, of_yard(tansy.yard, "plan"))
    section = told[told.index("Moved since last week") : told.index("<table")]
    assert section.count("<h3>") == 8
    assert "And 2 more horses" in section


def test_the_yard_s_page_shows_the_first_rows_of_each_horse(
    tansy: Horse, keeper: Client
) -> None:
    rest(tansy)
    plan_today(tansy)
    row = Moved.objects.filter(horse=tansy, kind="step").first()
    assert row is not None
    move = MOVE.decode(row.content)
    for number in range(12):
        other = replace(
            move, kind="item", before=bit(number, 90), after=bit(number, 300)
        )
        Moved.objects.create(
            horse=tansy,
            on=row.on,
            kind="item",
            subject=f"Bit {number}",
            content=msgspec.json.encode(other),
        )
    assert "more for Tansy" in read(keeper, of_yard(tansy.yard, "moved"))
    whole = read(keeper, page("horse-moved", tansy))
    assert "more for Tansy" not in whole
    assert all(f"Bit {number}" in whole for number in range(12))


def bit(number: int, after: int) -> Mark:
    return item(f"Bit {number}", after)


def test_many_days_are_folded_behind_the_newest(tansy: Horse, keeper: Client) -> None:
    rest(tansy)
    plan_today(tansy)
    row = Moved.objects.first()
    assert row is not None
    for back in range(1, 21):
        row.pk, row.on = None, today(tansy.yard) - timedelta(days=back)
        row.save()
    assert "Earlier days (7)" in read(keeper, page("horse-moved", tansy))


@pytest.mark.parametrize("name", ["steps", "moved"])
def test_the_pages_are_reached_by_links(
    tansy: Horse, keeper: Client, name: str
) -> None:
    address = page("steps", tansy) if name == "steps" else of_yard(tansy.yard, "plan")
    to = page("horse-moved", tansy) if name == "steps" else of_yard(tansy.yard, "moved")
    assert to in read(keeper, address)


def test_what_moved_goes_with_its_horse(tansy: Horse) -> None:
    rest(tansy)
    plan_today(tansy)
    assert moved(tansy)
    tansy.delete()
    assert not Moved.objects.exists()
    assert not LastTold.objects.exists()
