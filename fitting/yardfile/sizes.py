"""Sizes of a yard file: read in the yard's units, written with their own."""

from __future__ import annotations

from typing import Any, Final

from fitting.body import Dimension
from fitting.readings import (
    SCORE_LEAST,
    SCORE_MOST,
    Reading,
    Units,
    UnreadableReadingError,
    as_box,
    read_reading,
)
from fitting.units import (
    UnreadableSizeError,
    read_weight,
    write_height,
    write_length,
    write_weight,
)
from fitting.yardfile.place import Place, YardFileError, shown

ALLOWED: Final[dict[Dimension, str]] = {
    "height": 'text such as "11.3 hh" or "121 cm"',
    "length": 'text such as "4 7/8 in" or "118 mm"',
    "weight": 'text such as "312 kg" or "690 lb"',
    "score": f"a score from {SCORE_LEAST:g} to {SCORE_MOST:g}, such as 5.5",
}
LIGHTEST_TACK_KG: Final = 0.1  # ours: tack may weigh less than a horse


def read_size(
    where: Place, found: str | float, dimension: Dimension, units: Units
) -> Reading:
    """Return a size: as it was written, and in mm, kg or score.

    Sizes are text; a score may be a number too.

    Raises:
        YardFileError: it is no size of that dimension.
    """
    if dimension == "score" and not isinstance(found, str):
        found = f"{found:g}"
    if not isinstance(found, str):
        raise where.error(shown(found), ALLOWED[dimension])
    try:
        return read_reading(found, dimension, units)
    except UnreadableReadingError as error:
        raise _unreadable(where, found, error.why, dimension) from error


def read_tack_weight(where: Place, text: str, units: Units) -> Reading:
    """Return the weight of tack (kg), which may be lighter than any horse.

    Raises:
        YardFileError: it is no weight.
    """
    try:
        size = read_weight(text, unit=units.weight, least_kg=LIGHTEST_TACK_KG)
    except UnreadableSizeError as error:
        raise _unreadable(where, text, error.why, "weight") from error
    return Reading(written=size.written, value=size.kg)


def _unreadable(
    where: Place, text: str, why: str, dimension: Dimension
) -> YardFileError:
    return where.error(f"{shown(text)}. {why.rstrip('.')}", ALLOWED[dimension])


def write_reading(reading: dict[str, Any], dimension: Dimension) -> str:
    """Return a reading as text that reads back to the same value in any yard."""
    kept = Reading(written=str(reading.get("written", "")), value=reading["value"])
    if dimension == "score":
        return as_box(kept, dimension, Units())
    write = {"height": write_height, "length": write_length, "weight": write_weight}
    return write[dimension](kept.value, kept.written)
