"""When a link was asked for last: noted now and then, told by the yard's own clock."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any
from unittest import mock

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Yard
from starting.models import CalendarKey
from starting.writes.links import end_link, make_link

EAST, WEST = "Pacific/Kiritimati", "Pacific/Pago_Pago"  # 14 h ahead, 11 h behind


def at(day: int, clock: str) -> datetime:
    """Return a moment in UTC, in March 2026."""
    return datetime.fromisoformat(f"2026-03-{day:02}T{clock}+00:00")


@contextmanager
def the_clock_at(moment: datetime) -> Iterator[None]:
    with mock.patch.object(timezone, "now", return_value=moment):
        yield


def in_zone(yard: Yard, zone: str) -> None:
    Yard.objects.filter(pk=yard.pk).update(timezone=zone)
    yard.refresh_from_db()


def told(keeper: Client, yard: Yard, now: datetime) -> str:
    with the_clock_at(now):
        page = keeper.get(reverse("starting:calendar-links", args=[yard.slug]))
    (said,) = re.findall(r'<p class="soft">(Made [^<]*)</p>', page.content.decode())
    return str(said)


@pytest.mark.parametrize(
    ("zone", "fetched", "now", "said"),
    [
        ("Europe/London", at(2, "07:12"), at(2, "07:12"), "today at 07.12"),
        ("Europe/London", at(1, "23:59"), at(2, "00:00"), "1 Mar 2026"),
        (EAST, at(1, "10:00"), at(1, "23:00"), "today at 00.00"),
        (EAST, at(1, "09:59"), at(1, "10:00"), "1 Mar 2026"),
        (EAST, at(1, "23:30"), at(2, "01:00"), "today at 13.30"),
        (WEST, at(2, "11:00"), at(2, "11:01"), "today at 00.00"),
        (WEST, at(2, "10:59"), at(2, "11:00"), "1 Mar 2026"),
        (WEST, at(1, "23:30"), at(2, "10:59"), "today at 12.30"),
    ],
)
def test_the_last_fetch_is_told_by_the_yards_clock(
    keeper: Client, yard: Yard, zone: str, fetched: datetime, now: datetime, said: str
) -> None:
    in_zone(yard, zone)
    key, _ = make_link(yard, label="Phone", options={})
    CalendarKey.objects.filter(pk=key.pk).update(fetched_at=fetched)
    assert f"Last asked for {said}." in told(keeper, yard, now)


def test_a_link_that_was_never_fetched_says_so(keeper: Client, yard: Yard) -> None:
    make_link(yard, label="Phone", options={})
    said = told(keeper, yard, timezone.now())
    assert "Not asked for yet." in said
    assert "Last asked" not in said


def test_a_link_was_made_and_ended_on_days_of_the_yards_calendar(
    keeper: Client, yard: Yard
) -> None:
    in_zone(yard, EAST)
    with the_clock_at(at(1, "10:00")):
        key, _ = make_link(yard, label="Phone", options={})
    with the_clock_at(at(3, "09:59")):
        end_link(key)
    said = told(keeper, yard, at(4, "12:00"))
    assert said.startswith("Made 2 Mar 2026.")
    assert said.endswith("Ended 3 Mar 2026.")


@pytest.mark.parametrize(
    ("after", "noted"),
    [
        (timedelta(), False),
        (timedelta(minutes=59), False),
        (timedelta(hours=1), True),
        (timedelta(hours=6), True),
        (-timedelta(minutes=59), False),  # a clock set back a little
        (-timedelta(days=2), True),
    ],
)
def test_a_poll_writes_at_most_once_an_hour(
    client: Client,
    yard: Yard,
    after: timedelta,
    django_assert_num_queries: Any,
    *,
    noted: bool,
) -> None:
    in_zone(yard, "UTC")
    key, secret = make_link(yard, label="Phone", options={})
    noon = at(5, "12:00")
    tomorrow = at(6, "00:00")
    CalendarKey.objects.update(fetched_at=noon, valid_until=tomorrow)
    with the_clock_at(noon + after), django_assert_num_queries(1 + noted):
        client.get(reverse("calendar", args=[secret]))
    key.refresh_from_db()
    assert key.fetched_at == (noon + after if noted else noon)


@pytest.mark.parametrize("zone", [EAST, WEST])
def test_the_first_poll_after_midnight_there_is_noted_at_once(
    keeper: Client, client: Client, yard: Yard, zone: str
) -> None:
    in_zone(yard, zone)
    midnight = at(9, "10:00" if zone == EAST else "11:00")
    before, after = (midnight + timedelta(minutes=m) for m in (-10, 10))
    with the_clock_at(before):
        _, secret = make_link(yard, label="Phone", options={})
        client.get(reverse("calendar", args=[secret]))
    assert "Last asked for today at 23.50." in told(keeper, yard, before)
    with the_clock_at(after):
        client.get(reverse("calendar", args=[secret]))
    assert "Last asked for today at 00.10." in told(keeper, yard, after)


def test_what_is_refused_is_no_fetch(client: Client, yard: Yard) -> None:
    key, secret = make_link(yard, label="Phone", options={})
    end_link(key)
    client.get(reverse("calendar", args=[secret]))
    client.post(reverse("calendar", args=[secret]))
    key.refresh_from_db()
    assert key.fetched_at is None
