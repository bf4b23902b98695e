"""Sizes as text for a file: every unit written, and read back exactly."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from fitting.units.grammar import FRACTIONS
from fitting.units.hands import hands_text
from fitting.units.reading import read_height, read_length, read_weight
from fitting.units.sizes import UnreadableSizeError, exact, factor

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable


def write_height(mm: float, written: str = "") -> str:
    """Return a height with its unit that reads back to the same millimetres.

    What was typed is kept where it can be: ``15.1`` becomes ``15.1 hh``, ``155 cm``
    stays. Without it, ``11.3 hh`` where that is exact to a quarter inch, else
    millimetres.
    """
    quarters = round(exact(mm) / factor("in", "mm") * 4)
    hands = f"{hands_text(Fraction(quarters, 4))} hh"
    return _first_exact(
        mm,
        (*_as_typed(written, ("hh", "cm")), hands),
        lambda text: {
            read_height(text, unit="hands").mm,
            read_height(text, unit="cm").mm,
        },
        "mm",
    )


def write_length(mm: float, written: str = "") -> str:
    """Return a length with its unit that reads back to the same millimetres.

    What was typed is kept where it can be, with its unit; else ``118 mm``.
    """
    return _first_exact(
        mm,
        _as_typed(written, ("in", "cm", "mm")),
        lambda text: {
            read_length(text, unit="in").mm,
            read_length(text, unit="cm").mm,
        },
        "mm",
    )


def write_weight(kg: float, written: str = "") -> str:
    """Return a weight with its unit that reads back to the same kilograms.

    What was typed is kept where it can be, with its unit; else ``312 kg``.
    """
    return _first_exact(
        kg,
        _as_typed(written, ("kg", "lb")),
        lambda text: {
            read_weight(text, unit="kg", least_kg=0).kg,
            read_weight(text, unit="lb", least_kg=0).kg,
        },
        "kg",
    )


def _as_typed(written: str, units: tuple[str, ...]) -> tuple[str, ...]:
    """Return what was typed; with each unit, if it is a bare number."""
    if not written:
        return ()
    if written[-1].isdigit() or written[-1] in FRACTIONS:
        return tuple(f"{written} {unit}" for unit in units)
    return (written,)


def _first_exact(
    size: float,
    texts: Iterable[str],
    readings: Callable[[str], set[float]],
    unit: str,
) -> str:
    """Return the first text that means ``size`` whatever a bare number means."""
    for text in texts:
        try:
            if readings(text) == {size}:
                return text
        except UnreadableSizeError:
            continue
    return f"{float(size)!r} {unit}".replace(".0 ", " ")
