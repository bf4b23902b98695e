"""A bridle's straps: how long it is on each hole, and the hole for a length."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from fitting.fit.answers import NoRule
from fitting.fit.tack import Part

MEASURE: Final = "head_length"
SOURCES: Final = ("sms_bridle", "common_practice", "ours")
_TIE: Final = 1e-6  # of a hole


@dataclass(frozen=True, slots=True, kw_only=True)
class Straps:
    """A bridle from bit seat over the poll to bit seat (mm).

    ``first_mm`` is the length on hole 1, nearest the tip and so the longest; each
    hole taken up on both sides shortens it by twice the spacing.
    """

    part: str
    first_mm: float
    holes: int
    spacing_mm: float

    def on_hole(self, hole: int) -> float:
        """Return the length on a hole (mm)."""
        return self.first_mm - 2 * self.spacing_mm * (hole - 1)

    def hole_for(self, length_mm: float) -> float:
        """Return the hole, with its fraction, that gives a length."""
        return 1 + (self.first_mm - length_mm) / (2 * self.spacing_mm)


def nearest_hole(straps: Straps, length_mm: float, *, ties_shorter: bool) -> int:
    """Return the hole that comes nearest to a length.

    ``ties_shorter``: half way between two, the shorter bridle (the higher number):
    for a first bit, which should not hang low. Otherwise the longer one. Ours.
    """
    at = straps.hole_for(length_mm)
    hole = floor(at + 0.5 + _TIE) if ties_shorter else ceil(at - 0.5 - _TIE)
    return min(max(hole, 1), straps.holes)


def straps_of(parts: tuple[Part, ...]) -> Straps | NoRule:
    """Return a bridle's straps from its parts, or what is missing of them."""
    by_word = {part.part: part for part in parts}
    if "whole" in by_word:
        return _straps_of_whole(by_word["whole"])
    headpiece, cheekpieces = by_word.get("headpiece"), by_word.get("cheekpieces")
    if headpiece is None or cheekpieces is None:
        other = "a headpiece" if headpiece is None else "cheekpieces"
        return missing(f"Make it up with {other} to find the hole.")
    holed = headpiece if headpiece.holes else cheekpieces
    head, cheek = _longest(headpiece, holed), _longest(cheekpieces, holed)
    if head is None:
        return missing("The headpiece has no length.", "length of the headpiece")
    if cheek is None:
        return missing("The cheekpieces have no length.", "length of the cheekpieces")
    return _with_holes("cheekpieces", 2 * cheek + head, holed)


def _longest(part: Part, holed: Part) -> float | None:
    """Return the length (mm), on its first hole if it is the part with the holes."""
    if part.length_mm is None and part is holed:
        return part.longest_mm
    return part.length_mm


def _straps_of_whole(whole: Part) -> Straps | NoRule:
    """A bridle measured whole on its present hole, or on its first (longest)."""
    if whole.longest_mm is not None:
        return _with_holes("whole", whole.longest_mm, whole)
    if whole.length_mm is None:
        return missing("The bridle has no length.", "length of the whole bridle")
    if whole.hole is None:
        return missing("Which hole it was measured on is not written down.", "its hole")
    on_first = _with_holes("whole", whole.length_mm, whole)
    if isinstance(on_first, NoRule):
        return on_first
    first = whole.length_mm + 2 * on_first.spacing_mm * (whole.hole - 1)
    return Straps(
        part="whole",
        first_mm=first,
        holes=on_first.holes,
        spacing_mm=on_first.spacing_mm,
    )


def _with_holes(word: str, first_mm: float, holed: Part) -> Straps | NoRule:
    if not holed.holes:
        return missing("How many holes it has is not written down.", "its holes")
    spacing = _spacing(holed)
    if not spacing:
        return missing(
            "How far apart its holes are is not written down.", "hole spacing"
        )
    return Straps(part=word, first_mm=first_mm, holes=holed.holes, spacing_mm=spacing)


def _spacing(holed: Part) -> float | None:
    """Return the spacing (mm): as measured, from shortest to longest, or the width.

    Source: holes as far apart as the strap is wide: common practice, no published
    source.
    """
    if holed.spacing_mm:
        return holed.spacing_mm
    if holed.shortest_mm and holed.longest_mm and holed.holes and holed.holes > 1:
        sides = 1 if holed.part == "cheekpieces" else 2
        return (holed.longest_mm - holed.shortest_mm) / (sides * (holed.holes - 1))
    return holed.strap_width_mm


def missing(why: str, ask: str = "") -> NoRule:
    """Return why the hole cannot be reckoned."""
    return NoRule(measure=MEASURE, why=why, ask=ask, sources=SOURCES)
