"""Horses, and the tack that is tried on them."""

from __future__ import annotations

import pytest

from fitting.models import Horse, Part, SetPart, Tack, TackSet, Yard
from tests.fitting.making_tried import brown_bridle
from tests.make import make_bit, make_horse


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy")


@pytest.fixture
def bit(yard: Yard) -> Tack:
    return make_bit(yard, name="Small eggbutt", length_mm=118)


@pytest.fixture
def bridle(yard: Yard) -> Tack:
    row = brown_bridle(yard)
    Part.objects.create(tack=row, part="browband", length_mm=380)
    return row


@pytest.fixture
def made_up(yard: Yard, bridle: Tack, bit: Tack) -> TackSet:
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    for slot, item in (
        ("headpiece", bridle),
        ("cheekpieces", bridle),
        ("browband", bridle),
        ("bit", bit),
    ):
        SetPart.objects.create(made_up=row, slot=slot, tack=item)
    return row


@pytest.fixture
def ash(yard: Yard) -> Horse:
    return make_horse(yard, name="Ash")
