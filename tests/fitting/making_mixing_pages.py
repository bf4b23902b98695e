"""A filly measured, and bridles, bits and sets to make hers up from, as rows."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from fitting.models import Horse, Part, SetPart, Tack, TackSet, Yard
from starting.writes import today_in
from tests.make import make_bit, make_horse, make_measurement

SIZES = {
    "head_length": 1040.0,
    "brow": 360.0,
    "nose_round": 600.0,
    "throat_round": 780.0,
    "mouth_width": 122.0,
}
STRAPS: dict[str, dict[str, Any]] = {
    "headpiece": {"length_mm": 600, "holes": 7, "spacing_mm": 16},
    "cheekpieces": {"length_mm": 230},
    "browband": {"length_mm": 390},
    "noseband": {"longest_mm": 660, "holes": 4, "spacing_mm": 20},
}


def make_filly(yard: Yard, name: str = "Teasel", **fields: Any) -> Horse:
    horse = make_horse(yard, name=name, grown=True, horse_type="light", **fields)
    day = today_in(yard) - timedelta(days=5)
    for measure, mm in SIZES.items():
        method = "string" if measure == "mouth_width" else "tape"
        make_measurement(horse, measure, on=day, value=mm, method=method)
    return horse


def make_bridle(yard: Yard, name: str = "Hazel", **more: dict[str, Any]) -> Tack:
    key = name.lower().replace(" ", "-")
    row = Tack.objects.create(yard=yard, key=key, name=name, kind="bridle")
    for part, sizes in STRAPS.items():
        Part.objects.create(tack=row, part=part, **(sizes | more.get(part, {})))
    return row


def make_snaffle(yard: Yard, name: str = "Snaffle") -> Tack:
    return make_bit(
        yard, name=name, length_mm=127, ring_mm=70, mouthpiece="double_jointed"
    )


def make_set(yard: Yard, name: str, **slots: Tack) -> TackSet:
    made = TackSet.objects.create(
        yard=yard, key=name.lower().replace(" ", "-"), name=name
    )
    for slot, item in slots.items():
        SetPart.objects.create(made_up=made, slot=slot, tack=item)
    return made
