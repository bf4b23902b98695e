"""Typed sizes become millimetres and kilograms, and turn back into the yard's units."""

from fitting.units.reading import read_height, read_length, read_weight
from fitting.units.showing import (
    show_height,
    show_length,
    show_off,
    show_range,
    show_wanted,
    show_weight,
    show_weight_range,
    understood_height,
    understood_length,
    understood_weight,
)
from fitting.units.sizes import (
    HeightUnit,
    Length,
    LengthUnit,
    UnreadableSizeError,
    Weight,
    WeightUnit,
)
from fitting.units.writing import write_height, write_length, write_weight

__all__ = [
    "HeightUnit",
    "Length",
    "LengthUnit",
    "UnreadableSizeError",
    "Weight",
    "WeightUnit",
    "read_height",
    "read_length",
    "read_weight",
    "show_height",
    "show_length",
    "show_off",
    "show_range",
    "show_wanted",
    "show_weight",
    "show_weight_range",
    "understood_height",
    "understood_length",
    "understood_weight",
    "write_height",
    "write_length",
    "write_weight",
]
