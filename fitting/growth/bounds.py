"""Bounds on a size: what a try-on says of the body, as far as it can be believed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import erfc, sqrt
from typing import Final, Literal

import numpy as np

from fitting.curves import Floats, grows

Kind = Literal["at_least", "at_most", "about"]

# Ours: three words in a hundred on a try-on are mistaken, whatever the body.
BELIEVED: Final = 0.97
MISTAKEN: Final = 1 - BELIEVED
_SIGNS: Final = {"at_least": (1.0,), "at_most": (-1.0,), "about": (1.0, -1.0)}
# The normal's share below z, straight lines between points: right to 1e-7.
_Z: Final[Floats] = np.linspace(-8.0, 8.0, 8001)
_SHARE: Final[Floats] = np.array([0.5 * erfc(-z / sqrt(2)) for z in _Z.tolist()])


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Bound:
    """A size was at least, at most or about ``value`` on a day, give or take ``sigma``.

    Both in mm (kg of weight). *About* is at least ``value - sigma`` and at most
    ``value + sigma``. ``measure`` is what growth calls it: a stick height by its plain
    name.

    Raises:
        ValueError: ``value`` or ``sigma`` is not above nought, or the measure does
            not grow.
    """

    measure: str
    on: date
    kind: Kind
    value: float
    sigma: float

    def __post_init__(self) -> None:
        if not self.sigma > 0:
            raise ValueError(f"A bound is never exact: sigma {self.sigma}")
        if not self.value > 0:
            raise ValueError(f"A size is above nought, not {self.value}")
        if not grows(self.measure):
            raise ValueError(f"{self.measure!r} does not grow: it has no bounds")

    def chance(self, sizes: Floats) -> Floats:
        """Return how likely the word is at each size, same shape, 0 to 1.

        Source: ours.
        """
        seen = np.ones_like(sizes)
        for sign in _SIGNS[self.kind]:
            edge = self.value - sign * self.sigma * (self.kind == "about")
            z = sign * (sizes - edge) / self.sigma
            seen = seen * (BELIEVED * np.interp(z, _Z, _SHARE) + MISTAKEN)
        return seen


def of_measure(bounds: Sequence[Bound], measure: str) -> tuple[Bound, ...]:
    """Return the bounds on one measure, in the order of their days."""
    return tuple(sorted(bound for bound in bounds if bound.measure == measure))


def days_of(bounds: Sequence[Bound]) -> tuple[date, ...]:
    """Return the days the bounds speak of, each once, in order."""
    return tuple(sorted({bound.on for bound in bounds}))
