"""Readings and published curves become a size on any day, with its spread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from fitting.age import Foaled
from fitting.body import HorseType, Taken


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What growth needs to know of a horse beside its readings."""

    horse_type: HorseType
    foaled: Foaled
    grown: bool = False
    dam_height_mm: float | None = None
    sire_height_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A size with its spread: a mixture of normals (mm, or kg); shapes equal."""

    weights: tuple[float, ...]
    means: tuple[float, ...]
    sds: tuple[float, ...]

    @property
    def mean(self) -> float:
        """The mean."""
        raise NotImplementedError

    @property
    def sd(self) -> float:
        """The standard deviation."""
        raise NotImplementedError

    def below(self, limit: float) -> float:
        """Return the chance that the size lies below ``limit``."""
        raise NotImplementedError

    def quantile(self, share: float) -> float:
        """Return the size that ``share`` of the spread lies below."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """One horse's growth, fitted to its readings (fields as the fit needs)."""

    subject: Subject

    def known(self, measure: str) -> bool:
        """Whether the measure was ever taken."""
        raise NotImplementedError

    def at(self, measure: str, on: date) -> Spread | None:
        """Return the size on a day, mm or kg; None: neither prior nor reading."""
        raise NotImplementedError

    def at_days(self, measure: str, days: Sequence[date]) -> tuple[Spread, ...]:
        """Return the size on each day; empty where ``at`` would say None."""
        raise NotImplementedError

    def grown_size(self, measure: str) -> Spread | None:
        """Return the grown size."""
        raise NotImplementedError


def fit_growth(subject: Subject, taken: Sequence[Taken]) -> Growth:
    """Return growth fitted to the readings (may be empty: prior only)."""
    raise NotImplementedError
