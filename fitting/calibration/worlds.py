"""Where simulated horses come from: the model itself, and a curve outside it.

Nothing here is taken from the fitting in ``fitting.growth``: a horse is drawn straight
from its grown size, its tempo and its own deviation.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, log
from typing import Final

import numpy as np

from fitting.age import DAYS_A_MONTH
from fitting.body import HorseType
from fitting.curves import (
    MEMORY_MONTHS,
    TEMPO_LOG_SD,
    Floats,
    curve_for,
    grown_prior,
    own_deviation,
)

MEASURES: Final = ("withers_height", "heart_girth", "cannon_round")

_TINY: Final = 1e-9  # keeps the draw of a deviation from failing by a rounding
_LEFT_WHEN_DONE: Final = 0.01  # the published ages are those at 99 %


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One simulated horse: by measure its grown size and its sizes by age, mm."""

    grown: dict[str, float]
    sizes: dict[str, tuple[float, ...]]


Draw = Callable[[np.random.Generator, Floats], Drawn]


@dataclass(frozen=True, slots=True, kw_only=True)
class World:
    """Horses of one kind: how one is drawn at ages in months, as what it is fitted."""

    name: str
    horse_type: HorseType
    draw: Draw


@dataclass(frozen=True, slots=True, kw_only=True)
class Brody:
    """A curve ``grown * (1 - start * exp(-rate * days))`` and its spread of size."""

    grown_mm: float
    start: float
    rate_a_day: float
    grown_sd_mm: float

    def fraction(self, months: Floats, tempo: float = 1.0) -> Floats:
        """Return the fraction of the grown size at ages in months."""
        left = self.start * np.exp(-self.rate_a_day * tempo * DAYS_A_MONTH * months)
        return np.asarray(1.0 - left, dtype=float)


def _start(rate_a_day: float, months_done: float) -> float:
    """Return the start that leaves 1 % to grow at an age; derived, ours."""
    return _LEFT_WHEN_DONE * exp(rate_a_day * DAYS_A_MONTH * months_done)


# "The growth curves for some biometric traits in Czech Warmblood stallions": 7,488
# records of 117 stallions, 7 to 36 months. Published: the grown means, the age at 99 %
# (height 42 months, girth 46, cannon 38), the rates of height and cannon, and that a
# girth has 76 % at 6 months. Derived, ours: every start, from the rate and the age at
# 99 %; the girth's rate, from its 76 % and its age at 99 %. The percentages published
# for height (88 at 12 months, 94 at 24) lie 1 to 2 below what its own rate and age at
# 99 % give (89, 96); here the rate counts.
_GIRTH_LEFT_AT_6: Final = 0.24
_GIRTH_RATE: Final = log(_GIRTH_LEFT_AT_6 / _LEFT_WHEN_DONE) / (46 - 6) / DAYS_A_MONTH
# Spread of grown sizes: ours.
BRODY: Final = {
    "withers_height": Brody(
        grown_mm=1674, rate_a_day=0.0026, start=_start(0.0026, 42), grown_sd_mm=43
    ),
    "heart_girth": Brody(
        grown_mm=1943, rate_a_day=_GIRTH_RATE, start=_start(_GIRTH_RATE, 46),
        grown_sd_mm=66,
    ),
    "cannon_round": Brody(
        grown_mm=218, rate_a_day=0.0032, start=_start(0.0032, 38), grown_sd_mm=10
    ),
}  # fmt: skip
# Spread of the rate between horses, one for all measures of a horse: ours. At 12 months
# it spreads height by 2.0 points of the grown size, as Baban et al. (Lipizzan) gives.
BRODY_LOG_SD: Final = 0.2


def worlds(horse_type: HorseType) -> tuple[World, World]:
    """Return the model's own horses of a type, and warmbloods of a curve outside it."""
    inside = World(
        name="inside: horses drawn from the model itself",
        horse_type=horse_type,
        draw=lambda rng, months: from_the_model(rng, horse_type, months),
    )
    outside = World(
        name="outside: horses of another curve (Brody, Czech Warmbloods)",
        horse_type="warmblood",
        draw=from_outside,
    )
    return inside, outside


def from_the_model(
    rng: np.random.Generator, horse_type: HorseType, months: Floats
) -> Drawn:
    """Return a horse of the model: grown size, one tempo, each measure's deviation.

    Args:
        rng: where chance comes from.
        horse_type: whose curves and spreads.
        months: ages, shape (n,).

    Source: ``curves.toml``, as growth's own.
    """
    tempo = exp(rng.normal(0.0, TEMPO_LOG_SD))
    apart = np.abs(months[:, None] - months[None, :])
    alike = np.exp(-apart / MEMORY_MONTHS) + _TINY * np.eye(len(months))
    root = np.linalg.cholesky(alike)
    grown, sizes = {}, {}
    for measure in MEASURES:
        prior = grown_prior(measure, horse_type)
        if prior is None:  # pragma: no cover - each of these has one for every type
            raise ValueError(f"No grown {measure} of a {horse_type} is known")
        own = own_deviation(measure, horse_type, months)
        own = own * (root @ rng.normal(size=len(months)))
        curve = curve_for(measure, horse_type).fraction(months, tempo)
        grown[measure] = rng.normal(*prior)
        sizes[measure] = tuple((grown[measure] * (curve + own)).tolist())
    return Drawn(grown=grown, sizes=sizes)


def from_outside(rng: np.random.Generator, months: Floats) -> Drawn:
    """Return a warmblood of Brody's curve, its own in size and in rate.

    Source: ``BRODY``; its spreads are ours.
    """
    tempo = exp(rng.normal(0.0, BRODY_LOG_SD))
    grown, sizes = {}, {}
    for measure, curve in BRODY.items():
        grown[measure] = rng.normal(curve.grown_mm, curve.grown_sd_mm)
        size = grown[measure] * curve.fraction(months, tempo)
        sizes[measure] = tuple(size.tolist())
    return Drawn(grown=grown, sizes=sizes)
