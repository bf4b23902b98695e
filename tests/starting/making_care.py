"""What the tests of care pages share."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Horse


def at(name: str, horse: Horse, *args: Any) -> str:
    return reverse(f"starting:{name}", args=[horse.yard.slug, horse.key, *args])


def text_of(client: Client, address: str) -> str:
    return client.get(address).content.decode()


def teeth(on: date, **more: Any) -> dict[str, Any]:
    plain = {"kind": "teeth", "on": on.isoformat(), "clear": "True", "who": "Ann Moor"}
    return {**plain, **more}


def off(start: date, **more: Any) -> dict[str, Any]:
    return {"start": start.isoformat(), "why": "Lame near fore", **more}


def said(client: Client, address: str, sent: dict[str, Any]) -> str:
    """Send a form, follow it to the care page, return the message there."""
    page = client.post(address, sent, follow=True)
    assert page.status_code == 200, page.content.decode()
    return str(next(iter(page.context["messages"])))
