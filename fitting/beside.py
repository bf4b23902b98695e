"""Horses put beside one another: their sizes at one age, and whether they differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import combinations
from math import erfc, sqrt
from typing import Final, Literal

import numpy as np

from fitting.age import DAYS_A_MONTH, months_old
from fitting.growth import Growth, Observation, Spread

MOST_BESIDE: Final = 4  # more lines cannot be told apart on a phone: ours
# From this chance on that one is the larger, error does not explain it: ours.
SURE_FROM: Final = 0.95
_ERFC: Final = np.frompyfunc(erfc, 1, 1)

When = Literal["at_age", "grown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """One horse that is put beside others; ``born`` is its last possible day."""

    name: str
    growth: Growth
    born: date
    grown: bool = False

    def observed(self, measure: str) -> tuple[Observation, ...]:
        """Return what was measured of it, in order of days; mm or kg."""
        return next((seen for key, seen in self.growth.seen if key == measure), ())

    def day_at(self, age_months: float) -> date:
        """Return the day on which it is of an age."""
        return self.born + timedelta(days=round(age_months * DAYS_A_MONTH))

    def age_on(self, day: date) -> float:
        """Return its age on a day, in months."""
        return months_old(self.born, day)

    def size(self, measure: str, age_months: float) -> Spread | None:
        """Return its size at an age, mm or kg; None: a grown horse, or not known."""
        if self.grown:
            return None
        return self.growth.at(measure, self.day_at(age_months))


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """By how much one horse is above another, mm or kg.

    ``chance`` is that it truly is. ``when``: at the age asked, or once both are grown.
    """

    larger: str
    smaller: str
    by: float
    chance: float
    when: When

    @property
    def is_sure(self) -> bool:
        """Whether the difference is more than the errors can explain."""
        return self.chance >= SURE_FROM


def youngest_age(horses: Sequence[Beside], on: date) -> float | None:
    """Return today's age of the youngest youngster, months; None: all are grown."""
    ages = [horse.age_on(on) for horse in horses if not horse.grown]
    return max(0.0, min(ages)) if ages else None


def chance_larger(one: Spread, other: Spread) -> float:
    """Return the chance (0 to 1) that a size is larger than another, independent one.

    Exact for mixtures of normals: every part of one is set against every of the other.
    """
    weights = np.outer(one.weights, other.weights)
    apart = np.subtract.outer(np.array(one.means), np.array(other.means))
    sds = np.sqrt(np.add.outer(np.square(one.sds), np.square(other.sds)))
    chances = 0.5 * np.asarray(_ERFC(-apart / (sds * sqrt(2))), dtype=float)
    return float((weights * chances).sum())


def differences(
    horses: Sequence[Beside], measure: str, age_months: float | None
) -> tuple[Difference, ...]:
    """Return how every two of the horses differ; those of unknown size are left out.

    Two youngsters at the age asked; with a grown horse, both when grown.
    """
    found = (_pair(one, other, measure, age_months) for one, other in pairs(horses))
    return tuple(each for each in found if each)


def pairs(horses: Sequence[Beside]) -> tuple[tuple[Beside, Beside], ...]:
    """Return every two of the horses."""
    return tuple(combinations(horses, 2))


def _pair(
    one: Beside, other: Beside, measure: str, age_months: float | None
) -> Difference | None:
    grown = one.grown or other.grown or age_months is None
    if grown or age_months is None:
        sizes = [horse.growth.grown_size(measure) for horse in (one, other)]
    else:
        sizes = [horse.size(measure, age_months) for horse in (one, other)]
    first, second = sizes
    if first is None or second is None:
        return None
    if first.mean < second.mean:
        one, other, first, second = other, one, second, first
    return Difference(
        larger=one.name,
        smaller=other.name,
        by=first.mean - second.mean,
        chance=chance_larger(first, second),
        when="grown" if grown else "at_age",
    )
