"""The yard's units, and days in words."""

from __future__ import annotations

from datetime import date

from fitting.models import Yard
from fitting.readings import Units


def units_of(yard: Yard) -> Units:
    """Return what a bare number means in a yard."""
    return Units(
        height=yard.height_unit,  # type: ignore[arg-type]
        length=yard.length_unit,  # type: ignore[arg-type]
        weight=yard.weight_unit,  # type: ignore[arg-type]
    )


def day_words(on: date) -> str:
    """Return a day in words: ``12 Nov 2026``."""
    return f"{on.day} {on:%b %Y}"
