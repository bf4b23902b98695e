"""What a label says of a size, and whether the tape says otherwise."""

from __future__ import annotations

from typing import Final

from fitting.pieces import limits_of
from fitting.units import LengthUnit, UnreadableSizeError, read_length

# Ours: half a usual step of a quarter inch; beyond it another size is nearer.
FAR_MM: Final = 6.35 / 2
_UNITS: Final[tuple[LengthUnit, ...]] = ("in", "cm", "mm")
_NUMBER_ENDS: Final = frozenset("0123456789½¼¾⅛⅜⅝⅞")


def label_is_off(label: str, kind: str, measured_mm: float | None) -> float | None:
    """Return by how much a label says too much (mm; less than 0: too little).

    None: it agrees, nothing is measured, or the label is no length (cob, full).
    """
    said = label_mm(label, kind)
    if said is None or measured_mm is None or abs(said - measured_mm) <= FAR_MM:
        return None
    return said - measured_mm


def label_mm(label: str, kind: str) -> float | None:
    """Return the length a label means (mm); None where it names no length.

    A bare number is read on bits alone, by where it lies: inches, centimetres or mm.
    """
    if label.rstrip()[-1:] not in _NUMBER_ENDS:
        return _read(label, "mm")
    if kind != "bit":
        return None
    low, high = limits_of("mouthpiece", "length")
    read = (_read(label, unit) for unit in _UNITS)
    return next((mm for mm in read if mm is not None and low <= mm <= high), None)


def _read(label: str, unit: LengthUnit) -> float | None:
    try:
        return read_length(label, unit=unit).mm
    except UnreadableSizeError:
        return None
