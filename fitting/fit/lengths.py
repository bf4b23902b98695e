"""The lengths a strap can be done up to: on its holes, or from one end to the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitting.fit.answers import NoRule
from fitting.fit.tack import Part

WORDS: Final = {"jowl": "jowl strap"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """The lengths of a strap, done up (mm).

    ``on_holes``: on hole 1, 2, ... of a strap with holes; hole 1 is nearest the tip and
    so the longest. Without holes it lets out to any length from ``shortest_mm`` to
    ``longest_mm``, and where they are equal it does not.
    """

    shortest_mm: float
    longest_mm: float
    on_holes: tuple[float, ...] = ()

    @property
    def spans(self) -> tuple[tuple[float, float], ...]:
        """The lengths as spans, the longest first: one a hole, or the whole of it."""
        if not self.on_holes:
            return ((self.shortest_mm, self.longest_mm),)
        return tuple((length, length) for length in self.on_holes)

    def on(self, hole: int | None) -> float | None:
        """Return the length on a hole; None: not known which it is, or no such hole."""
        if not self.on_holes:
            return self.longest_mm if self.longest_mm == self.shortest_mm else None
        if hole is None or not 1 <= hole <= len(self.on_holes):
            return None
        return self.on_holes[hole - 1]


def lengths_of(
    part: Part, measure: str, *, on_middle: bool = False
) -> Lengths | NoRule:
    """Return a strap's lengths, or what is missing of them.

    ``on_middle``: its length is that on its middle hole where no other is named.
    """
    if not part.holes:
        return _without_holes(part, measure)
    spacing = _spacing(part)
    if part.holes > 1 and not spacing:
        why = "How far apart its holes are is not written down."
        return NoRule(measure=measure, why=why, ask=f"hole spacing of {_the(part)}")
    first = _first(part, spacing or 0.0, on_middle=on_middle)
    if first is None:
        return _no_length(part, measure)
    on_holes = tuple(first - hole * (spacing or 0.0) for hole in range(part.holes))
    if on_holes[-1] <= 0:
        why = "Its holes do not go with its length."
        return NoRule(measure=measure, why=why, ask=f"hole spacing of {_the(part)}")
    return Lengths(shortest_mm=on_holes[-1], longest_mm=first, on_holes=on_holes)


def _without_holes(part: Part, measure: str) -> Lengths | NoRule:
    longest, shortest = part.longest_mm, part.shortest_mm
    if longest is not None and shortest is not None:
        return Lengths(shortest_mm=shortest, longest_mm=longest)
    if part.length_mm is not None:
        return Lengths(shortest_mm=part.length_mm, longest_mm=part.length_mm)
    if longest is None and shortest is None:
        return _no_length(part, measure)
    other = "shortest" if shortest is None else "longest"
    why = f"How {other.removesuffix('est')} it can be done up is not written down."
    return NoRule(measure=measure, why=why, ask=f"the {other} of {_the(part)}")


def _first(part: Part, spacing: float, *, on_middle: bool) -> float | None:
    """Return the length on hole 1 (mm), from whichever length is written down."""
    holes = part.holes or 1
    if part.longest_mm is not None:
        return part.longest_mm
    if part.shortest_mm is not None:
        return part.shortest_mm + (holes - 1) * spacing
    hole = part.hole or ((holes + 1) / 2 if on_middle or holes == 1 else None)
    if part.length_mm is None or hole is None:
        return None
    return part.length_mm + (hole - 1) * spacing


def _spacing(part: Part) -> float | None:
    """Return how far its holes are apart (mm): as measured, by its ends, or its width.

    Source: holes as far apart as the strap is wide: common practice, no published
    source.
    """
    if part.spacing_mm:
        return part.spacing_mm
    longest, shortest = part.longest_mm, part.shortest_mm
    if longest and shortest and part.holes and part.holes > 1:
        return (longest - shortest) / (part.holes - 1)
    return part.strap_width_mm


def _no_length(part: Part, measure: str) -> NoRule:
    if part.length_mm is None:
        why, ask = "Its length is not written down.", f"length of {_the(part)}"
    else:
        why = "Which hole it was measured on is not written down."
        ask = f"the hole {_the(part)} was measured on"
    return NoRule(measure=measure, why=why, ask=ask)


def _the(part: Part) -> str:
    return f"the {WORDS.get(part.part, part.part)}"
