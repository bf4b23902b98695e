"""What growth knows of a horse beside its readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from fitting.age import DAYS_A_MONTH, Foaled
from fitting.body import HorseType
from fitting.curves import Floats, grown_prior, lean_on_withers, with_parents


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What growth needs to know of a horse beside its readings.

    ``lives_out``: its girth and weight go with the season of its ``hemisphere``, north
    or south.
    """

    horse_type: HorseType
    foaled: Foaled
    grown: bool = False
    dam_height_mm: float | None = None
    sire_height_mm: float | None = None
    lives_out: bool = False
    hemisphere: str = "north"


def ages_months(births: Sequence[date], days: Sequence[date]) -> Floats:
    """Return ages in months, shape (births, days)."""
    born = np.array([birth.toordinal() for birth in births], dtype=float)
    on = np.array([day.toordinal() for day in days], dtype=float)
    return np.asarray((on[None, :] - born[:, None]) / DAYS_A_MONTH)


def prior_of(measure: str, subject: Subject) -> tuple[float, float] | None:
    """Return mean and SD (mm, kg) of the grown size before any reading, or None.

    Heights know the parents. Source: as in ``curves.toml``.
    """
    withers = grown_prior("withers_height", subject.horse_type)
    if withers is None:  # pragma: no cover - every type has one
        return None
    withers = with_parents(withers, subject.dam_height_mm, subject.sire_height_mm)
    if measure == "withers_height":
        return withers
    return lean_on_withers(measure, *withers) or grown_prior(
        measure, subject.horse_type
    )
