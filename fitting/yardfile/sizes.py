"""Sizes of a yard file: read in the yard's units, written with their own."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final, cast

from fitting.body import Dimension
from fitting.models import Yard
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
    write_height,
    write_length,
    write_weight,
)
from fitting.yardfile.place import Place, shown

SIZE_ALLOWED: Final = {
    "height": 'text such as "11.3 hh" or "121 cm"',
    "length": 'text such as "4 7/8 in" or "118 mm"',
    "weight": 'text such as "312 kg" or "690 lb"',
}
SCORE_LEAST: Final = 1.0  # the nine-point scale of condition
SCORE_MOST: Final = 9.0
SCORE_ALLOWED: Final = f"a score from {SCORE_LEAST:g} to {SCORE_MOST:g}, such as 5.5"
_SCORE: Final = re.compile(r"\d(?:[.,]\d{1,2})?", re.ASCII)
LIGHTEST_TACK_KG: Final = 0.1  # ours: tack may weigh less than a horse


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """What a bare number means in a yard."""

    height: HeightUnit
    length: LengthUnit
    weight: WeightUnit

    def read_height(self, where: Place, text: str) -> Length:
        """Return a height.

        Raises:
            YardFileError: the text is no height.
        """
        try:
            return read_height(text, unit=self.height)
        except UnreadableSizeError as error:
            raise _unreadable(where, text, error, "height") from error

    def read_length(self, where: Place, text: str) -> Length:
        """Return a length that is no height.

        Raises:
            YardFileError: the text is no length.
        """
        try:
            return read_length(text, unit=self.length)
        except UnreadableSizeError as error:
            raise _unreadable(where, text, error, "length") from error

    def read_weight(self, where: Place, text: str, *, tack: bool = False) -> Weight:
        """Return a weight; tack may be lighter than horses and people.

        Raises:
            YardFileError: the text is no weight.
        """
        try:
            if tack:
                return read_weight(text, unit=self.weight, least_kg=LIGHTEST_TACK_KG)
            return read_weight(text, unit=self.weight)
        except UnreadableSizeError as error:
            raise _unreadable(where, text, error, "weight") from error

    def read_reading(
        self, where: Place, found: str | float, dimension: Dimension
    ) -> dict[str, Any]:
        """Return one reading as a measurement keeps it.

        Raises:
            YardFileError: it is no size of that dimension.
        """
        if dimension == "score":
            return read_score(where, found)
        if not isinstance(found, str):
            raise where.error(shown(found), SIZE_ALLOWED[dimension])
        if dimension == "weight":
            weight = self.read_weight(where, found)
            return {"written": weight.written, "value": weight.kg}
        read = self.read_height if dimension == "height" else self.read_length
        size = read(where, found)
        return {"written": size.written, "value": size.mm}


def units_of(yard: Yard) -> Units:
    """Return the units of a yard."""
    return Units(
        height=cast("HeightUnit", yard.height_unit),
        length=cast("LengthUnit", yard.length_unit),
        weight=cast("WeightUnit", yard.weight_unit),
    )


def read_score(where: Place, found: str | float) -> dict[str, Any]:
    """Return one score of condition as a measurement keeps it.

    Raises:
        YardFileError: it is no score of the nine-point scale.
    """
    text = found.strip() if isinstance(found, str) else f"{found:g}"
    if not _SCORE.fullmatch(text):
        raise where.error(shown(found), SCORE_ALLOWED)
    value = float(text.replace(",", "."))
    if not SCORE_LEAST <= value <= SCORE_MOST:
        raise where.error(shown(found), SCORE_ALLOWED)
    return {"written": text, "value": value}


def write_reading(reading: dict[str, Any], dimension: Dimension) -> str:
    """Return a reading as text that reads back to the same value in any yard."""
    value, written = reading["value"], str(reading.get("written", ""))
    if dimension == "score":
        same = _SCORE.fullmatch(written) and float(written.replace(",", ".")) == value
        return written if same else f"{value:g}"
    write = {"height": write_height, "length": write_length, "weight": write_weight}
    return write[dimension](value, written)


def _unreadable(
    where: Place, text: str, error: UnreadableSizeError, dimension: str
) -> Exception:
    found = str(error).rstrip(".")
    found = found if text.strip() else f"{shown(text)}. {found}"
    return where.error(found, SIZE_ALLOWED[dimension])
