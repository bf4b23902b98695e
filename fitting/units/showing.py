"""Sizes as people read them, rounded for the eye and never for the arithmetic."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Final

from fitting.units.sizes import (
    INCHES_A_HAND,
    HeightUnit,
    LengthUnit,
    WeightUnit,
    exact,
    factor,
)

THIN_SPACE: Final = "\u2009"
_EIGHTHS: Final = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")
_QUARTERS: Final = _EIGHTHS[::2]
_TO: Final = " to "


def show_height(mm: float, unit: HeightUnit) -> str:
    """Return a height as people read it: ``13.0¼`` (to ¼ in) or ``132.7 cm``.

    Raises:
        ValueError: ``mm`` is infinite or not a number.
    """
    if unit == "cm":
        return _centimetres(mm)
    quarters = _nearest(exact(mm) / factor("in", "mm") * 4)
    inches, part = divmod(abs(quarters), 4)
    hands, rest = divmod(inches, INCHES_A_HAND)
    return f"{_minus(quarters)}{hands}.{rest}{_QUARTERS[part]}"


def show_length(mm: float, unit: LengthUnit) -> str:
    """Return a length as people read it: ``4⅝ in`` (to ⅛ in), ``11.8 cm``, ``118 mm``.

    Raises:
        ValueError: ``mm`` is infinite or not a number.
    """
    if unit == "cm":
        return _centimetres(mm)
    if unit == "mm":
        return _with_unit(_nearest(exact(mm)), "mm")
    eighths = _nearest(exact(mm) / factor("in", "mm") * 8)
    inches, part = divmod(abs(eighths), 8)
    whole = str(inches) if inches or not part else ""
    return f"{_minus(eighths)}{whole}{_EIGHTHS[part]}{THIN_SPACE}in"


def show_weight(kg: float, unit: WeightUnit) -> str:
    """Return a weight as people read it: ``312 kg`` or ``688 lb``.

    Raises:
        ValueError: ``kg`` is infinite or not a number.
    """
    return _with_unit(_nearest(exact(kg) / factor(unit, "kg")), unit)


def show_range(low_mm: float, high_mm: float, unit: HeightUnit | LengthUnit) -> str:
    """Return two sizes as a range: ``13.0¾ to 13.2½``, ``11.6 to 12.1 cm``.

    Sizes that look alike once rounded are shown as one.

    Raises:
        ValueError: an end is infinite or not a number.
    """
    if unit == "hands":
        return _join(show_height(low_mm, unit), show_height(high_mm, unit), "")
    return _join(show_length(low_mm, unit), show_length(high_mm, unit), unit)


def show_weight_range(low_kg: float, high_kg: float, unit: WeightUnit) -> str:
    """Return two weights as a range: ``290 to 335 kg``.

    Raises:
        ValueError: an end is infinite or not a number.
    """
    return _join(show_weight(low_kg, unit), show_weight(high_kg, unit), unit)


def understood_height(mm: float, unit: HeightUnit) -> str:
    """Return a height in both units, the yard's first: ``15.1½ hands (156.2 cm)``."""
    hands = f"{show_height(mm, 'hands')} hands"
    centimetres = show_height(mm, "cm")
    if unit == "hands":
        return f"{hands} ({centimetres})"
    return f"{centimetres} ({hands})"


def understood_length(mm: float, unit: LengthUnit) -> str:
    """Return a length in both units, the yard's first: ``4⅞ in (12.4 cm)``."""
    other: LengthUnit = "cm" if unit == "in" else "in"
    return f"{show_length(mm, unit)} ({show_length(mm, other)})"


def understood_weight(kg: float, unit: WeightUnit) -> str:
    """Return a weight in both units, the yard's first: ``312 kg (688 lb)``."""
    other: WeightUnit = "lb" if unit == "kg" else "kg"
    return f"{show_weight(kg, unit)} ({show_weight(kg, other)})"


def show_off(mm: float, unit: LengthUnit, spec: str = ".0f") -> str:
    """Return a small length as a reason says it: ``3 mm``, or ``⅛ in (3 mm)``.

    An eighth of an inch is coarse beside a clearance, so the mm stay beside it; what is
    nearer to no eighth is ``1.3 mm (under ⅛ in)``. ``spec``: how the mm are written.
    """
    written = f"{mm:{spec}}"
    return _beside_inches(written) if unit == "in" else f"{written} mm"


@lru_cache(maxsize=4096)  # few are told apart, and they are said of all tack
def _beside_inches(written: str) -> str:
    """Return millimetres behind their inches; no inch behind what is too small."""
    mm, nothing = float(written), show_length(0.0, "in")
    if not mm:
        return nothing
    inches = show_length(mm, "in")
    if inches == nothing:
        return f"{written} mm (under {_EIGHTHS[1]}{THIN_SPACE}in)"
    return f"{inches} ({written} mm)"


def show_wanted(mm: float, unit: LengthUnit, spec: str = ".0f") -> str:
    """Return a length that follows another one: ``20``, or ``¾ in (20 mm)``."""
    return show_off(mm, unit, spec).removesuffix(" mm")


def _nearest(value: Fraction) -> int:
    """Return the nearest whole number; a half goes away from nothing."""
    whole = floor(abs(value) + Fraction(1, 2))
    return -whole if value < 0 else whole


def _minus(number: int) -> str:
    return "−" if number < 0 else ""


def _with_unit(number: int, unit: str) -> str:
    return f"{_minus(number)}{abs(number)}{THIN_SPACE}{unit}"


def _centimetres(mm: float) -> str:
    whole, tenth = divmod(abs(_nearest(exact(mm))), 10)
    return f"{_minus(_nearest(exact(mm)))}{whole}.{tenth}{THIN_SPACE}cm"


def _join(low: str, high: str, unit: str) -> str:
    """Return a range whose unit stands once, at its end."""
    if low == high:
        return low
    return f"{low.removesuffix(f'{THIN_SPACE}{unit}')}{_TO}{high}"
