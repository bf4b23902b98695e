"""Measure simulated horses, fit them, and count how often a band held."""

from __future__ import annotations

from bisect import bisect
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt
from statistics import fmean, median
from typing import Final

import numpy as np

from fitting.age import DAYS_A_MONTH, Foaled
from fitting.body import Taken, measure_by_key
from fitting.calibration.worlds import MEASURES, Drawn, World
from fitting.curves import Floats
from fitting.growth import Growth, Subject, fit_growth

AHEAD_MONTHS: Final = (0, 6, 12, 24)
BANDS: Final = (0.5, 0.9)
# Ours: when and how a horse is measured. Ages as in the Czech Warmblood records.
FIRST_AGE: Final = 7.0
LAST_AGE: Final = 36.0
MOST_READINGS: Final = 7
METHODS: Final = {
    "withers_height": "stick", "heart_girth": "tape", "cannon_round": "tape"
}  # fmt: skip
AGE_EDGES: Final = (7, 12, 18, 24, 36)
_BORN: Final = date(2020, 5, 1)  # any day: no season is simulated
_FOALED: Final = Foaled(first=_BORN, last=_BORN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """How often bands held the true size of one measure, so many months ahead.

    ``held`` are shares, in the order of ``BANDS``.
    """

    measure: str
    ahead_months: int
    held: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GrownError:
    """Foretold less true grown height of horses last measured at an age, mm."""

    from_months: int
    to_months: int
    horses: int
    bias: float
    rmse: float
    median_off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """What fitting the horses of one world showed."""

    world: World
    horses: int
    seed: int
    coverage: tuple[Coverage, ...]
    grown: tuple[GrownError, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Horse:
    """One horse judged: share of the spread below each true size, and grown height."""

    last_age: float
    below: dict[str, tuple[float, ...]]
    grown_off: float


def calibrate(world: World, *, horses: int, seed: int) -> Calibration:
    """Return how fitted growth does on simulated horses; the same for the same seed.

    Raises:
        ValueError: there are no horses.
    """
    if horses < 1:
        raise ValueError(f"At least 1 horse is simulated, not {horses}")
    rng = np.random.default_rng(seed)
    judged = [_judge(world, rng) for _ in range(horses)]
    return Calibration(
        world=world,
        horses=horses,
        seed=seed,
        coverage=tuple(
            _coverage(judged, measure, at)
            for measure in MEASURES
            for at in range(len(AHEAD_MONTHS))
        ),
        grown=_grown_errors(judged),
    )


def _judge(world: World, rng: np.random.Generator) -> _Horse:
    days = _days(rng)
    ahead = [days[-1] + _months(months) for months in AHEAD_MONTHS]
    drawn = world.draw(rng, _ages([*days, *ahead]))
    subject = Subject(horse_type=world.horse_type, foaled=_FOALED)
    growth = fit_growth(subject, _readings(rng, drawn, days))
    grown = growth.grown_size("withers_height")
    if grown is None:  # pragma: no cover - every type has a prior of height
        raise ValueError(f"No grown height of a {world.horse_type} is known")
    return _Horse(
        last_age=float(_ages(days)[-1]),
        below={
            measure: _below(growth, measure, ahead, drawn.sizes[measure][len(days) :])
            for measure in MEASURES
        },
        grown_off=grown.mean - drawn.grown["withers_height"],
    )


def _days(rng: np.random.Generator) -> list[date]:
    """Return 1 to 7 measuring days, the last at any age of the records."""
    last = rng.uniform(FIRST_AGE, LAST_AGE)
    more = rng.integers(0, MOST_READINGS)
    ages = {last, *rng.uniform(FIRST_AGE, last, more)}
    return sorted({_BORN + _months(age) for age in ages})


def _months(months: float) -> timedelta:
    return timedelta(days=round(months * DAYS_A_MONTH))


def _ages(days: Sequence[date]) -> Floats:
    return np.array([(day - _BORN).days / DAYS_A_MONTH for day in days])


def _readings(
    rng: np.random.Generator, drawn: Drawn, days: Sequence[date]
) -> list[Taken]:
    """Return every measure on every day, once, with its method's error.

    Half of the horses are measured by one person throughout (ours).
    """
    same = bool(rng.integers(0, 2))
    taken = []
    for measure, method_key in METHODS.items():
        method = measure_by_key(measure).method(method_key)
        error = method.error if same else method.error_unknown_person
        now = drawn.sizes[measure][: len(days)]  # what comes after is for judging
        for day, true in zip(days, now, strict=True):
            reading = rng.normal(true, error)
            taken.append(
                Taken(
                    measure=measure, on=day, readings=(reading,), method=method_key,
                    same_person=same,
                )
            )  # fmt: skip
    return taken


def _below(
    growth: Growth, measure: str, days: Sequence[date], true: Sequence[float]
) -> tuple[float, ...]:
    spreads = growth.at_days(measure, days)
    return tuple(spread.below(size) for spread, size in zip(spreads, true, strict=True))


def _coverage(judged: Sequence[_Horse], measure: str, at: int) -> Coverage:
    off_middle = [abs(horse.below[measure][at] - 0.5) for horse in judged]
    return Coverage(
        measure=measure,
        ahead_months=AHEAD_MONTHS[at],
        held=tuple(fmean(off <= band / 2 for off in off_middle) for band in BANDS),
    )


def _grown_errors(judged: Sequence[_Horse]) -> tuple[GrownError, ...]:
    """Return a row for each span of ages in which horses were last measured."""
    off: dict[int, list[float]] = defaultdict(list)
    for horse in judged:
        off[bisect(AGE_EDGES[1:-1], horse.last_age)].append(horse.grown_off)
    return tuple(
        _grown_error(AGE_EDGES[at], AGE_EDGES[at + 1], off[at]) for at in sorted(off)
    )


def _grown_error(low: int, high: int, off: Sequence[float]) -> GrownError:
    return GrownError(
        from_months=low,
        to_months=high,
        horses=len(off),
        bias=fmean(off),
        rmse=sqrt(fmean(one * one for one in off)),
        median_off=median(abs(one) for one in off),
    )
