"""Where lines end: a letter for each, kept apart, and the name where it fits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from fitting.drawings.ink import EDGE, INK, PAPER, Face, line, words
from fitting.drawings.scale import Frame

LETTERS: Final = "ABCD"
_APART: Final = 22.0
_RING: Final = 9
_NAME_LETTERS: Final = 18


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """The end of one line: its letter, its name, and where it lies."""

    letter: str
    name: str
    x: float
    y: float


def labels(frame: Frame, ends: Sequence[End]) -> str:
    """Return the letter of each line right of the plot, and the lead to it."""
    places = keep_apart([end.y for end in ends], _APART, frame.bottom)
    return "".join(_label(frame, end, y) for end, y in zip(ends, places, strict=True))


def _label(frame: Frame, end: End, y: float) -> str:
    x = frame.right + (30 if frame.narrow else 44)
    lead = line(f"M{end.x} {end.y:.1f}L{x - _RING - 1} {y:.1f}", "c-edge", EDGE, 0.8)
    if frame.narrow:
        return lead + _ring(x, y, end.letter)
    face = Face(css="strong", fill=INK, weight=600)
    return lead + _ring(x, y, end.letter) + words(x + 15, y + 4.5, end.name, face)


def keep_apart(wanted: Sequence[float], apart: float, last: float) -> tuple[float, ...]:
    """Return places as near to those wanted as leaves ``apart`` between each two.

    In the order of ``wanted``; none lies below ``last``, if there is room at all.
    """
    order = sorted(range(len(wanted)), key=lambda at: wanted[at])
    placed = [wanted[at] for at in order]
    for before, at in pairwise(range(len(placed))):
        placed[at] = max(placed[at], placed[before] + apart)
    limit = last
    for at in reversed(range(len(placed))):
        placed[at] = min(placed[at], limit)
        limit = placed[at] - apart
    found = dict(zip(order, placed, strict=True))
    return tuple(found[at] for at in range(len(wanted)))


def _ring(x: float, y: float, letter: str) -> str:
    face = Face(css="strong", fill=INK, weight=700, anchor="middle")
    return (
        f'<circle class="tag-n" cx="{x}" cy="{y:.1f}" r="{_RING}" fill="{PAPER}"'
        f' stroke="{INK}" stroke-width="1.6"/>{words(x, y + 4.6, letter, face)}'
    )


def short(name: str, more: str = "") -> str:
    """Return a name, with a word after it, that fits beside a chart."""
    room = _NAME_LETTERS - len(more)
    return (name if len(name) <= room else f"{name[: room - 1].rstrip()}…") + more
