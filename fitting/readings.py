"""Readings of any measure: typed text to mm, kg or score, and back for the eye."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from fitting.body import Dimension
from fitting.units import (
    HeightUnit,
    Length,
    LengthUnit,
    UnreadableSizeError,
    Weight,
    WeightUnit,
    read_height,
    read_length,
    read_weight,
    show_height,
    show_length,
    show_range,
    show_weight,
    show_weight_range,
    understood_height,
    understood_length,
    understood_weight,
    write_height,
    write_length,
    write_weight,
)

SCORE_LEAST: Final = 1.0  # the nine-point scale of condition
SCORE_MOST: Final = 9.0
_SCORE: Final = re.compile(r"\d(?:[.,]\d{1,2})?", re.ASCII)
_ECHOED_CHARACTERS: Final = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """What a bare number means in a yard."""

    height: HeightUnit = "hands"
    length: LengthUnit = "in"
    weight: WeightUnit = "kg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading: as it was typed, and in mm, kg or score."""

    written: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """What may have been meant: a reading, and how it is offered, in both units."""

    reading: Reading
    label: str


class UnreadableReadingError(ValueError):
    """Typed text that is no reading; says what was typed, why, what may be meant."""

    def __init__(self, typed: str, why: str, meant: tuple[Meant, ...] = ()) -> None:
        super().__init__(f"{typed} cannot be read. {why}")
        self.typed = typed
        self.why = why
        self.meant = meant


def read_reading(text: str, dimension: Dimension, units: Units) -> Reading:
    """Return the reading that ``text`` means; a bare number is in the yard's unit.

    Raises:
        UnreadableReadingError: it is none; carries what may be meant.
    """
    if dimension == "score":
        return _read_score(text)
    try:
        return _reading(_read_size(text, dimension, units))
    except UnreadableSizeError as error:
        meant = tuple(
            Meant(reading=(r := _reading(size)), label=_offer(r, dimension, units))
            for size in error.meant
        )
        raise UnreadableReadingError(echo(text), error.why, meant) from None


def _read_size(text: str, dimension: Dimension, units: Units) -> Length | Weight:
    if dimension == "height":
        return read_height(text, unit=units.height)
    if dimension == "weight":
        return read_weight(text, unit=units.weight)
    return read_length(text, unit=units.length)


def _reading(size: Length | Weight) -> Reading:
    value = size.kg if isinstance(size, Weight) else size.mm
    return Reading(written=size.written, value=value)


def _read_score(text: str) -> Reading:
    written = text.strip()
    value = float(written.replace(",", ".")) if _SCORE.fullmatch(written) else 0.0
    if not SCORE_LEAST <= value <= SCORE_MOST:
        why = "Condition is scored from 1, very thin, to 9, very fat: 5 or 5.5."
        raise UnreadableReadingError(echo(text), why)
    return Reading(written=written, value=value)


def _offer(reading: Reading, dimension: Dimension, units: Units) -> str:
    return understood(reading.value, dimension, units)


def as_box(reading: Reading, dimension: Dimension, units: Units) -> str:
    """Return the text that a box shows of a kept reading.

    As it was typed, if that still means the same; else with its unit.
    """
    try:
        if read_reading(reading.written, dimension, units).value == reading.value:
            return reading.written
    except UnreadableReadingError:
        pass
    if dimension == "score":
        return f"{reading.value:g}"
    write = {"height": write_height, "length": write_length, "weight": write_weight}
    return write[dimension](reading.value, reading.written)


def echo(text: str) -> str:
    """Return what was typed, cut short and without what cannot be seen."""
    shown = "".join(c if c.isprintable() else "\ufffd" for c in text).strip()
    cut = shown[:_ECHOED_CHARACTERS]
    return f"{cut}{'…' if cut != shown else ''}"


def show(value: float, dimension: Dimension, units: Units) -> str:
    """Return a size with its unit: ``13.0¼ hands``, ``4⅝ in``, ``312 kg``, ``5.5``."""
    match dimension:
        case "height":
            word = " hands" if units.height == "hands" else ""
            return f"{show_height(value, units.height)}{word}"
        case "weight":
            return show_weight(value, units.weight)
        case "score":
            return f"{value:g}"
        case _:
            return show_length(value, units.length)


def show_between(low: float, high: float, dimension: Dimension, units: Units) -> str:
    """Return two sizes as a range with its unit: ``12.3¾ to 13.0¼ hands``."""
    match dimension:
        case "height":
            word = " hands" if units.height == "hands" else ""
            return f"{show_range(low, high, units.height)}{word}"
        case "weight":
            return show_weight_range(low, high, units.weight)
        case "score":
            return f"{low:.1f} to {high:.1f}"
        case _:
            return show_range(low, high, units.length)


def show_difference(value: float, dimension: Dimension, units: Units) -> str:
    """Return a difference; of heights in inches or cm: ``¼ in``, ``0.6 cm``."""
    if dimension == "height":
        return show_length(value, "in" if units.height == "hands" else "cm")
    return show(value, dimension, units)


def understood(value: float, dimension: Dimension, units: Units) -> str:
    """Return a size in both units, the yard's first: ``13.0¼ hands (132.7 cm)``."""
    match dimension:
        case "height":
            return understood_height(value, units.height)
        case "weight":
            return understood_weight(value, units.weight)
        case "score":
            return f"{value:g} of 9"
        case _:
            return understood_length(value, units.length)
