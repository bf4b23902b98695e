"""The measures of a horse: how each is taken, how well, how long it stands."""

from __future__ import annotations

from fitting.body.kinds import (
    Dimension,
    HorseType,
    Measure,
    Method,
    Standing,
    Taken,
    UnknownMeasureError,
)
from fitting.body.measures import MEASURES, measure_by_key, middle
from fitting.body.ranges import plausible
from fitting.body.standing import due_window, standing_on, stands_days, stands_until
from fitting.body.walk import IN_SHORT, STOPS, Stop, in_walk

__all__ = [
    "IN_SHORT",
    "MEASURES",
    "STOPS",
    "Dimension",
    "HorseType",
    "Measure",
    "Method",
    "Standing",
    "Stop",
    "Taken",
    "UnknownMeasureError",
    "due_window",
    "in_walk",
    "measure_by_key",
    "middle",
    "plausible",
    "standing_on",
    "stands_days",
    "stands_until",
]
