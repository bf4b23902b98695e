"""The head from the near side, in coordinates of its own."""

from __future__ import annotations

from typing import Final

from fitting.drawings import landmarks as lm
from fitting.drawings.head_shape import USUAL, Pair, Shape
from fitting.drawings.ink import COAT, COAT_FAR, EDGE, INK, LEATHER
from fitting.drawings.outline import landmarks, smooth

_Curve = tuple[Pair, tuple[tuple[Pair, Pair, Pair], ...]]


def at(along: float, across: float, shape: Shape = USUAL) -> Pair:
    """Return the page point of head coordinates (poll 0, lip 1; front positive)."""
    return shape.at(along, across)


def through(*places: Pair, shape: Shape = USUAL) -> str:
    """Return an open smooth path through head coordinates."""
    return smooth(tuple(shape.point(*place) for place in places), closed=False)


def _curve(curve: _Curve, shape: Shape, *, closed: bool = False) -> str:
    """Return a path of drawn curves in head coordinates."""

    def spelt(*places: Pair) -> str:
        return " ".join("{:.1f} {:.1f}".format(*shape.at(*place)) for place in places)

    start, pieces = curve
    curves = "".join(f"C{spelt(*piece)}" for piece in pieces)
    return f"M{spelt(start)}{curves}" + ("Z" if closed else "")


_EAR: Final[_Curve] = (
    (0.06, 0.026),
    (
        ((-0.005, 0.088), (-0.1, 0.088), (-0.185, 0.03)),
        ((-0.145, -0.015), (-0.08, -0.064), (0.05, -0.05)),
    ),
)
_EAR_INSIDE: Final[_Curve] = (
    (0.02, 0.012),
    (((-0.03, 0.045), (-0.1, 0.05), (-0.16, 0.026)),),
)
_EAR_FAR: Final[_Curve] = (
    (0.05, 0.115),
    (
        ((-0.01, 0.155), (-0.09, 0.145), (-0.155, 0.1)),
        ((-0.12, 0.065), (-0.06, 0.05), (0.02, 0.05)),
    ),
)
_EYE: Final[_Curve] = (
    (0.322, 0.086),
    (
        ((0.305, 0.118), (0.262, 0.13), (0.236, 0.086)),
        ((0.255, 0.062), (0.295, 0.058), (0.322, 0.086)),
    ),
)
_LID: Final[_Curve] = (
    (0.338, 0.08),
    (((0.315, 0.134), (0.258, 0.15), (0.22, 0.09)),),
)
_UNDER_EYE: Final[_Curve] = (
    (0.318, 0.06),
    (((0.295, 0.046), (0.27, 0.046), (0.25, 0.054)),),
)
_NOSTRIL: Final[_Curve] = (
    (0.935, 0.072),
    (
        ((0.905, 0.086), (0.878, 0.074), (0.88, 0.052)),
        ((0.885, 0.04), (0.905, 0.04), (0.915, 0.052)),
    ),
)
_MOUTH: Final[_Curve] = (
    (0.966, -0.026),
    (((0.935, -0.03), (0.905, -0.03), (0.868, -0.046)),),
)
_FORELOCK: Final[_Curve] = (
    (0.0, 0.058),
    (
        ((0.03, 0.125), (0.07, 0.158), (0.13, 0.164)),
        ((0.17, 0.156), (0.205, 0.15), (0.242, 0.146)),
        ((0.215, 0.13), (0.19, 0.124), (0.165, 0.124)),
        ((0.18, 0.112), (0.195, 0.103), (0.205, 0.092)),
        ((0.165, 0.092), (0.13, 0.092), (0.095, 0.082)),
        ((0.06, 0.072), (0.03, 0.062), (0.0, 0.058)),
    ),
)
_TUFT: Final[_Curve] = (
    (0.0, 0.058),
    (
        ((0.02, 0.11), (0.06, 0.135), (0.12, 0.142)),
        ((0.095, 0.12), (0.085, 0.11), (0.075, 0.094)),
        ((0.05, 0.078), (0.02, 0.066), (0.0, 0.058)),
    ),
)
_FACIAL_CREST: Final = (
    (0.39, 0.052),
    (0.45, 0.020),
    (0.52, 0.004),
    (0.575, 0.0),
)
_CHEEK: Final = (
    (0.17, -0.245),
    (0.235, -0.262),
    (0.31, -0.255),
    (0.385, -0.222),
)


