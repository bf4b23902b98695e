"""What is sent and read of a try-on."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse


def today() -> date:
    return timezone.localdate()


def fits_page(client: Client, horse: Horse) -> str:
    address = reverse("fitting:horse-tack", args=[horse.yard.slug, horse.key])
    answer = client.get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def try_on(horse: Horse, query: str = "") -> str:
    address = reverse("fitting:try-on", args=[horse.yard.slug, horse.key])
    return f"{address}?{query}" if query else address


def sent(**said: Any) -> dict[str, Any]:
    return {"how": "worn", "on": today().isoformat(), "token": "once", **said}
