"""Two items of tack, part by part: what is longer, by how much, and in holes.

A bridle that hangs right on a grown horse is a ruler: the hole on another that makes
the same length is found from it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from fitting.fit.answers import NoRule
from fitting.fit.holes import Straps, nearest_hole, straps_of
from fitting.fit.tack import Part, Tack

SizeKey = Literal["length", "shortest", "longest", "thickness", "ring"]
SIZES: Final[tuple[SizeKey, ...]] = (
    *("length", "shortest", "longest", "thickness", "ring"),
)
IN_HOLES: Final = frozenset({"length", "shortest", "longest"})
ALIKE_MM: Final = 1.0  # ours: what a tape cannot tell apart
# How many holes' width a strap loses when it is taken up one hole on each side.
_ENDS: Final = {"headpiece": 2, "whole": 2}
OVER_ALL: Final = "bit to bit over the top"
_BY_STRAPS: Final = frozenset({"headpiece", "cheekpieces"})


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeBeside:
    """One size of both (mm); ``holes``: how many of the second's it differs by."""

    key: SizeKey
    one_mm: float | None
    other_mm: float | None
    holes: float | None

    @property
    def more_mm(self) -> float | None:
        """How much the second has more (mm; below 0: less)."""
        if self.one_mm is None or self.other_mm is None:
            return None
        return self.other_mm - self.one_mm

    @property
    def alike(self) -> bool:
        """Whether a tape cannot tell them apart."""
        return self.more_mm is not None and abs(self.more_mm) < ALIKE_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBeside:
    """One part of both; ``missing``: which of the two has no such part."""

    part: str
    sizes: tuple[SizeBeside, ...]
    missing: Literal["", "one", "other"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleBeside:
    """A hole of the first, the nearest of the second, and what it is off (mm a side).

    ``other`` None: the second does not reach that far; then ``off_mm`` is what its
    end hole is off: above 0 too long.
    """

    one: int
    other: int | None
    off_mm: float


def parts_beside(one: Tack, other: Tack) -> tuple[PartBeside, ...]:
    """Return the parts of two items in the order of the first, each once."""
    words = dict.fromkeys(part.part for part in (*one.parts, *other.parts))
    parts = tuple(_part(word, one, other) for word in words)
    over_all = _over_all(one, other)
    return (over_all, *parts) if over_all else parts


def _over_all(one: Tack, other: Tack) -> PartBeside | None:
    """Return two bridles over all, from bit to bit, however each was measured."""
    if {one.kind, other.kind} != {"bridle"}:
        return None
    first, second = straps_of(one.parts), straps_of(other.parts)
    if isinstance(first, NoRule) or isinstance(second, NoRule):
        return None
    ends: tuple[tuple[SizeKey, int, int], ...] = (
        ("longest", 1, 1),
        ("shortest", first.holes, second.holes),
    )
    sizes = []
    for key, of_one, of_other in ends:
        one_mm, other_mm = first.on_hole(of_one), second.on_hole(of_other)
        holes = (other_mm - one_mm) / (2 * second.spacing_mm)
        sizes.append(SizeBeside(key=key, one_mm=one_mm, other_mm=other_mm, holes=holes))
    return PartBeside(part=OVER_ALL, sizes=tuple(sizes))


def _part(word: str, one: Tack, other: Tack) -> PartBeside:
    first, second = one.part(word), other.part(word)
    if first is None or second is None:
        missing: Literal["one", "other"] = "one" if first is None else "other"
        none = Part(part=word)
        alone = _sizes(first or none, second or none, None)
        return PartBeside(part=word, sizes=alone, missing=missing)
    spacing = _spacing(second, other)
    return PartBeside(part=word, sizes=_sizes(first, second, spacing))


def _sizes(one: Part, other: Part, spacing: float | None) -> tuple[SizeBeside, ...]:
    """Return the sizes that either of them has."""
    sizes = (_size(key, one, other, spacing) for key in SIZES)
    return tuple(s for s in sizes if s.one_mm is not None or s.other_mm is not None)


def _spacing(part: Part, item: Tack) -> float | None:
    """Return how far apart the holes are that take the part up (mm).

    The holes of headpiece and cheekpieces may be on either.
    """
    if part.spacing_mm or part.part not in _BY_STRAPS:
        return part.spacing_mm or (part.strap_width_mm if part.holes else None)
    straps = straps_of(item.parts)
    return None if isinstance(straps, NoRule) else straps.spacing_mm


def _size(key: SizeKey, one: Part, other: Part, spacing: float | None) -> SizeBeside:
    first: float | None = getattr(one, f"{key}_mm")
    second: float | None = getattr(other, f"{key}_mm")
    holes = None
    if spacing and first is not None and second is not None and key in IN_HOLES:
        holes = (second - first) / (spacing * _ENDS.get(one.part, 1))
    return SizeBeside(key=key, one_mm=first, other_mm=second, holes=holes)


def holes_beside(one: Tack, other: Tack) -> tuple[HoleBeside, ...]:
    """Return for each hole of a bridle the one that hangs the bit as high on another.

    Empty where either is not measured enough. Half way between two holes the shorter.
    """
    first, second = straps_of(one.parts), straps_of(other.parts)
    if isinstance(first, NoRule) or isinstance(second, NoRule):
        return ()
    return tuple(_hole(first, hole, second) for hole in range(1, first.holes + 1))


def _hole(one: Straps, hole: int, other: Straps) -> HoleBeside:
    length = one.on_hole(hole)
    near = nearest_hole(other, length, ties_shorter=True)
    off = (other.on_hole(near) - length) / 2
    beyond = abs(off) > other.spacing_mm / 2 + ALIKE_MM
    return HoleBeside(one=hole, other=None if beyond else near, off_mm=off)


def not_measured(items: Sequence[Tack]) -> tuple[tuple[str, str], ...]:
    """Return which bridles are not measured enough to be a ruler, and why."""
    straps = ((item.name, straps_of(item.parts)) for item in items)
    return tuple((name, s.why) for name, s in straps if isinstance(s, NoRule))
