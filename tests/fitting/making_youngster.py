"""A youngster with a mouth to measure, and what its pages say."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.reads.today import today_in
from tests.make import make_horse, make_measurement


def at(name: str, *args: Any) -> str:
    return reverse(f"fitting:{name}", args=["sallow-end", *args])


def text_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status
    return response.content.decode()


def days_ago(yard: Yard, days: int) -> date:
    return today_in(yard) - timedelta(days=days)


def youngster(yard: Yard, name: str = "Pennyroyal", readings: int = 5) -> Horse:
    horse = make_horse(yard, name=name, foaled=days_ago(yard, 930).isoformat())
    for number in range(readings):
        on = days_ago(yard, 10 * number + 10)
        make_measurement(horse, on=on, value=1310 - number)
    return horse
