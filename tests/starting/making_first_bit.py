"""A filly ready for her first bit, and the tack that she is to wear."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from fitting.fit import Part, Tack
from fitting.tryons import Tried, TryOn
from starting.gates import CareDone
from starting.outlook import HorseFacts, Outlook, look_at_yard
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    LAST_WEEK,
    TODAY,
    established,
    good_session,
    horse_facts,
    measured,
    yard_facts,
)

BIT = Tack(
    name="Small eggbutt",
    kind="bit",
    parts=(
        Part(
            part="mouthpiece",
            length_mm=114.3,
            thickness_mm=14.0,
            cheek="eggbutt",
            mouthpiece="single_jointed",
            ring_mm=55.0,
        ),
    ),
)


def ready_for_a_bit(**fields: object) -> HorseFacts:
    """Return a filly of 31 months with everything done that a first bit needs."""
    bridle_days = [TODAY - timedelta(days=d) for d in (20, 16, 12, 8, 4)]
    known = horse_facts(
        measured=(
            measured("withers_height", LAST_WEEK, 1286),
            measured("head_length", LAST_WEEK, 908, "tape"),
            measured("mouth_width", LAST_WEEK, 105, "dowel"),
            measured("nose_round", LAST_WEEK, 550, "tape"),
            measured("brow", LAST_WEEK, 348, "tape"),
        ),
        records=established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21)),
        sessions=tuple(good_session("bridle", day) for day in bridle_days),
        care=(
            CareDone(kind="teeth", on=TODAY - timedelta(days=40), wolf_teeth="none"),
        ),
        tryons=(
            TryOn(
                on=LAST_WEEK,
                item="Brown bridle",
                how="worn",
                parts=(Tried(part="cheekpieces", seen="sits_right", hole=4),),
            ),
        ),
    )
    return replace(known, **fields)  # type: ignore[arg-type]


BRIDLE = Tack(
    name="Brown bridle",
    kind="bridle",
    parts=(
        Part(part="headpiece", length_mm=540, holes=7, spacing_mm=16),
        Part(part="cheekpieces", length_mm=200, holes=7, spacing_mm=16),
    ),
)


def look(horse: HorseFacts, on: date = TODAY, **yard: object) -> Outlook:
    yard.setdefault("tack", (BIT, BRIDLE))
    return look_at_yard(yard_facts(horse, **yard), on)[0]
