"""The horse from the near side, standing square to be measured."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from fitting.drawings import landmarks as lm
from fitting.drawings.ink import COAT, COAT_FAR, EDGE, INK, LEATHER
from fitting.drawings.outline import Point, landmarks, smooth

GROUND_Y: Final = 260
FAR_HOOF: Final = "#A79F94"
_PAIR: Final = re.compile(r"(-?[\d.]+) (-?[\d.]+)")
_ALONG: Final = re.compile(r"H([\d.]+)")


def _within(value: float) -> float:
    """Return the value, held between nothing and all."""
    return max(0.0, min(1.0, value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """How young it looks (0 grown, 1 a weanling), and its croup over the withers.

    The croup is in drawing units, of which the withers stand 200 over the ground.
    The shares below are ours: they draw a youngster, they measure nothing.
    """

    young: float = 0.0
    croup: float = 0.0

    def moves(self, x: float, y: float) -> tuple[float, float]:
        """Return where a point of the grown drawing lies in this build."""
        if x > 157:  # noqa: PLR2004 - shorter back: all behind the withers comes forward
            x = 157 + (x - 157) * (1 - 0.085 * self.young)
        if 118 < y < 205 and x > 92:  # noqa: PLR2004 - shallower trunk, most at the girth
            y -= 13 * self.young * max(0.0, 1 - abs(y - 155) / 50)
        if x > 185 and y < 130:  # noqa: PLR2004 - croup high
            y -= self.croup * _within((x - 185) / 45) * _within(1 - (y - 80) / 50)
        if x < 140 and y < 112:  # noqa: PLR2004 - shorter, lighter neck and head
            drawn_in = 1 - 0.10 * self.young * _within((140 - x) / 60)
            x = 140 + (x - 140) * drawn_in
            y = 60 + (y - 60) * (1 - 0.06 * self.young)
        return x, y

    def path(self, d: str) -> str:
        """Return a path of the grown drawing, bent to this build."""

        def moved(pair: re.Match[str]) -> str:
            x, y = self.moves(float(pair[1]), float(pair[2]))
            return f"{x:.1f} {y:.1f}"

        return _PAIR.sub(moved, _ALONG.sub(rf"L\1 {GROUND_Y}", d))

    def outline(self) -> str:
        """Return the one closed line round the whole horse."""
        grown = landmarks(lm.GROWN)
        moved = ((self.moves(p.x, p.y), p.corner) for p in grown)
        return smooth(tuple(Point(x=x, y=y, corner=c) for (x, y), c in moved))


def _far_side(build: Build) -> str:
    """Return the legs and the ear that stand behind."""
    legs = "".join(f'<path d="{build.path(d)}"/>' for d in (lm.FAR_FORE, lm.FAR_HIND))
    hoofs = "".join(
        f'<path d="{build.path(d)}"/>' for d in (lm.FAR_FORE_HOOF, lm.FAR_HIND_HOOF)
    )
    return (
        f'<g class="h-far" fill="{COAT_FAR}" stroke="{EDGE}" stroke-width="1">'
        f"{legs}</g>"
        f'<g class="h-farhoof" fill="{FAR_HOOF}">{hoofs}</g>'
        f'<path class="h-hair" d="{build.path(lm.TAIL)}" fill="{LEATHER}"/>'
        f'<path class="h-far h-edge" d="{build.path(lm.EAR_FAR)}" fill="{COAT_FAR}"'
        f' stroke="{INK}" stroke-width="1.1"/>'
    )


def _near_side(build: Build) -> str:
    """Return the body and what lies on it."""
    hoofs = "".join(
        f'<path d="{build.path(d)}"/>' for d in (lm.FORE_HOOF, lm.HIND_HOOF)
    )
    inner = "".join(f'<path d="{build.path(d)}"/>' for d in lm.INNER_LINES)
    return (
        f'<path class="h-body" d="{build.outline()}" fill="{COAT}" stroke="{INK}"'
        ' stroke-width="1.7"/>'
        f'<g class="h-dark" fill="{INK}">{hoofs}</g>'
        f'<path class="h-hair" d="{build.path(lm.MANE)}" fill="{LEATHER}"/>'
        f'<path class="h-body" d="{build.path(lm.EAR)}" fill="{COAT}" stroke="{INK}"'
        ' stroke-width="1.5"/>'
        f'<path class="h-hair" d="{build.path(lm.FORELOCK)}" fill="{LEATHER}"/>'
        f'<path class="h-eye" d="{build.path(lm.EYE)}" fill="{INK}"/>'
        f'<path class="h-line" d="{build.path(lm.NOSTRIL)}" stroke="{INK}"'
        ' stroke-width="1.4"/>'
        f'<g class="h-soft" stroke="{EDGE}" stroke-width="1">{inner}</g>'
    )


def horse(build: Build) -> str:
    """Return the whole figure, in a field of 330 by 270 drawing units."""
    return _far_side(build) + _near_side(build)
