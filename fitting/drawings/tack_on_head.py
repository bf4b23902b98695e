"""Tack on the head, each strap drawn by its answer, on the horse's own proportions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitting.drawings import head as hd
from fitting.drawings.head_shape import LENGTH, USUAL, Pair, Shape
from fitting.drawings.ink import INK, Said, line
from fitting.drawings.straps import (
    Buckled,
    PartOn,
    Spot,
    drawn_in,
    number_ring,
    on_line,
    strap,
)

FIELD: Final = "58 -16 308 372"
# From the corner of the mouth over the poll to the other corner is twice this, drawn.
_HALF_HEAD: Final = 270.0
USUAL_HEAD_MM: Final = 1_000.0
USUAL_RING_MM: Final = 65.0
_TOP: Final[Pair] = (0.052, -0.098)
_OVER: Final[tuple[Pair, ...]] = ((0.0, -0.098), (-0.035, -0.072))
_BIT: Final[Pair] = (0.872, -0.050)
_BUCKLE: Final = 0.295
_BROW: Final[tuple[Pair, ...]] = (
    *((0.078, -0.090), (0.105, -0.01), (0.128, 0.07), (0.155, 0.150)),
)
_NOSE: Final[tuple[Pair, ...]] = (
    *((0.598, -0.150), (0.630, -0.05), (0.634, 0.05), (0.618, 0.116)),
)
_NOSE_STRAP: Final[tuple[Pair, ...]] = (
    *((0.600, -0.038), (0.40, -0.042), (0.20, -0.062), _TOP, (-0.005, -0.10)),
)
_THROAT: Final[tuple[Pair, ...]] = (
    *((0.318, -0.372), (0.29, -0.365), (0.22, -0.285), (0.12, -0.185), (0.02, -0.105)),
)
_THROAT_FAR: Final[tuple[Pair, ...]] = (
    *((0.305, -0.375), (0.335, -0.350), (0.35, -0.30), (0.33, -0.25)),
)
_CHEEK: Final[tuple[Pair, ...]] = (*((0.60, -0.064), (0.40, -0.0695), (0.29, -0.072)),)
_HC_RING: Final[Pair] = (0.330, -0.080)
_HC_NOSE: Final[tuple[Pair, ...]] = (
    *((0.575, -0.165), (0.590, -0.05), (0.585, 0.05), (0.565, 0.117)),
)
_CV_NOSE: Final[tuple[Pair, ...]] = (
    *((0.600, -0.150), (0.618, -0.05), (0.612, 0.05), (0.594, 0.114)),
)
_HC_CHEEK: Final[tuple[Pair, ...]] = ((0.580, -0.070), (0.45, -0.076), _HC_RING)
_HC_JOWL: Final[tuple[Pair, ...]] = (
    *((0.372, -0.296), (0.378, -0.21), (0.355, -0.14), _HC_RING),
)
_NUMBERS: Final[dict[str, Pair]] = {
    "whole": (0.50, -0.067),
    "cheekpieces": (0.50, -0.067),
    "headpiece": (0.175, -0.086),
    "browband": (0.118, 0.035),
    "noseband": (0.632, 0.030),
    "throatlash": (0.235, -0.302),
    "nose": (0.590, 0.030),
    "crown": (0.175, -0.086),
    "jowl": (0.362, -0.185),
}


class _Head:
    """One head with the parts that lie on it."""

    def __init__(
        self, parts: Sequence[PartOn], shape: Shape, head_mm: float | None
    ) -> None:
        self.parts = {part.part: part for part in parts}
        self.shape = shape
        self.unit = 2 * _HALF_HEAD / (head_mm or USUAL_HEAD_MM)

    def strap(self, word: str, places: Sequence[Pair], width: float) -> str:
        """Return a strap through places of the head, if there is such a part."""
        part = self.parts.get(word)
        if part is None:
            return ""
        return strap(hd.through(*places, shape=self.shape), part.answer, width)

    def buckled(self, word: str, places: Sequence[Pair], at: float, size: float) -> str:
        """Return the holes and the buckle of a strap; ``at``: units from its tip."""
        part = self.parts.get(word)
        if part is None:
            return ""
        spots = self.spots(places)
        buckled = Buckled(line=spots, buckle=at, unit=self.unit, least=3)
        return buckled.draw(part, size)

    def spots(self, places: Sequence[Pair]) -> tuple[Spot, ...]:
        """Return places of the head as points of the page."""
        return tuple(self.shape.at(*place) for place in places)

    def hanging(self, word: str) -> tuple[tuple[Pair, ...], float]:
        """Return a headpiece's line from its tip over the poll, and its buckle on it.

        The tip hangs one and a half holes below the last hole that lies below.
        """
        part = self.parts[word]
        below = 0.10
        if part.hole and part.spacing_mm:
            below = (part.hole + 0.5) * part.spacing_mm * self.unit / LENGTH
        tip = min(_BUCKLE + below, 0.60)
        return (
            ((tip, -0.0655), (0.29, -0.072), (0.15, -0.082), _TOP, *_OVER),
            (tip - _BUCKLE) * LENGTH,
        )

    def ring(self) -> float:
        """Return the radius of the bit's ring, in drawing units."""
        bit = self.parts.get("mouthpiece")
        return ((bit.ring_mm if bit else None) or USUAL_RING_MM) * self.unit / 2

    def bit_top(self) -> float:
        """Return how far down the head a cheekpiece reaches the bit."""
        return _BIT[0] - self.ring() / LENGTH

    def numbers(self) -> str:
        """Return every part's number where it lies."""
        drawn = []
        for word, part in self.parts.items():
            if word in _NUMBERS and part.number:
                drawn.append(number_ring(self.shape.at(*_NUMBERS[word]), part.number))
        return "".join(drawn)


