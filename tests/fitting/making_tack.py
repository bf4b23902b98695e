"""Tack that hangs in a yard, and the addresses of its forms."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Part, SetPart, Tack, TackSet, Yard

BIT = {
    "name": "Small eggbutt",
    "label_size": "4 1/2",
    "mouthpiece-length": "4 3/4",
    "mouthpiece-thickness": "14 mm",
    "mouthpiece-ring": "65 mm",
    "mouthpiece-cheek": "eggbutt",
    "mouthpiece-mouthpiece": "single_jointed",
    "token": "once",
}

BRIDLE = {
    "name": "Brown bridle",
    "headpiece-length": "21 in",
    "headpiece-holes": "7",
    "headpiece-spacing": "16 mm",
    "cheekpieces-length": "20 cm",
    "noseband-there": "on",
    "token": "once",
}


def make_bridle(yard: Yard, name: str = "Brown bridle", **fields: Any) -> Tack:
    key = name.lower().replace(" ", "-")
    row = Tack.objects.create(yard=yard, key=key, name=name, kind="bridle", **fields)
    Part.objects.create(
        tack=row, part="headpiece", length_mm=540, holes=7, spacing_mm=16
    )
    Part.objects.create(tack=row, part="cheekpieces", length_mm=200)
    return row


def make_set(yard: Yard, bridle: Tack, bit: Tack | None = None) -> TackSet:
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    SetPart.objects.create(made_up=row, slot="headpiece", tack=bridle)
    SetPart.objects.create(made_up=row, slot="cheekpieces", tack=bridle)
    if bit:
        SetPart.objects.create(made_up=row, slot="bit", tack=bit)
    return row


def room(client: Client, yard: Yard) -> str:
    answer = client.get(reverse("fitting:tack-room", args=[yard.slug]))
    assert answer.status_code == 200
    return answer.content.decode()


def add(yard: Yard, kind: str) -> str:
    return f"{reverse('fitting:add-tack', args=[yard.slug])}?kind={kind}"
