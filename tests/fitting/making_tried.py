"""What is tried on whom; what is sent and read of it."""

from __future__ import annotations

from datetime import date
from html import unescape
from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Part, SetPart, Tack, TackSet, Yard
from starting.writes import replan
from tests.make import make_horse, make_measurement


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


def measured_filly(yard: Yard) -> Horse:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse, "mouth_width", value=112, method="dowel")
    make_measurement(horse, "head_length", value=930, method="tape")
    return horse


def brown_bridle(yard: Yard) -> Tack:
    """Return a bridle of headpiece and cheekpieces, with seven holes."""
    row = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    Part.objects.create(
        tack=row, part="headpiece", length_mm=540, holes=7, spacing_mm=16
    )
    Part.objects.create(tack=row, part="cheekpieces", length_mm=200, holes=7)
    return row


def best_bridle(yard: Yard, bit: Tack) -> TackSet:
    """Return a bridle with its bit and a noseband, made up as a set."""
    bridle = brown_bridle(yard)
    Part.objects.create(tack=bridle, part="noseband", holes=14)
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    for slot in ("noseband", "headpiece", "cheekpieces"):
        SetPart.objects.create(made_up=row, slot=slot, tack=bridle)
    SetPart.objects.create(made_up=row, slot="bit", tack=bit)
    return row


def plan(yard: Yard) -> None:
    replan(yard, today())


def at(name: str, horse: Horse, *args: Any, query: str = "") -> str:
    address = reverse(f"fitting:{name}", args=[horse.yard.slug, horse.key, *args])
    return f"{address}?{query}" if query else address


def read(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return unescape(answer.content.decode())


def post(client: Client, address: str, said: dict[str, Any], status: int = 200) -> str:
    answer = client.post(address, said, follow=True)
    assert answer.status_code == status
    return unescape(answer.content.decode())
