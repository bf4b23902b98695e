"""Height and girth of one horse, joined by its tempo: against plain quadrature.

The reference knows nothing of how growth is fitted: at each tempo both measures are one
dense normal each, and the tempo is integrated out by scipy.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from scipy import integrate, stats

from fitting.body import Taken
from fitting.growth import fit_growth
from tests.fitting.light_horse import (
    HEIGHT_POINTS,
    day_at,
    height,
    months_at,
    now,
    subject,
    taken,
)

Seen = list[tuple[float, float]]  # age in months, mm
TEMPO_SD = 0.2


@dataclass(frozen=True)
class Reference:
    """A measure of a light horse: grown mean and SD, error (mm), curve, spread."""

    mean: float
    sd: float
    error: float
    slow: tuple[float, float]
    fast: tuple[float, float]
    wider: float

    def fraction(self, t: np.ndarray, u: float) -> np.ndarray:
        (a1, k1), (a2, k2) = self.fast, self.slow
        return np.asarray(1 - a1 * np.exp(-k1 * t) - a2 * np.exp(-k2 * np.exp(u) * t))

    @cache  # noqa: B019 - two references, and the tempo does not move it
    def own_sd(self, t: float) -> float:
        def moment(power: int) -> float:
            def part(u: float) -> float:
                f = float(self.fraction(np.array(t), u))
                return f**power * float(stats.norm.pdf(u, scale=TEMPO_SD))

            return float(integrate.quad(part, -1.6, 1.6)[0])

        table = self.wider * np.interp(t, *HEIGHT_POINTS) / 100
        left = table**2 - (moment(2) - moment(1) ** 2)
        return float(np.sqrt(max(left, 0.003**2)))

    def joint(self, t: np.ndarray, own: np.ndarray, u: float) -> np.ndarray:
        f = self.fraction(t, u)
        alike = np.exp(-np.abs(t[:, None] - t[None, :]) / 18)
        both = self.sd**2 * np.outer(f, f) + self.mean**2 * np.outer(own, own) * alike
        return np.asarray(both)


HEIGHT = Reference(1570, 60, 12, slow=(0.207, 0.0675), fast=(0.181, 0.30), wider=1.0)
GIRTH = Reference(1860, 100, 20, slow=(0.325, 0.060), fast=(0.225, 0.30), wider=1.25)


def given_tempo(of: Reference, seen: Seen, target: float, u: float) -> np.ndarray:
    """Likelihood of the readings; mean and SD at the target age."""
    t = np.array([months for months, _ in seen] + [target])
    own = np.array([of.own_sd(float(x)) for x in t])
    joint = of.joint(t, own, u)
    n = len(seen)
    past = joint[:n, :n] + of.error**2 * np.eye(n)
    expected = of.mean * of.fraction(t, u)
    if not seen:
        return np.array([1.0, expected[-1], np.sqrt(joint[-1, -1])])
    values = np.array([value for _, value in seen])
    gain = np.linalg.solve(past, joint[:n, n])
    mean = expected[n] + gain @ (values - expected[:n])
    chance = stats.multivariate_normal(expected[:n], past).pdf(values)
    return np.array([chance, mean, np.sqrt(joint[n, n] - gain @ joint[:n, n])])


def by_quadrature(
    about: Reference, its_own: Seen, other: Reference, others: Seen, target: float
) -> tuple[float, float]:
    tempos = np.linspace(-1.0, 1.0, 161)
    rows = np.array([given_tempo(about, its_own, target, u) for u in tempos])
    told = np.array([given_tempo(other, others, target, u)[0] for u in tempos])
    weight = rows[:, 0] * told * stats.norm.pdf(tempos, scale=TEMPO_SD)

    def average(of: np.ndarray) -> float:
        over = integrate.simpson(weight * of, x=tempos)
        return float(over / integrate.simpson(weight, x=tempos))

    mean = average(rows[:, 1])
    return mean, float(np.sqrt(average(rows[:, 2] ** 2 + (rows[:, 1] - mean) ** 2)))


def exact(seen: Seen) -> Seen:
    """The same readings at the ages their whole days have."""
    return [(months_at(day_at(months)), value) for months, value in seen]


def readings(heights: Seen, girths: Seen) -> list[Taken]:
    tape = [taken("heart_girth", t, y, method="tape") for t, y in girths]
    return [height(t, y) for t, y in heights] + tape


LATE: Seen = [(6, 1180), (12, 1270), (18, 1360), (24, 1430)]
EARLY: Seen = [(7, 1370), (13, 1470), (20, 1530), (27, 1540)]
GIRTHS: Seen = [(8, 1380), (15, 1560), (22, 1680)]
CASES = [
    (LATE, [(24.0, 1650.0)], 36.0),
    (LATE, GIRTHS, 24.0),
    (EARLY, GIRTHS, 40.0),
    (EARLY, [], 20.0),
    ([(12.0, 1400.0)], GIRTHS, 30.0),
]


@pytest.mark.parametrize(("heights", "girths", "target"), CASES)
@pytest.mark.parametrize("measure", ["withers_height", "heart_girth"])
def test_two_measures_agree_with_quadrature_over_the_tempo_they_share(
    heights: Seen, girths: Seen, target: float, measure: str
) -> None:
    at = months_at(day_at(target))
    height_side, girth_side = (HEIGHT, exact(heights)), (GIRTH, exact(girths))
    if measure == "withers_height":
        mean, sd = by_quadrature(*height_side, *girth_side, at)
    else:
        mean, sd = by_quadrature(*girth_side, *height_side, at)
    found = now(fit_growth(subject(), readings(heights, girths)), target, measure)
    assert found.mean == pytest.approx(mean, abs=0.02 * sd)
    assert found.sd == pytest.approx(sd, rel=0.02)


def test_the_other_measure_moves_the_reference_by_far_more_than_that() -> None:
    mean, sd = by_quadrature(GIRTH, exact(GIRTHS), HEIGHT, exact(LATE), 40.0)
    alone, _ = by_quadrature(GIRTH, exact(GIRTHS), HEIGHT, [], 40.0)
    assert abs(mean - alone) > 0.1 * sd