def _hung_by(head: _Head) -> str:
    """Return the part that lies over the poll, or nothing."""
    hung = ("headpiece", "whole", "cheekpieces")
    return next((word for word in hung if word in head.parts), "")


def _bridle(head: _Head) -> str:
    """Return the straps of a bridle with what is seen of the head between them."""
    shape, over = head.shape, _hung_by(head)
    cheek = "cheekpieces" if "cheekpieces" in head.parts else over
    drawn = [
        hd.neck(shape),
        head.strap("throatlash", _THROAT_FAR, 5.5),
        hd.face(shape),
        head.strap("noseband", _NOSE_STRAP, 5),
        head.strap("noseband", _NOSE, 11),
        head.buckled("noseband", _NOSE, 16, 9),
        head.strap("throatlash", _THROAT, 5.5),
        head.buckled("throatlash", _THROAT[1:], 36, 6),
        head.strap("browband", _BROW, 10),
        head.strap(cheek, ((head.bit_top(), -0.056), *_CHEEK), 10),
    ]
    if over:
        line_of, buckle = head.hanging(over)
        drawn.append(head.strap(over, line_of, 10))
        buckled = head.buckled(over, line_of[:-2], buckle, 13)
        drawn += [hd.near_ear(shape), hd.forelock(shape), buckled]
    else:
        drawn += [hd.near_ear(shape), hd.forelock(shape)]
    return "".join(drawn) + _bit(head)


def _bit(head: _Head) -> str:
    """Return the near cheek of the bit at its true size, with its number beside it."""
    part = head.parts.get("mouthpiece")
    if part is None:
        return ""
    x, y = head.shape.at(*_BIT)
    radius = head.ring()
    ring = strap(_round(x, y, radius), part.answer, 6.4, steel=True)
    bar = ""
    if part.cheek == "full_cheek":
        arm = head.spots(((0.872 - 0.13, -0.050), (0.872 + 0.11, -0.050)))
        (x1, y1), (x2, y2) = arm
        d = f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"
        bar = strap(d, part.answer, 6.4, steel=True)
    out = radius + 26
    leader = line(f"M{x + radius:.1f} {y + 6:.1f}L{x + out - 12:.1f} {y + 11:.1f}",
                  "c-ink", INK, 1.6)  # fmt: skip
    number = number_ring((x + out, y + 14), part.number)
    return ring + bar + (leader + number if part.number else "")


def _round(x: float, y: float, radius: float) -> str:
    r = f"{radius:.1f}"
    return (
        f"M{x - radius:.1f} {y:.1f}a{r} {r} 0 1 1 {2 * radius:.1f} 0"
        f"a{r} {r} 0 1 1 {-2 * radius:.1f} 0Z"
    )


def _headcollar(head: _Head, nose: tuple[Pair, ...], *, ring: bool) -> str:
    """Return a headcollar or, with a ring on the nose, a cavesson."""
    shape = head.shape
    if "crown" not in head.parts:
        head.parts["crown"] = PartOn(part="crown", answer="not_known")
    over, buckle = head.hanging("crown")
    drawn = [
        hd.neck(shape),
        hd.face(shape),
        head.strap("jowl", _HC_JOWL, 8),
        head.strap("crown", _HC_CHEEK, 9),
        head.strap("nose", nose, 13 if ring else 11),
        head.buckled("nose", nose, 16, 9),
        head.strap("crown", over, 10),
        hd.near_ear(shape),
        hd.forelock(shape),
        head.buckled("crown", over[:-2], buckle, 13),
        _joint(shape.at(*nose[1])) if not ring else "",
    ]
    if ring:
        found = on_line(head.spots(nose), 240) or (shape.at(*nose[-1]), 0.0)
        x, y = found[0]
        drawn.append(strap(_round(x - 8, y - 3, 7.5), "good", 4.6, steel=True))
    return "".join(drawn)


def _joint(spot: Spot) -> str:
    """Return the ring at the side of a headcollar, where its straps meet."""
    return strap(_round(spot[0], spot[1], 8), "good", 4.6, steel=True)


def tack_on_head(
    kind: str,
    parts: Sequence[PartOn],
    said: Said,
    *,
    shape: Shape = USUAL,
    head_mm: float | None = None,
) -> str:
    """Return a head wearing a bridle, headcollar or cavesson, part by part.

    Args:
        kind: headcollar, cavesson, or anything else for a bridle with its bit.
        parts: the parts it has; a headcollar's crown that is not told is dotted.
        said: what it says to those who cannot see it.
        shape: the horse's own proportions.
        head_mm: its head length, for holes and rings at their true size.
    """
    head = _Head(parts, shape, head_mm)
    match kind:
        case "headcollar":
            art = _headcollar(head, _HC_NOSE, ring=False)
        case "cavesson":
            art = _headcollar(head, _CV_NOSE, ring=True)
        case _:
            art = _bridle(head)
    return drawn_in(FIELD, art + head.numbers(), said)
