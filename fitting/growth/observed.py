"""Measurements become observations: one a day, a measure and a family of methods."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt
from typing import Final

from fitting.body import HorseType, Method, Taken, measure_by_key, middle

# A horse in shoes stands 10 mm higher: the allowance in the FEI pony measuring rules.
_SHOES_MM: Final = 10.0
# One SD of a weigh tape below 100 cm at the withers, as a share: student study at
# Utrecht, n = 40 (it also read 14 % over, so its figure is hardly a weight).
_WEIGH_TAPE_SMALL_SHARE: Final = 0.16


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Observation:
    """What one day says of one measure: a size and one SD of its error (mm, kg)."""

    on: date
    value: float
    error: float


def growth_key(measure: str, method: str) -> str:
    """Return the measure as growth knows it: tape and stick heights never mix."""
    if measure_by_key(measure).dimension == "height" and method == "tape":
        return f"{measure}_tape"
    return measure


def _is_height(taken: Taken) -> bool:
    return measure_by_key(taken.measure).dimension == "height"


def _true_readings(taken: Taken, method: Method) -> tuple[float, ...]:
    over = method.reads_over + (_SHOES_MM if taken.shod and _is_height(taken) else 0.0)
    return tuple(reading - over for reading in taken.readings)


def _figure(taken: Taken, method: Method, horse_type: HorseType) -> float:
    if method.key == "weigh_tape" and horse_type == "small_pony":
        return _WEIGH_TAPE_SMALL_SHARE
    return method.error if taken.same_person else method.error_unknown_person


def _observe(
    day: date, readings: Sequence[float], figure: float, *, relative: bool
) -> Observation:
    value = middle(tuple(readings))
    # Half of the variance belongs to the day, half to each reading (ours).
    error = figure * sqrt((1 + 1 / len(readings)) / 2)
    return Observation(on=day, value=value, error=error * value if relative else error)


def observations(
    taken: Sequence[Taken], horse_type: HorseType
) -> tuple[tuple[str, tuple[Observation, ...]], ...]:
    """Return observations (mm, kg, score) by measure, each in order of its day.

    Readings of one day by methods of one family and one error are one observation:
    their middle. Other methods that day are observations of their own.

    Raises:
        UnknownMeasureError: A measurement names an unknown measure or method.
    """
    days: dict[tuple[str, date, str, float, bool], list[float]] = defaultdict(list)
    for one in taken:
        method = measure_by_key(one.measure).method(one.method)
        figure = _figure(one, method, horse_type)
        key = growth_key(one.measure, one.method)
        same_day = (key, one.on, method.family, figure, method.relative)
        days[same_day].extend(_true_readings(one, method))
    found: dict[str, list[Observation]] = defaultdict(list)
    for (key, day, _, figure, relative), readings in days.items():
        found[key].append(_observe(day, readings, figure, relative=relative))
    return tuple((key, tuple(sorted(found[key]))) for key in sorted(found))
