"""A light horse of the model, written out a second time for the tests of growth."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
from scipy import integrate, stats

from fitting.age import Foaled
from fitting.body import HorseType, Taken
from fitting.growth import Growth, Spread, Subject

BORN = date(2022, 5, 1)
HEIGHT_POINTS = ([0, 3, 6, 12, 18, 24, 30, 36, 48, 60],
                 [3.7, 2.8, 2.3, 2.0, 1.7, 1.5, 1.3, 1.2, 0.8, 0.5])  # fmt: skip


def day_at(months: float) -> date:
    return BORN + timedelta(days=round(months * 30.4375))


def months_at(day: date) -> float:
    return (day - BORN).days / 30.4375


def subject(horse_type: HorseType = "light", **more: object) -> Subject:
    facts = {"foaled": Foaled(first=BORN, last=BORN), **more}
    return Subject(horse_type=horse_type, **facts)  # type: ignore[arg-type]


def height(months: float, *readings: float, **more: object) -> Taken:
    return taken("withers_height", months, *readings, method="stick", **more)


def taken(measure: str, months: float, *readings: float, **more: object) -> Taken:
    return Taken(measure=measure, on=day_at(months), readings=readings, **more)  # type: ignore[arg-type]


def now(growth: Growth, months: float, measure: str = "withers_height") -> Spread:
    spread = growth.at(measure, day_at(months))
    assert spread is not None
    return spread


def light_height(t: np.ndarray, log_z: np.ndarray | float) -> np.ndarray:
    slow = 0.207 * np.exp(-0.0675 * np.exp(log_z) * t)
    return np.asarray(1 - 0.181 * np.exp(-0.30 * t) - slow)


def own_sd(t: float) -> float:
    """One SD of a light horse's own deviation: the table less what tempo explains."""

    def moment(power: int) -> float:
        def part(u: float) -> float:
            f = float(light_height(np.array(t), u))
            return f**power * float(stats.norm.pdf(u, scale=0.2))

        return float(integrate.quad(part, -1.6, 1.6)[0])

    table = np.interp(t, *HEIGHT_POINTS) / 100
    left = table**2 - (moment(2) - moment(1) ** 2)
    return float(np.sqrt(max(left, 0.003**2)))


def drawn_heights(rng: np.random.Generator, months: np.ndarray) -> np.ndarray:
    """True heights of one light horse of the model."""
    sds = np.array([own_sd_table(float(t)) for t in months])
    joint = np.outer(sds, sds) * np.exp(-np.abs(months[:, None] - months) / 18)
    own = rng.multivariate_normal(np.zeros(len(months)), joint, method="cholesky")
    tempo = rng.normal(0, 0.2)
    return np.asarray(rng.normal(1570, 60) * (light_height(months, tempo) + own))


_AGES = np.arange(0.0, 91.0, 3.0)
_OWN_SDS = [own_sd(t) for t in _AGES]


def own_sd_table(t: float) -> float:
    return float(np.interp(t, _AGES, _OWN_SDS))