def _line(d: str, width: float) -> str:
    return f'<path class="h-line" d="{d}" stroke="{INK}" stroke-width="{width}"/>'


def neck(shape: Shape = USUAL) -> str:
    """Return the neck, cut like a bust, with its mane; a foal's stands up, short."""
    x, y = shape.at(0.115, -0.238)
    throat = f"{x:.1f} {y:.1f}"
    cut = (
        f"M240 62C268 55 308 74 346 104C356 160 354 232 336 292"
        f"C326 240 312 180 {throat}C262 120 250 90 240 62Z"
    )
    mane = lm.HEAD_MANE_FOAL if shape.foal else lm.HEAD_MANE
    return (
        f'<path class="h-body h-noedge" d="{cut}" fill="{COAT}"/>'
        f"{_line(lm.HEAD_CREST, 2.2)}"
        f"{_line(f'M{throat}C312 180 326 240 336 292', 2.2)}"
        f'<path class="h-hair" d="{mane}" fill="{LEATHER}"/>'
    )


def face(shape: Shape = USUAL) -> str:
    """Return the head without its near ear and forelock."""
    outline = tuple(shape.point(p.x, p.y) for p in landmarks(lm.HEAD))
    shut = smooth((*outline, shape.point(0.04, -0.12)))
    lines = (
        _curve(_UNDER_EYE, shape),
        through(*_FACIAL_CREST, shape=shape),
        through(*_CHEEK, shape=shape),
    )
    soft = "".join(f'<path d="{d}"/>' for d in lines)
    far, eye = (_curve(of, shape, closed=True) for of in (_EAR_FAR, _EYE))
    lid, nostril, mouth = (_curve(of, shape) for of in (_LID, _NOSTRIL, _MOUTH))
    return (
        f'<path class="h-far h-edge" d="{far}" fill="{COAT_FAR}" stroke="{INK}"'
        ' stroke-width="1.8"/>'
        f'<path class="h-body h-noedge" d="{shut}" fill="{COAT}"/>'
        f"{_line(smooth(outline, closed=False), 2.4)}"
        f'<path class="h-eye" d="{eye}" fill="{INK}"/>'
        f"{_line(lid, 1.8)}{_line(nostril, 2.2)}{_line(mouth, 1.6)}"
        f'<g class="h-soft" stroke="{EDGE}" stroke-width="1.4">{soft}</g>'
    )


def near_ear(shape: Shape = USUAL) -> str:
    """Return the near ear, drawn after what passes behind it."""
    return (
        f'<path class="h-body" d="{_curve(_EAR, shape)}" fill="{COAT}" stroke="{INK}"'
        ' stroke-width="2.2"/>'
        f'<path class="h-soft" d="{_curve(_EAR_INSIDE, shape)}" stroke="{EDGE}"'
        ' stroke-width="1.4"/>'
    )


def forelock(shape: Shape = USUAL) -> str:
    """Return the forelock; a foal's is a tuft."""
    curve = _TUFT if shape.foal else _FORELOCK
    d = _curve(curve, shape, closed=True)
    return f'<path class="h-hair" d="{d}" fill="{LEATHER}"/>'


def head(shape: Shape = USUAL) -> str:
    """Return the whole head, in a field of 64 to 364 by -14 to 376 drawing units."""
    return neck(shape) + face(shape) + near_ear(shape) + forelock(shape)
