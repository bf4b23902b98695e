"""How tack is drawn by its answer, with its holes, buckles and numbers.

Good: solid leather. Only just: a straw core. No: hollow, with cross cuts. Can't say: a
dotted edge. Beside every drawing the same stands in words.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import Final

from fitting.drawings.ink import INK, LEATHER, PAPER, Face, Said, words

STRAW: Final = "#FFDB6B"
MADDER: Final = "#A3201D"
STEEL: Final = "#D9DEE1"
Spot = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOn:
    """One part as it is drawn: its answer, its number in the list, and its holes.

    ``part`` and ``answer`` are the words of a finding. Hole 1 is nearest the tip.
    ``number`` 0: it stands in no list, and has no number on the picture.
    """

    part: str
    answer: str
    number: int = 0
    hole: int | None = None
    holes: int | None = None
    spacing_mm: float | None = None
    cheek: str = ""
    ring_mm: float | None = None
    long: float | None = None  # its length, as a share of what it covers


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """How one answer is drawn: its edge and core, and how wide the edge is in all."""

    edge: str
    edge_css: str
    core: str
    core_css: str
    rim: float
    dash: str = ""
    cut: bool = False


_LOOKS: Final = {
    "good": _Look(
        edge=INK, edge_css="st-edge", core=LEATHER, core_css="st-good", rim=2.4
    ),
    "watch": _Look(
        edge=INK, edge_css="st-edge", core=STRAW, core_css="st-watch", rim=3.0
    ),
    "no": _Look(
        edge=MADDER,
        edge_css="st-no",
        core=PAPER,
        core_css="st-hollow",
        rim=4.4,
        cut=True,
    ),
    "not_known": _Look(
        edge=INK,
        edge_css="st-edge",
        core=PAPER,
        core_css="st-hollow",
        rim=3.0,
        dash="2.5 3.5",
    ),
}
ANSWERS: Final = tuple(_LOOKS)
_BUTT: Final = ' stroke-linecap="butt"'


def strap(d: str, answer: str, width: float, *, steel: bool = False) -> str:
    """Return one strap, or wire, drawn by its answer; ``steel``: good is no leather.

    Raises:
        KeyError: There is no such answer.
    """
    look = _LOOKS[answer]
    rim = min(look.rim, width * 0.55)
    core, core_css = look.core, look.core_css
    if steel and answer == "good":
        core, core_css = STEEL, "st-steel"
    drawn = _stroke(look.edge_css, d, look.edge, width, look.dash)
    drawn += _stroke(core_css, d, core, width - rim)
    if look.cut:
        gap = max(4.5, width * 0.8)
        drawn += _stroke(look.edge_css, d, look.edge, width, f"2 {gap:.1f}", offset=-5)
    return drawn


def _stroke(
    css: str, d: str, colour: str, width: float, dash: str = "", *, offset: int = 0
) -> str:
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    shift = f' stroke-dashoffset="{offset}"' if offset else ""
    return (
        f'<path class="{css}" d="{d}" stroke="{colour}" stroke-width="{width:.1f}"'
        f"{_BUTT}{dashed}{shift}/>"
    )


def number_ring(spot: Spot, number: int, radius: float = 13) -> str:
    """Return a number in a ring, that leads to the list; nothing for number 0."""
    if not number:
        return ""
    x, y = spot
    size = 15 if radius > 11 else 13  # noqa: PLR2004 - the smaller ring of the horse
    face = Face(size=size, css="strong", fill=INK, anchor="middle", weight=700)
    return (
        f'<circle class="tag-n" cx="{x:.1f}" cy="{y:.1f}" r="{radius:g}" fill="{PAPER}"'
        f' stroke="{INK}" stroke-width="1.8"/>'
        f"{words(x, y + size * 0.36, str(number), face)}"
    )


def on_line(points: Sequence[Spot], far: float) -> tuple[Spot, float] | None:
    """Return the place so far along a line of points, and its slope in degrees.

    None beyond either end.
    """
    if far < 0:
        return None
    for (x, y), (to_x, to_y) in pairwise(points):
        long = math.hypot(to_x - x, to_y - y)
        if far <= long:
            share = far / long if long else 0.0
            slope = math.degrees(math.atan2(to_y - y, to_x - x))
            return (x + (to_x - x) * share, y + (to_y - y) * share), slope
        far -= long
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Buckled:
    """Where a strap is buckled: its line from the tip on, and how far the buckle is.

    ``unit``: drawing units a millimetre. ``least`` and ``most``: where holes are seen.
    """

    line: tuple[Spot, ...]
    buckle: float
    unit: float
    least: float = 0.0
    most: float = math.inf

    def draw(self, part: PartOn, size: float) -> str:
        """Return holes at their true spacing, and the buckle, its pin in the used one.

        Without a hole there are no holes, and the buckle has no pin.
        """
        return self._holes(part, size * 0.14) + self._buckle(part, size)

    def _holes(self, part: PartOn, radius: float) -> str:
        if not (part.hole and part.holes and part.spacing_mm):
            return ""
        drawn = []
        for number in range(1, part.holes + 1):
            off = (number - part.hole) * part.spacing_mm * self.unit
            far = self.buckle + off
            found = on_line(self.line, far)
            if found and self.least <= far <= self.most:
                (x, y), _ = found
                drawn.append(
                    f'<circle class="st-hole" cx="{x:.1f}" cy="{y:.1f}"'
                    f' r="{radius:.1f}" fill="{INK}"/>'
                )
        return "".join(drawn)

    def _buckle(self, part: PartOn, size: float) -> str:
        found = on_line(self.line, self.buckle)
        if not found:
            return ""
        (x, y), slope = found
        high, wide = size * 0.9, size * 1.25
        frame = (
            f'<rect class="st-buckle" x="{-high / 2:.1f}" y="{-wide / 2:.1f}"'
            f' width="{high:.1f}" height="{wide:.1f}" rx="{size * 0.18:.1f}"'
            f' stroke="{INK}" stroke-width="{max(1.4, size * 0.19):.1f}"/>'
        )
        pin = (
            f'<path class="h-line" d="M{high / 2:.1f} 0H0" stroke="{INK}"'
            f' stroke-width="{max(1.2, size * 0.17):.1f}"/>'
            if part.hole
            else ""
        )
        place = f"translate({x:.1f} {y:.1f}) rotate({slope:.0f})"
        return f'<g transform="{place}">{frame}{pin}</g>'


def answer_mark(answer: str) -> str:
    """Return a short piece of strap drawn by an answer, for the key of a drawing."""
    return (
        '<svg viewBox="0 0 40 16" aria-hidden="true" focusable="false" fill="none">'
        f"{strap('M3 8H37', answer, 10)}</svg>"
    )


def drawn_in(field: str, art: str, said: Said) -> str:
    """Return a drawing in its field, with its title and its description."""
    return (
        f'<svg class="worn" viewBox="{field}" role="img"'
        f' aria-labelledby="{said.uid}-t {said.uid}-d" fill="none"'
        ' stroke-linecap="round" stroke-linejoin="round">'
        f'<title id="{said.uid}-t">{escape(said.title)}</title>'
        f'<desc id="{said.uid}-d">{escape(said.desc)}</desc>{art}</svg>'
    )
