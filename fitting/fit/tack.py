"""Tack as the rules see it: items on their pegs, their parts, made-up sets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Cheek = Literal["eggbutt", "dee", "full_cheek", "hanging_cheek", "loose_ring"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of an item of tack; lengths in millimetres.

    ``part`` is the yard file's word: mouthpiece, headpiece, cheekpieces, browband,
    noseband, throatlash, whole, crown, nose, jowl, strap, panel, back_seam.
    """

    part: str
    length_mm: float | None = None
    shortest_mm: float | None = None
    longest_mm: float | None = None
    thickness_mm: float | None = None
    cheek: Cheek | None = None
    mouthpiece: str = ""
    material: str = ""
    ring_mm: float | None = None
    holes: int | None = None
    spacing_mm: float | None = None
    strap_width_mm: float | None = None
    hole: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tack:
    """One item on a peg."""

    name: str
    kind: str
    parts: tuple[Part, ...]

    def part(self, word: str) -> Part | None:
        """Return the part of that word, None if it is not written down."""
        return next((part for part in self.parts if part.part == word), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeUp:
    """A bridle made up with its bit: slot (a part's word, or bit) -> item."""

    name: str
    parts: tuple[tuple[str, Tack], ...]
