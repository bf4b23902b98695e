"""Typed sizes become millimetres and kilograms, and turn back into the yard's units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

HeightUnit = Literal["hands", "cm"]
LengthUnit = Literal["in", "cm", "mm"]
WeightUnit = Literal["kg", "lb"]


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

    ``meant`` holds the nearest meanings, ready to offer (may be empty).
    """

    def __init__(
        self, message: str, *, meant: tuple[Length, ...] | tuple[Weight, ...] = ()
    ) -> None:
        super().__init__(message)
        self.meant = meant


def read_height(text: str, *, unit: HeightUnit) -> Length:
    """Return the height that ``text`` means; a bare number is in ``unit``."""
    raise NotImplementedError


def read_length(text: str, *, unit: LengthUnit) -> Length:
    """Return the length that ``text`` means; a bare number is in ``unit``."""
    raise NotImplementedError


def read_weight(text: str, *, unit: WeightUnit) -> Weight:
    """Return the weight that ``text`` means; a bare number is in ``unit``."""
    raise NotImplementedError


def show_height(mm: float, unit: HeightUnit) -> str:
    """Return a height as people read it: ``13.0¼`` or ``132.7 cm``."""
    raise NotImplementedError


def show_length(mm: float, unit: LengthUnit) -> str:
    """Return a length as people read it: ``4⅝ in``, ``11.8 cm``, ``118 mm``."""
    raise NotImplementedError


def show_weight(kg: float, unit: WeightUnit) -> str:
    """Return a weight as people read it: ``312 kg`` or ``688 lb``."""
    raise NotImplementedError
