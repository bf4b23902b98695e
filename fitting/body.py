"""The measures of a horse: how each is taken, how well, how long it stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

Dimension = Literal["height", "length", "weight", "score"]
Standing = Literal["stands", "stale", "never"]
HorseType = Literal["small_pony", "pony", "light", "warmblood", "heavy"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """One way of taking a measure; ``error`` is one SD (mm), or a share if relative."""

    key: str
    name: str
    error: float
    error_unknown_person: float
    relative: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One measure of the body."""

    key: str
    name: str
    how: str
    dimension: Dimension
    methods: tuple[Method, ...]
    group: str
    grows: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One measurement: one measure, one day, one method; mm, kg or score.

    Struck-out measurements never become a ``Taken``.
    """

    measure: str
    on: date
    readings: tuple[float, ...]
    method: str
    same_person: bool = False
    shod: bool = False


MEASURES: tuple[Measure, ...] = ()


def measure_by_key(key: str) -> Measure:
    """Return the measure called ``key``."""
    raise NotImplementedError


def middle(readings: tuple[float, ...]) -> float:
    """Return the middle (median) of a day's readings."""
    raise NotImplementedError


def stands_days(measure: str, age_months: float, *, ridden: bool) -> int | None:
    """Return for how many days a measurement stands at this age; None: not asked."""
    raise NotImplementedError


def stands_until(
    taken: Taken, born: date, *, ridden: bool = False, tooth_change: date | None = None
) -> date:
    """Return the last day on which a measurement stands."""
    raise NotImplementedError


def plausible(
    measure: str, horse_type: HorseType, age_months: float
) -> tuple[float, float]:
    """Return the range (mm, kg, score) outside which a reading is doubted."""
    raise NotImplementedError
