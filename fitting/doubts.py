"""Readings that are asked about once more: far apart, or hard to believe at that age.

A doubt is never a refusal: whoever measured may keep what was read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import Foaled, months_old
from fitting.body import HorseType, Method, middle, plausible

# Ours: readings of one day further apart than twice the method's error are doubted.
APART_ERRORS: Final = 2.0
# Ours: of so many readings, the one furthest off no longer counts against the rest.
ONE_MAY_STRAY_FROM: Final = 4
# Heights closer than this are never called growth: Lamas, Giovagnoli, Heath, Jeffcott
# (2007) Vet Record 160:691, how far readings of one person, and of three, spread.
ONE_PERSON_MM: Final = 10.6
THREE_PEOPLE_MM: Final = 18.9


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Readings of one day that lie further apart than the method explains.

    ``odd`` is the place of the one furthest from the others (None of two);
    ``off`` how far it lies above (or, negative, below) the middle of the others;
    ``repeats`` how well the method repeats. mm, kg or score.
    """

    odd: int | None
    off: float
    repeats: float


def repeats_within(method: Method, size: float, *, same_person: bool) -> float:
    """Return one SD of a reading (mm, kg, score) by this method.

    Source: as beside the methods in ``body``.
    """
    error = method.error if same_person else method.error_unknown_person
    return error * size if method.relative else error


def apart(
    readings: Sequence[float], method: Method, *, same_person: bool
) -> Apart | None:
    """Return how the readings lie apart; None: no further than the method explains.

    Of four or more, one may stray: the middle of the rest stands for them.
    """
    sizes = tuple(readings)
    if len(sizes) <= 1:
        return None
    repeats = repeats_within(method, middle(sizes), same_person=same_person)
    odd = _furthest(sizes)
    rest = sizes[:odd] + sizes[odd + 1 :]
    counted = rest if len(sizes) >= ONE_MAY_STRAY_FROM else sizes
    if max(counted) - min(counted) <= APART_ERRORS * repeats:
        return None
    if len(rest) == 1:
        return Apart(odd=None, off=max(sizes) - min(sizes), repeats=repeats)
    return Apart(odd=odd, off=sizes[odd] - middle(rest), repeats=repeats)


def _furthest(sizes: tuple[float, ...]) -> int:
    """Return the place of the reading furthest from the middle of the others."""

    def off(place: int) -> float:
        return abs(sizes[place] - middle(sizes[:place] + sizes[place + 1 :]))

    return max(range(len(sizes)), key=off)


def believed(
    measure: str, horse_type: HorseType, foaled: Foaled, on: date
) -> tuple[float, float]:
    """Return the range (mm, kg, score) that is not doubted, at any age possible.

    Raises:
        UnknownMeasureError: There is no such measure.
    """
    ages = (months_old(foaled.last, on), months_old(foaled.first, on))
    ranges = [plausible(measure, horse_type, max(0.0, age)) for age in ages]
    return min(low for low, _ in ranges), max(high for _, high in ranges)


def not_growth_mm(*, same_person: bool) -> float:
    """Return how far two stick heights must lie apart to be called growth (mm).

    ``same_person``: both were read by the usual person; else the wider figure counts.

    Source: as beside ``ONE_PERSON_MM``.
    """
    return ONE_PERSON_MM if same_person else THREE_PEOPLE_MM


def is_growth(before_mm: float, now_mm: float, *, same_person: bool) -> bool:
    """Return whether two stick heights lie far enough apart to be called growth.

    Source: as beside ``ONE_PERSON_MM``.
    """
    return abs(now_mm - before_mm) >= not_growth_mm(same_person=same_person)
