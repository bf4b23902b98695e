"""The yard's units, and days in words."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from fitting.models import Yard
from fitting.readings import Units

NEAR: Final = timedelta(days=300)  # days nearer than this go without their year: ours


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


def near_words(day: date, on: date) -> str:
    """Return a day in words, without its year if it is near: ``12 Nov``."""
    return f"{day.day} {day:%b}" if abs(day - on) < NEAR else day_words(day)
