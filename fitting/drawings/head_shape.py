"""How a head is built: its own proportions, in coordinates along it and across it.

Along runs from poll (0) to lip (1), across from the line of the cheekpieces: front
positive. The shares here are ours: they draw a head, they measure nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitting.drawings.outline import Point

Pair = tuple[float, float]

LENGTH: Final = 300.0
_POLL: Final = (236.0, 66.0)
_DOWN: Final = (-0.4685, 0.8835)
_FORWARD: Final = (-0.8835, -0.4685)
_AXIS: Final = -0.065  # what gets deeper or shallower does so from here
_EARS: Final = 0.05  # above this nothing moves
_JOWL: Final = 0.20
_NOSE: Final = 0.62
_EYE: Final = (0.279, 0.090)
_EYE_REACH: Final = 0.10
# The head as it is drawn: its nose and its throat as shares of the head length.
USUAL_NOSE: Final = 0.60
USUAL_THROAT: Final = 0.75
# A measured head never moves the drawing further than this.
LEAST: Final = 0.84
MOST: Final = 1.14


def _between(value: float, low: float, high: float) -> float:
    """Return how far a value is on its way, 0 to 1."""
    return max(0.0, min(1.0, (value - low) / (high - low)))


def _swell(value: float, low: float, high: float) -> float:
    """Return a smooth rise and fall, 1 in the middle, 0 outside."""
    way = _between(value, low, high)
    return 16 * (way * (1 - way)) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """How deep nose and jowl are beside the usual head; ``foal``: a foal's head.

    A foal's is domed between the eyes, shallow at jaw and muzzle, and its eye is big.
    """

    nose: float = 1.0
    jowl: float = 1.0
    foal: bool = False

    def depth(self, along: float) -> float:
        """Return how deep the head is at a place, as a share of the usual one."""
        nose, jowl = self.nose, self.jowl
        if self.foal:
            nose, jowl = nose * 0.90, jowl * 0.84
        if along <= _JOWL:
            return 1 + (jowl - 1) * _between(along, _EARS, _JOWL)
        return jowl + (nose - jowl) * _between(along, _JOWL, _NOSE)

    def moves(self, along: float, across: float) -> Pair:
        """Return where a place of the usual head lies on this one."""
        if self.foal:
            along, across = _grown_to_foal(along, across)
        return along, _AXIS + (across - _AXIS) * self.depth(along)

    def at(self, along: float, across: float) -> Pair:
        """Return the point on the page."""
        s, d = self.moves(along, across)
        return (
            _POLL[0] + LENGTH * (s * _DOWN[0] + d * _FORWARD[0]),
            _POLL[1] + LENGTH * (s * _DOWN[1] + d * _FORWARD[1]),
        )

    def point(self, along: float, across: float) -> Point:
        """Return the point on the page, to be passed smoothly."""
        x, y = self.at(along, across)
        return Point(x=x, y=y)


def _grown_to_foal(along: float, across: float) -> Pair:
    """Return a place of the grown head on a foal's, before its depth."""
    away = ((along - _EYE[0]) ** 2 + (across - _EYE[1]) ** 2) ** 0.5
    bigger = 1 + 0.42 * (1 - _between(away, 0.05, _EYE_REACH))
    along = _EYE[0] + (along - _EYE[0]) * bigger
    across = _EYE[1] + (across - _EYE[1]) * bigger
    front = _between(across, 0.06, 0.12)
    across += 0.040 * front * _swell(along, -0.02, 0.42)
    across -= 0.020 * front * _swell(along, 0.38, 0.80)
    return along, across


USUAL: Final = Shape()
FOAL: Final = Shape(foal=True)


def shape_of(
    head_mm: float | None,
    nose_mm: float | None,
    throat_mm: float | None,
    *,
    foal: bool = False,
) -> Shape:
    """Return the head's own proportions, where it was measured; else the usual ones.

    Args:
        head_mm: corner of the mouth over the poll to the other corner.
        nose_mm: round the nose.
        throat_mm: round the throat.
        foal: whether it is drawn as a foal's.
    """
    if not head_mm:
        return FOAL if foal else USUAL
    return Shape(
        nose=_held((nose_mm or head_mm * USUAL_NOSE) / head_mm / USUAL_NOSE),
        jowl=_held((throat_mm or head_mm * USUAL_THROAT) / head_mm / USUAL_THROAT),
        foal=foal,
    )


def _held(share: float) -> float:
    return round(max(LEAST, min(MOST, share)), 3)
