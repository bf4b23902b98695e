"""What moved, kept at each planning, and for how long."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from fitting.models import Horse, Yard
from starting.models import LastTold, Moved, Rest
from starting.outlook import look_at_yard
from starting.reads.facts import yard_facts
from starting.writes import moves as writes
from starting.writes import replan
from tests.make import make_horse
from tests.starting.making_log import make_youngster, today
from tests.starting.making_moved import moved, plan_today, planned_yesterday, rest


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return planned_yesterday(yard)


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
