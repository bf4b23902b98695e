"""Published growth curves and the spread of grown sizes, read from ``curves.toml``."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from importlib.resources import files
from math import hypot, log
from typing import TYPE_CHECKING, Any, Final

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from fitting.body import HorseType

Floats = NDArray[np.float64]

_ANY_YEAR: Final = 2000
_DAYS_A_YEAR: Final = 365.25

_NUMBERS: Final[dict[str, Any]] = tomllib.loads(
    files("fitting").joinpath("curves.toml").read_text(encoding="utf-8")
)
TEMPO_LOG_SD: Final[float] = _NUMBERS["tempo"]["log_sd"]
MEMORY_MONTHS: Final[float] = _NUMBERS["deviation"]["memory_months"]
UNMEASURED_SHARE: Final[float] = _NUMBERS["unmeasured"]["share"]
DOUBTED_SDS: Final[float] = _NUMBERS["doubted"]["sds"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A fraction of the grown size by age: a fast part and a slow part."""

    a1: float
    k1: float
    a2: float
    k2: float

    def fraction(self, months: Floats, tempo: Floats | float = 1.0) -> Floats:
        """Return the fraction of the grown size; ages before birth count as birth."""
        t = np.maximum(months, 0.0)
        slow = self.a2 * np.exp(-self.k2 * tempo * t)
        return np.asarray(1.0 - self.a1 * np.exp(-self.k1 * t) - slow, dtype=float)


def _nodes() -> tuple[Floats, Floats]:
    nodes, weights = np.polynomial.hermite_e.hermegauss(_NUMBERS["tempo"]["nodes"])
    return nodes, weights / weights.sum()


NODES, NODE_WEIGHTS = _nodes()
SEARCH_STEP: Final[float] = _NUMBERS["tempo"]["search_step"]
_FURTHEST: Final[float] = _NUMBERS["tempo"]["search_sds"] * TEMPO_LOG_SD
SEARCH: Final[Floats] = np.arange(-_FURTHEST, _FURTHEST + SEARCH_STEP, SEARCH_STEP)
_TEMPOS: Final[Floats] = np.exp(TEMPO_LOG_SD * NODES)


def grows(measure: str) -> bool:
    """Return whether the measure follows a growth curve."""
    return measure in _NUMBERS["follows"]


@lru_cache(maxsize=256)
def curve_for(measure: str, horse_type: HorseType) -> Curve:
    """Return the curve of a measure for a type of horse.

    Raises:
        KeyError: The measure follows no curve.

    Source: named beside each curve in ``curves.toml``.
    """
    by_type = _NUMBERS["curve"][_NUMBERS["follows"][measure]]
    numbers = dict(by_type.get("all") or by_type[horse_type])
    if slow := _NUMBERS["slow_end"].get(measure):
        numbers["k2"] = log(numbers["a2"] / slow["left"]) / slow["months"]
    return Curve(**numbers)


def fraction_spread(measure: str, horse_type: HorseType, months: Floats) -> Floats:
    """Return one SD of the fraction between horses, as a share of the grown size.

    Source: Baban et al. for height, ours for the rest (``curves.toml``).
    """
    rows = _NUMBERS["deviation"]
    if measure == "weight":
        points = np.interp(months, rows["weight"]["months"], rows["weight"][horse_type])
        return np.asarray(points / 100.0)
    points = np.interp(months, rows["height"]["months"], rows["height"]["points"])
    withers = measure in ("withers_height", "withers_height_tape")
    return np.asarray(points / 100.0 * (1.0 if withers else rows["other_measures"]))


def season(measure: str, days: Sequence[date], hemisphere: str) -> Floats:
    """Return what the season makes of a size on each day, shape (days,); 1: nothing.

    For horses that live out. Source: Sveinsson (1993, 1994), rounded (``curves.toml``).

    Raises:
        KeyError: ``hemisphere`` is neither north nor south.
    """
    rows = _NUMBERS["season"]
    month, day = rows["top"][hemisphere]
    swing = rows["swing"].get(measure, 0.0)
    top = date(_ANY_YEAR, month, day).toordinal()
    since = np.array([on.toordinal() - top for on in days], dtype=float)
    return np.asarray(1.0 + swing * np.cos(2 * np.pi * since / _DAYS_A_YEAR))


def own_deviation(measure: str, horse_type: HorseType, months: Floats) -> Floats:
    """Return one SD of a horse's own deviation from the curve at its tempo (share).

    What its tempo explains is taken out of the spread between horses.
    """
    rows = _NUMBERS["deviation"]
    curve = curve_for(measure, horse_type)
    by_tempo = curve.fraction(months[..., None], _TEMPOS)
    middle = (by_tempo * NODE_WEIGHTS).sum(axis=-1)
    explained = ((by_tempo - middle[..., None]) ** 2 * NODE_WEIGHTS).sum(axis=-1)
    left = fraction_spread(measure, horse_type, months) ** 2 - explained
    least = rows["least_points"] / 100.0
    wider: float = rows["wider"].get(horse_type, 1.0)
    return np.asarray(wider * np.sqrt(np.maximum(left, least**2)), dtype=float)


@lru_cache(maxsize=256)
def grown_prior(measure: str, horse_type: HorseType) -> tuple[float, float] | None:
    """Return mean and SD (mm, kg) of the grown size; None where nothing is known.

    Source: ours, wide (``curves.toml``).
    """
    if known := _NUMBERS["grown"].get(measure):
        mean, sd = known[horse_type]
        return float(mean), float(sd)
    withers = _NUMBERS["grown"]["withers_height"][horse_type]
    return lean_on_withers(measure, *withers)


def lean_on_withers(measure: str, mean: float, sd: float) -> tuple[float, float] | None:
    """Return mean and SD (mm) of a height that leans on withers height, else None.

    Source: ours; Sveinsson (1993, 1994) for tape over stick (``curves.toml``).
    """
    lean = _NUMBERS["leans_on_withers"].get(measure)
    if lean is None:
        return None
    return mean * lean["times"] + lean["plus_mm"], hypot(sd, lean["sd_mm"])


def with_parents(
    prior: tuple[float, float], dam_mm: float | None, sire_mm: float | None
) -> tuple[float, float]:
    """Return mean and SD (mm) of grown withers height, knowing one parent or both.

    Source: heritability and spread within a breed as in ``curves.toml``; one parent
    alone narrows the type's own spread only by what it explains (ours).
    """
    mean, sd = prior
    known = [height for height in (dam_mm, sire_mm) if height is not None]
    passed_on = _NUMBERS["parents"]["passed_on"]
    shift = passed_on / 2 * sum(height - mean for height in known)
    if not known:
        return prior
    if len(known) == 1:
        return mean + shift, sd * float(np.sqrt(1 - passed_on**2 / 4))
    return mean + shift, float(_NUMBERS["parents"]["both_sd_mm"])


def wide_range(measure: str) -> tuple[float, float]:
    """Return the least and the most (mm, score) of a measure without a grown size.

    Raises:
        KeyError: The measure has a grown size.

    Source: ours.
    """
    least, most = _NUMBERS["wide"][measure]
    return float(least), float(most)
