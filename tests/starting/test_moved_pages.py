"""What moved, kept at each planning and told on its pages and on the plan."""

from __future__ import annotations

import zlib
from dataclasses import replace
from datetime import date, timedelta
from html import unescape

import msgspec
import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Yard
from starting.models import LastTold, Moved, OffWork, Plan, Rest, Session
from starting.moves import Mark
from starting.outlook import look_at_yard
from starting.reads.facts import yard_facts
from starting.reads.moved import MOVE
from starting.writes import moves as writes
from starting.writes import replan
from tests.make import make_horse
from tests.starting.making_log import make_session, make_youngster, page, today
from tests.starting.making_moves import item

LONG = "Marjoram of the Thistlethwaitesbottom Meadows"


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """Return a filly under way with the bridle, planned yesterday."""
    horse = make_youngster(yard)
    make_session(horse, 2)
    replan(yard, today(yard) - timedelta(days=1))
    return horse


def rest(horse: Horse, days: int = 40) -> Rest:
    on = today(horse.yard)
    return Rest.objects.create(horse=horse, start=on, end=on + timedelta(days=days))


def plan_today(horse: Horse) -> None:
    replan(horse.yard, today(horse.yard))


def moved(horse: Horse) -> set[tuple[str, str]]:
    return set(Moved.objects.filter(horse=horse).values_list("kind", "subject"))


def read(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return " ".join(unescape(answer.content.decode()).split())


def of_yard(yard: Yard, name: str) -> str:
    return reverse(f"starting:{name}", args=[yard.slug])


# kept


def test_of_a_first_planning_nothing_has_moved(tansy: Horse) -> None:
    assert not Moved.objects.exists()
    assert LastTold.objects.filter(horse=tansy).exists()


def test_a_rest_moves_the_steps_behind_it(tansy: Horse) -> None:
    rest(tansy)
    plan_today(tansy)
    assert ("step", "bridle") in moved(tansy)
    assert set(Moved.objects.values_list("on", flat=True)) == {today(tansy.yard)}


def test_what_is_taken_back_the_same_day_leaves_nothing(tansy: Horse) -> None:
    row = rest(tansy)
    plan_today(tansy)
    row.delete()
    plan_today(tansy)
    assert moved(tansy) == set()


def test_planning_once_more_leaves_one_row_a_step(tansy: Horse) -> None:
    rest(tansy)
    plan_today(tansy)
    once = moved(tansy)
    plan_today(tansy)
    assert moved(tansy) == once
    assert Moved.objects.count() == len(once)


def test_the_next_day_tells_only_what_moved_since(tansy: Horse) -> None:
    rest(tansy)
    plan_today(tansy)
    replan(tansy.yard, today(tansy.yard) + timedelta(days=1))
    assert not Moved.objects.filter(on__gt=today(tansy.yard), subject="bridle").exists()


def as_of(content: bytes, on: date) -> bytes:
    """Return what was last told, as if told on another day."""
    told = writes.TOLD.decode(zlib.decompress(content))
    return zlib.compress(msgspec.json.encode(replace(told, on=on)))


def whats_of(horse: Horse, subject: str) -> set[str]:
    rows = Moved.objects.filter(horse=horse, subject=subject)
    return {MOVE.decode(row.content).what for row in rows}


def many_days(tansy: Horse, monkeypatch: pytest.MonkeyPatch, most: int) -> list[date]:
    """Plan five days with a rest that comes and goes, keeping so many rows."""
    monkeypatch.setattr(writes, "MOST_KEPT", most)
    on = today(tansy.yard)
    for day in range(5):
        if day % 2:
            Rest.objects.all().delete()
        else:
            rest(tansy)
        replan(tansy.yard, on + timedelta(days=day))
    return sorted(set(Moved.objects.values_list("on", flat=True)))


def test_old_rows_go_a_whole_day_at_a_time(
    tansy: Horse, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = make_youngster(tansy.yard, name="Hob")
    replan(tansy.yard, today(tansy.yard) - timedelta(days=1))
    kept = many_days(tansy, monkeypatch, 1)
    newest = Moved.objects.filter(horse=tansy)
    assert kept[-1] == today(tansy.yard) + timedelta(days=4)
    assert set(newest.values_list("on", flat=True)) == {kept[-1]}
    assert newest.count() > 1
    assert Moved.objects.filter(horse=other).count() > 1


def test_up_to_so_many_rows_are_kept(
    tansy: Horse, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert len(many_days(tansy, monkeypatch, 1000)) == 5


def test_keeping_takes_the_same_queries_for_thirty_horses(tansy: Horse) -> None:
    yard, on = tansy.yard, today(tansy.yard)
    rest(tansy)
    few = keeping(yard, on)
    for number in range(30):
        make_horse(yard, name=f"Another {number}")
    assert keeping(yard, on) == few


def keeping(yard: Yard, on: date) -> int:
    outlooks = look_at_yard(yard_facts(yard), on)
    with CaptureQueriesContext(connection) as seen:
        writes.keep_moves(yard, outlooks, on)
    return len(seen)


# told


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
