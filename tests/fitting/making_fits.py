"""A horse measured for a bit, and what the pages of fit say of it."""

from __future__ import annotations

from datetime import timedelta

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Yard
from tests.make import make_horse, make_measurement


def fitted(yard: Yard, name: str, mouth_mm: float = 112.0, months: int = 30) -> Horse:
    foaled = timezone.localdate() - timedelta(days=round(months * 30.4375))
    horse = make_horse(yard, name=name, foaled=foaled)
    on = timezone.localdate() - timedelta(days=3)
    make_measurement(horse, "mouth_width", on=on, value=mouth_mm, method="dowel")
    return horse


def who(client: Client, yard: Yard, **asked: str) -> str:
    answer = client.get(reverse("fitting:who-fits", args=[yard.slug]), asked)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def fit(client: Client, yard: Yard, **asked: str) -> str:
    answer = client.get(reverse("fitting:does-it-fit", args=[yard.slug]), asked)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def asks(client: Client, address: str, **asked: str) -> int:
    with CaptureQueriesContext(connection) as caught:
        assert client.get(address, asked).status_code == 200
    return len(caught)


def rows_of(page: str) -> dict[str, str]:
    """Return what the page says in each row, by the row's name, without its tags."""
    found = {}
    for row in page.split('<div class="fits-row"')[1:]:
        text = "".join(part.partition(">")[2] for part in f"<{row}".split("<"))
        name, _, rest = text.strip().partition(" ")
        found[name] = rest.partition("A forecast is no promise")[0]
    return found
