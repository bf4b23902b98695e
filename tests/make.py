"""Rows for tests: say only what matters."""

from __future__ import annotations

from datetime import date, timedelta
from io import BytesIO
from itertools import count
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone
from PIL import Image

from fitting.models import Horse, Measurement, Membership, Part, Photo, Tack, Yard
from fitting.photos import read_photo
from fitting.writes.photos import add_photo
from fitting.writes.touch import free_key
from starting.models import Plan
from starting.writes.plans import shipped_version

NUMBERS = count(1)
PASSWORD = "a long enough word"
SIGNED_IN = 3  # queries: session, person, membership with its yard


def make_yard(**fields: Any) -> Yard:
    number = next(NUMBERS)
    fields.setdefault("name", f"Yard {number}")
    fields.setdefault("slug", f"yard-{number}")
    return Yard.objects.create(**fields)


def make_user(name: str = "") -> User:
    name = name or f"person{next(NUMBERS)}"
    return User.objects.create_user(name, f"{name}@yard.example", PASSWORD)


def make_member(yard: Yard, role: str = "keeper", user: User | None = None) -> User:
    user = user or make_user()
    Membership.objects.create(yard=yard, user=user, role=role)
    return user


def make_horse(yard: Yard, *, plan: bool = True, **fields: Any) -> Horse:
    name = fields.setdefault("name", f"Horse {next(NUMBERS)}")
    fields.setdefault("sex", "filly")
    fields.setdefault("foaled", "2024-04-19")
    fields.setdefault("horse_type", "pony")
    taken = set(yard.horses.values_list("key", flat=True))
    horse = Horse.objects.create(yard=yard, key=free_key(name, taken), **fields)
    if plan and not horse.grown:
        make_plan(horse)
    return horse


def make_plan(horse: Horse, **fields: Any) -> Plan:
    return Plan.objects.create(horse=horse, programme=shipped_version(), **fields)


def make_measurement(
    horse: Horse,
    measure: str = "withers_height",
    on: date | None = None,
    value: float = 1320.0,
    **fields: Any,
) -> Measurement:
    fields.setdefault("method", "stick")
    fields.setdefault("readings", [{"written": f"{value:g} mm", "value": value}])
    when = on or timezone.localdate() - timedelta(days=5)  # any near day
    return Measurement.objects.create(horse=horse, measure=measure, on=when, **fields)


def make_bit(yard: Yard, *, length_mm: float = 120.65, **fields: Any) -> Tack:
    number = next(NUMBERS)
    name = fields.pop("name", f"Bit {number}")
    bit = Tack.objects.create(yard=yard, key=f"bit-{number}", name=name, kind="bit")
    fields.setdefault("cheek", "eggbutt")
    fields.setdefault("mouthpiece", "single_jointed")
    fields.setdefault("thickness_mm", 14)
    fields.setdefault("ring_mm", 65)
    Part.objects.create(tack=bit, part="mouthpiece", length_mm=length_mm, **fields)
    return bit


def make_picture(
    size: tuple[int, int] = (120, 80), kind: str = "JPEG", **how: Any
) -> bytes:
    into = BytesIO()
    Image.new("RGB", size, (150, 90, 50)).save(into, kind, **how)
    return into.getvalue()


def make_photo(horse: Horse, on: date | None = None, **fields: Any) -> Photo:
    when = on or timezone.localdate() - timedelta(days=5)  # any near day
    photo = Photo(horse=horse, on=when, **fields)
    add_photo(photo, read_photo(make_picture()), "", "")
    return photo
