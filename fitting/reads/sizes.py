"""Measured sizes as a line of words, and what a label says beside them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitting.labels import label_is_off
from fitting.listed import listed
from fitting.models import Part, Tack
from fitting.pieces import part_word
from fitting.units import LengthUnit, show_length, show_off, show_range

SHOWN_PARTS: Final = 2
A_LITTLE_MM: Final = 25.4  # ours: what is less than an inch is said in millimetres
CALLIPERS: Final = frozenset({"thickness"})  # ruled in mm, and bits are sold by them


def size_and_label(row: Tack, unit: LengthUnit) -> str:
    """Return the measured size of an item beside the label's; the first counts."""
    sized = [(part, size_of(part, unit)) for part in row.parts.all()]
    known = [(part, size) for part, size in sized if size]
    said = _measured(known) if known else "Not measured"
    label = label_words(row, unit)
    return f"{said}; {label}" if label else f"{said}."


def label_words(row: Tack, unit: LengthUnit) -> str:
    """Return what the label says, and how far it is off; nothing without a label."""
    if not row.label_size:
        return ""
    said = f"the label says {row.label_size}"
    parts = row.parts.all()
    measured = parts[0].length_mm if len(parts) == 1 else None
    off = label_is_off(row.label_size, row.kind, measured)
    if off is None:
        return f"{said}."
    little = abs(off) < A_LITTLE_MM
    much = fine_words(abs(off), unit) if little else show_length(abs(off), unit)
    return f"{said}, {much} {'too little' if off < 0 else 'too much'}."


def _measured(known: Sequence[tuple[Part, str]]) -> str:
    if len(known) == 1:
        return f"Measured {known[0][1]}"
    shown = [f"{part_word(part.part)} {size}" for part, size in known[:SHOWN_PARTS]]
    more = len(known) - SHOWN_PARTS
    if more > 0:
        shown.append(f"{more} more part{'s' if more > 1 else ''}")
    return f"Measured {listed(shown)}"


def fine_words(mm: float, unit: LengthUnit) -> str:
    """Return a size told in mm as it is shown: ``16 mm``, or ``⅝ in (16 mm)``."""
    return show_off(mm, unit) if unit == "in" else show_length(mm, "mm")


def size_of(part: Part, unit: LengthUnit) -> str:
    """Return the size a part is known by."""
    if part.length_mm:
        return show_length(part.length_mm, unit)
    if part.shortest_mm and part.longest_mm:
        return show_range(part.shortest_mm, part.longest_mm, unit)
    one = part.longest_mm or part.shortest_mm
    return show_length(one, unit) if one else ""
