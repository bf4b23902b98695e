"""A filly with something to come, and the diary's pages as a client sees them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.writes.touch import touch
from starting.models import CareVisit, DiaryEntry
from starting.writes import replan, today_in
from tests.make import make_horse, make_measurement


@pytest.fixture
def today(yard: Yard) -> date:
    return today_in(yard)


@pytest.fixture
def tansy(yard: Yard, today: date) -> Horse:
    """Return a filly with a farrier to come, and much to be measured."""
    horse = make_horse(yard, name="Tansy", foaled=f"{today - timedelta(days=900)}")
    make_measurement(horse, on=today - timedelta(days=40))
    CareVisit.objects.create(
        horse=horse,
        kind="farrier",
        on=today - timedelta(days=30),
        next_due=today + timedelta(days=3),
    )
    assert replan(yard, today)
    return horse


def again(yard: Yard, on: date) -> None:
    """Plan as after a write."""
    touch(yard)
    yard.refresh_from_db()
    assert replan(yard, on)


def diary(client: Client, query: str = "") -> str:
    answer = client.get(reverse("starting:diary", args=["sallow-end"]) + query)
    assert answer.status_code == 200
    return answer.content.decode()


def number_of(horse: Horse, key: str) -> str:
    row = DiaryEntry.objects.filter(horse=horse, key__startswith=f"{horse.key}/{key}")
    return row[0].uid.partition("@")[0]


def address(number: str) -> str:
    return reverse("starting:diary-entry", args=["sallow-end", number])


def entry(client: Client, number: str) -> str:
    answer = client.get(address(number))
    assert answer.status_code == 200
    return answer.content.decode()
