"""The head from the near side, in coordinates of its own."""

from __future__ import annotations

from typing import Final

from fitting.drawings import landmarks as lm
from fitting.drawings.ink import COAT, COAT_FAR, EDGE, INK, LEATHER
from fitting.drawings.outline import Point, landmarks, smooth

Pair = tuple[float, float]

_LENGTH: Final = 300.0
_POLL: Final = (236.0, 66.0)
_DOWN: Final = (-0.4685, 0.8835)
_FORWARD: Final = (-0.8835, -0.4685)


def at(along: float, across: float) -> Pair:
    """Return the page point of head coordinates (poll 0, lip 1; front positive)."""
    return (
        _POLL[0] + _LENGTH * (along * _DOWN[0] + across * _FORWARD[0]),
        _POLL[1] + _LENGTH * (along * _DOWN[1] + across * _FORWARD[1]),
    )


def _point(along: float, across: float) -> Point:
    x, y = at(along, across)
    return Point(x=x, y=y)


def through(*places: Pair) -> str:
    """Return an open smooth path through head coordinates."""
    return smooth(tuple(_point(*place) for place in places), closed=False)


def _curve(start: Pair, *pieces: tuple[Pair, Pair, Pair], closed: bool = False) -> str:
    """Return a path of drawn curves in head coordinates."""

    def spelt(*places: Pair) -> str:
        return " ".join("{:.1f} {:.1f}".format(*at(*place)) for place in places)

    curves = "".join(f"C{spelt(*piece)}" for piece in pieces)
    return f"M{spelt(start)}{curves}" + ("Z" if closed else "")


_EAR: Final = _curve(
    (0.060, 0.026),
    ((-0.005, 0.088), (-0.10, 0.088), (-0.185, 0.030)),
    ((-0.145, -0.015), (-0.08, -0.064), (0.05, -0.050)),
)
_EAR_INSIDE: Final = _curve(
    (0.02, 0.012), ((-0.03, 0.045), (-0.10, 0.05), (-0.16, 0.026))
)
_EAR_FAR: Final = _curve(
    (0.05, 0.115),
    ((-0.01, 0.155), (-0.09, 0.145), (-0.155, 0.100)),
    ((-0.12, 0.065), (-0.06, 0.05), (0.02, 0.05)),
    closed=True,
)
_EYE: Final = _curve(
    (0.322, 0.086),
    ((0.305, 0.118), (0.262, 0.130), (0.236, 0.086)),
    ((0.255, 0.062), (0.295, 0.058), (0.322, 0.086)),
    closed=True,
)
_LID: Final = _curve((0.338, 0.080), ((0.315, 0.134), (0.258, 0.150), (0.220, 0.090)))
_UNDER_EYE: Final = _curve(
    (0.318, 0.060), ((0.295, 0.046), (0.270, 0.046), (0.250, 0.054))
)
_NOSTRIL: Final = _curve(
    (0.935, 0.072),
    ((0.905, 0.086), (0.878, 0.074), (0.880, 0.052)),
    ((0.885, 0.040), (0.905, 0.040), (0.915, 0.052)),
)
_MOUTH: Final = _curve(
    (0.966, -0.026), ((0.935, -0.030), (0.905, -0.030), (0.868, -0.046))
)
_FORELOCK: Final = _curve(
    (0.0, 0.058),
    ((0.03, 0.125), (0.07, 0.158), (0.130, 0.164)),
    ((0.17, 0.156), (0.205, 0.150), (0.242, 0.146)),
    ((0.215, 0.130), (0.19, 0.124), (0.165, 0.124)),
    ((0.18, 0.112), (0.195, 0.103), (0.205, 0.092)),
    ((0.165, 0.092), (0.13, 0.092), (0.095, 0.082)),
    ((0.06, 0.072), (0.03, 0.062), (0.0, 0.058)),
    closed=True,
)
_FACIAL_CREST: Final = through(
    (0.39, 0.052), (0.45, 0.020), (0.52, 0.004), (0.575, 0.0)
)
_CHEEK: Final = through(
    (0.17, -0.245), (0.235, -0.262), (0.31, -0.255), (0.385, -0.222)
)


def _line(d: str, width: float) -> str:
    return f'<path class="h-line" d="{d}" stroke="{INK}" stroke-width="{width}"/>'


def neck() -> str:
    """Return the neck, cut like a bust, with its mane."""
    x, y = at(0.115, -0.238)
    throat = f"{x:.1f} {y:.1f}"
    shape = (
        f"M240 62C268 55 308 74 346 104C356 160 354 232 336 292"
        f"C326 240 312 180 {throat}C262 120 250 90 240 62Z"
    )
    return (
        f'<path class="h-body h-noedge" d="{shape}" fill="{COAT}"/>'
        f"{_line(lm.HEAD_CREST, 2.2)}"
        f"{_line(f'M{throat}C312 180 326 240 336 292', 2.2)}"
        f'<path class="h-hair" d="{lm.HEAD_MANE}" fill="{LEATHER}"/>'
    )


def face() -> str:
    """Return the head without its near ear and forelock."""
    outline = tuple(_point(p.x, p.y) for p in landmarks(lm.HEAD))
    shut = smooth((*outline, _point(0.04, -0.12)))
    soft = "".join(f'<path d="{d}"/>' for d in (_UNDER_EYE, _FACIAL_CREST, _CHEEK))
    return (
        f'<path class="h-far h-edge" d="{_EAR_FAR}" fill="{COAT_FAR}" stroke="{INK}"'
        ' stroke-width="1.8"/>'
        f'<path class="h-body h-noedge" d="{shut}" fill="{COAT}"/>'
        f"{_line(smooth(outline, closed=False), 2.4)}"
        f'<path class="h-eye" d="{_EYE}" fill="{INK}"/>'
        f"{_line(_LID, 1.8)}{_line(_NOSTRIL, 2.2)}{_line(_MOUTH, 1.6)}"
        f'<g class="h-soft" stroke="{EDGE}" stroke-width="1.4">{soft}</g>'
    )


def near_ear() -> str:
    """Return the near ear, drawn after what passes behind it."""
    return (
        f'<path class="h-body" d="{_EAR}" fill="{COAT}" stroke="{INK}"'
        ' stroke-width="2.2"/>'
        f'<path class="h-soft" d="{_EAR_INSIDE}" stroke="{EDGE}" stroke-width="1.4"/>'
    )


def forelock() -> str:
    """Return the forelock."""
    return f'<path class="h-hair" d="{_FORELOCK}" fill="{LEATHER}"/>'


def head() -> str:
    """Return the whole head, in a field of 64 to 364 by -14 to 376 drawing units."""
    return neck() + face() + near_ear() + forelock()
