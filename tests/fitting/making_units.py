"""Units, and what is read and refused in them."""

from __future__ import annotations

from fitting.units import (
    Length,
    LengthUnit,
    Weight,
    WeightUnit,
)

LENGTH_UNITS: list[LengthUnit] = ["in", "cm", "mm"]

WEIGHT_UNITS: list[WeightUnit] = ["kg", "lb"]


def size_of(read: Length | Weight) -> float:
    return read.mm if isinstance(read, Length) else read.kg
