"""What a size is, and the exact factors between units."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, Literal

import pint

HeightUnit = Literal["hands", "cm"]
LengthUnit = Literal["in", "cm", "mm"]
WeightUnit = Literal["kg", "lb"]
Unit = Literal["in", "cm", "mm", "m", "kg", "lb"]

_IN_FULL: Final[dict[Unit, str]] = {
    "in": "inch",
    "cm": "centimeter",
    "mm": "millimeter",
    "m": "meter",
    "kg": "kilogram",
    "lb": "pound",
}
INCHES_A_HAND: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A height or a length: millimetres, and the text it was read from."""

    mm: float
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight: kilograms, and the text it was read from."""

    kg: float
    written: str


class UnreadableSizeError(ValueError):
    """Typed text that is no size; says why, and what was likely meant.

    The message says everything in words. ``why`` is its one fact of the trade;
    ``meant`` holds the nearest meanings, each written with a unit, ready to offer
    as buttons (may be empty).
    """

    def __init__(
        self,
        message: str,
        *,
        meant: tuple[Length, ...] | tuple[Weight, ...] = (),
        why: str = "",
    ) -> None:
        super().__init__(message)
        self.meant = meant
        self.why = why


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    """Return the one registry; it counts in fractions, so nothing is rounded."""
    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def factor(unit: Unit, into: Literal["mm", "kg"]) -> Fraction:
    """Return how many ``into`` one ``unit`` is, exactly."""
    one = _registry().Quantity(Fraction(1), _IN_FULL[unit])
    return Fraction(one.to(_IN_FULL[into]).magnitude)


def exact(number: float) -> Fraction:
    """Return the decimal number that a float stands for (1549.4, not 1549.4 + 9e-14).

    Raises:
        ValueError: the number is infinite or not a number.
    """
    return Fraction(repr(float(number)))
