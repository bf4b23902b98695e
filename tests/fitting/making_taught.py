"""A bit and a bridle, and what is seen of them on a youngster."""

from __future__ import annotations

from datetime import date

from fitting.fit import MadeUp, Part
from fitting.growth import Bound, Subject
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import How, Seen, Tried, TryOn
from tests.fitting.making_fit import ON, YOUNG, make_bit, make_bridle
from tests.fitting.making_straps import NOSEBAND

BIT = make_bit(127.0, "eggbutt", ring_mm=70.0)
BROWBAND = Part(part="browband", length_mm=400.0)
THROATLASH = Part(part="throatlash", length_mm=600.0, holes=7, spacing_mm=25.0)
BRIDLE = make_bridle(more=(NOSEBAND, BROWBAND, THROATLASH))
MADE_UP = MadeUp(
    name="First bridle",
    parts=(
        *(("headpiece", BRIDLE), ("cheekpieces", BRIDLE), ("noseband", BRIDLE)),
        *(("browband", BRIDLE), ("throatlash", BRIDLE), ("bit", BIT)),
    ),
)


def tryon(
    item: str,
    part: str,
    seen: Seen,
    hole: int | None = None,
    *,
    how: How = "held",
    on: date = ON,
) -> TryOn:
    return TryOn(
        on=on, item=item, how=how, parts=(Tried(part=part, seen=seen, hole=hole),)
    )


def taught(
    *tryons: TryOn,
    subject: Subject = YOUNG,
    clearances: tuple[tuple[str, float], ...] = (),
) -> tuple[Bound, ...]:
    tried = TriedOn(
        tryons=tryons, tack=(BIT, BRIDLE), made_up=(MADE_UP,), clearances=clearances
    )
    return bounds_of(subject, tried)
