"""What the tests of the measuring pages share."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.contrib.messages import get_messages
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.reads.today import today_in
from tests.make import make_horse


def pennyroyal(yard: Yard) -> Horse:
    """Return a filly of thirty months."""
    foaled = today_in(yard) - timedelta(days=930)
    return make_horse(yard, name="Pennyroyal", foaled=foaled.isoformat())


def at(name: str, *args: Any) -> str:
    return reverse(f"fitting:{name}", args=["sallow-end", "pennyroyal", *args])


def days_ago(horse: Horse, days: int) -> date:
    return today_in(horse.yard) - timedelta(days=days)


def given(horse: Horse, **typed: Any) -> dict[str, Any]:
    """Return what the form of measuring sends; ``height_1`` is withers_height-1."""
    short = {"height": "withers_height", "girth": "heart_girth", "mouth": "mouth_width"}
    fields = {"on": today_in(horse.yard).isoformat(), "who": "Jo", "token": "once"}
    fields["same_person"] = "on"
    for name, value in typed.items():
        measure, _, box = name.rpartition("_")
        key = f"{short[measure]}-{box}" if measure in short else name
        fields[key] = value
    return fields


def said(response: Any) -> list[str]:
    return [str(message) for message in get_messages(response.wsgi_request)]


def body_of(response: Any, status: int = 422) -> str:
    assert response.status_code == status
    return str(response.content.decode())


def box(page: str, name: str) -> str:
    """Return the input of that name, as the page holds it."""
    return next(
        f"<input{part.partition('>')[0]}>"
        for part in page.split("<input")[1:]
        if f'name="{name}"' in part.partition(">")[0]
    )
