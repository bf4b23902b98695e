"""Tack on the standing horse from the near side, drawn by its answer where it must lie.

A roller and a girth lie a hand behind the elbow, a saddle's panel between withers and
last rib, a rug from the chest to the point of the buttock.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from fitting.drawings.horse import GROUND_Y, Build, horse
from fitting.drawings.ink import EDGE, INK, LEATHER, MANILA, Face, Said, line, words
from fitting.drawings.straps import Buckled, PartOn, drawn_in, number_ring, strap

FIELD: Final = "6 4 318 260"
_TALL: Final = 200.0  # the withers of the drawing over its ground
_HAND_MM: Final = 101.6
USUAL_TALL_MM: Final = 1_400.0
_ELBOW: Final = 146.0
_BELLY_Y: Final = 155.5
_BEHIND_BLADE: Final = 168.0
_LAST_RIB: Final = 219.0
_BACK: Final = (
    (160, 59.5),
    (168, 62),
    (181, 66.5),
    (196, 68.5),
    (219, 65.5),
    (240, 60.5),
)
_CHEST: Final = 97.5
_BUTTOCK: Final = 299.0
_LONGEST: Final = 1.16
_SHORTEST: Final = 0.80
_WORDS: Final = Face(size=12, fill=INK, css="strong", halo=True)
_BUTTOCK_WORD: Final = Face(size=12, fill=INK, css="strong", anchor="end", halo=True)
DRAWN: Final = ("roller", "girth", "saddle", "rug")


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The horse that wears it: its build, and its height at the withers (mm)."""

    build: Build
    tall_mm: float = USUAL_TALL_MM

    @property
    def unit(self) -> float:
        """Drawing units a millimetre."""
        return _TALL / self.tall_mm

    @property
    def girth_x(self) -> float:
        """How far back a girth lies on the drawing: a hand behind the elbow."""
        return _ELBOW + _HAND_MM * self.unit


def build_of(months: int, withers_mm: float | None, croup_mm: float | None) -> Build:
    """Return how a horse is built at an age, its croup as it was measured.

    Source: the shares are ours; they draw a youngster, they measure nothing.
    """
    young = max(0.0, min(1.0, 1 - (months - 6) * 0.026))
    high = 0.0
    if withers_mm and croup_mm:
        high = max(-4.0, min(8.0, (croup_mm - withers_mm) * _TALL / withers_mm))
    return Build(young=round(young, 2), croup=round(high, 1))


def _back_y(x: float) -> float:
    """Return the height of the back line of the grown drawing."""
    for (x1, y1), (x2, y2) in pairwise(_BACK):
        if x <= x2:
            return y1 + (y2 - y1) * (x - x1) / (x2 - x1)
    return _BACK[-1][1]


def _mark(body: Body, d: str) -> str:
    """Return a dotted line that shows where something must lie."""
    return line(body.build.path(d), "c-ink", INK, 1.4, "1 4")


def _behind_elbow(body: Body) -> str:
    """Return the hand behind the elbow, with its word under the belly."""
    x = body.girth_x
    return _mark(body, f"M{_ELBOW} 152L{_ELBOW} 166M{x:.1f} 158L{x:.1f} 166") + (
        _mark(body, f"M{_ELBOW} 166L{x:.1f} 166")
        + words(x + 5, 171, "a hand behind", _WORDS)
        + words(x + 5, 185, "the elbow", _WORDS)
    )


def _round_the_trunk(part: PartOn, body: Body, top: tuple[float, float]) -> str:
    """Return a strap round the trunk from its top to the girth, with its buckle."""
    x = body.girth_x
    lean = (top[0] - x) / (_BELLY_Y - top[1])
    between = ((x + lean * (_BELLY_Y - y), y) for y in (135.0, 105.0))
    at = ((x, _BELLY_Y), *between, top)
    spots = tuple(body.build.moves(*spot) for spot in at)
    d = "M" + "L".join(f"{px:.1f} {py:.1f}" for px, py in spots)
    buckled = Buckled(line=spots, buckle=42.0, unit=body.unit, least=6)
    return strap(d, part.answer, 9) + buckled.draw(part, 8)


def _roller(part: PartOn, body: Body) -> str:
    x = body.girth_x + 7
    pad = body.build.path(
        f"M{x - 9:.1f} 60.5L{x + 9:.1f} 65L{x + 9:.1f} 88L{x - 8:.1f} 88Z"
    )
    under = (
        f'<path class="f-manila c-ink" d="{pad}" fill="{MANILA}" stroke="{INK}"'
        ' stroke-width="1.3"/>'
    )
    return (
        under
        + _behind_elbow(body)
        + _round_the_trunk(part, body, (x, _back_y(x)))
        + _ring(body, (x + 27, 100), (x + 1.5, 103), part)
    )


def _ring(
    body: Body, at: tuple[float, float], to: tuple[float, float], part: PartOn
) -> str:
    """Return the number of a part, with a line that leads to it."""
    (x, y), (x2, y2) = body.build.moves(*at), body.build.moves(*to)
    leader = line(f"M{x:.1f} {y:.1f}L{x2:.1f} {y2:.1f}", "c-ink", INK, 1.4)
    return (leader if part.number else "") + number_ring((x, y), part.number, 10)


def _saddle_art(body: Body, front: float, back: float) -> str:
    """Return seat and flap over a panel, in plain manila: only the panel is judged."""
    wide = back - front
    y1, y2, mid = _back_y(front), _back_y(back), front + wide * 0.45
    seat = (
        f"M{front + 2:.1f} {y1 - 1:.1f}"
        f"C{front + 2:.1f} {y1 - 14:.1f} {front + 9:.1f} {y1 - 16:.1f}"
        f" {front + 12:.1f} {y1 - 10:.1f}"
        f"C{mid:.1f} {y1 - 1:.1f} {back - 14:.1f} {y2 - 7:.1f}"
        f" {back - 5:.1f} {y2 - 15:.1f}C{back - 1:.1f} {y2 - 16:.1f}"
        f" {back:.1f} {y2 - 6:.1f} {back - 3:.1f} {y2 - 1:.1f}Z"
    )
    flap = (
        f"M{front + 6:.1f} {y1 + 2:.1f}C{front - 1:.1f} {y1 + 20:.1f}"
        f" {front - 6:.1f} {y1 + 38:.1f} {front - 3:.1f} {y1 + 48:.1f}"
        f"C{front + 6:.1f} {y1 + 54:.1f} {front + 18:.1f} {y1 + 53:.1f}"
        f" {front + 23:.1f} {y1 + 46:.1f}C{front + 26:.1f} {y1 + 28:.1f}"
        f" {front + 27:.1f} {y1 + 14:.1f} {front + 27:.1f} {y1 + 3:.1f}Z"
    )
    return "".join(
        f'<path class="f-manila c-ink" d="{body.build.path(d)}" fill="{MANILA}"'
        f' stroke="{INK}" stroke-width="1.4"/>'
        for d in (flap, seat)
    )


def _saddle(part: PartOn, body: Body) -> str:
    """Return a saddle: its panel at its true share of the back, and the last rib."""
    share = max(0.5, min(1.35, part.long or 0.95))
    front, back = _BEHIND_BLADE, _BEHIND_BLADE + (_LAST_RIB - _BEHIND_BLADE) * share
    steps = [front + (back - front) * i / 6 for i in range(7)]
    d = "M" + "L".join(f"{x:.1f} {_back_y(x) + 1:.1f}" for x in steps)
    x = body.girth_x
    girth = body.build.path(f"M{front + 6:.1f} 112L{x:.1f} {_BELLY_Y}")
    rib = _mark(body, f"M{_LAST_RIB} 66C{_LAST_RIB + 5} 84 {_LAST_RIB + 3} 112 206 138")
    tx, ty = body.build.moves(_LAST_RIB + 3, 50)
    return (
        line(girth, "c-leather", LEATHER, 3)
        + _saddle_art(body, front, back)
        + strap(body.build.path(d), part.answer, 7)
        + rib
        + words(tx, ty - 3, "last rib", _WORDS)
        + _ring(body, (front + 8, 36), ((front + back) / 2 - 4, 66), part)
    )


def _girth(part: PartOn, body: Body) -> str:
    """Return a girth under a saddle that is only shown."""
    front = _BEHIND_BLADE
    shown = _saddle_art(body, front, _LAST_RIB - 2)
    x = body.girth_x
    return (
        _round_the_trunk(part, body, (front + 9, 98.0))
        + shown
        + _behind_elbow(body)
        + _ring(body, (x + 32, 136), (x + 8, 136), part)
    )


def _rug(part: PartOn, body: Body) -> str:
    """Return a rug at its true share of the horse, from the chest to the buttock."""
    share = max(_SHORTEST, min(_LONGEST, part.long or 1.0))
    rear = _CHEST + (_BUTTOCK - _CHEST) * share
    over = min(rear - 6, 281.0)
    top = [
        *((140, 53.0), (156, 57), (168, 60.5), (181, 65), (196, 67), (219, 64)),
        *((240, 59), (260, 63.5)),
    ]
    top = [(x, y) for x, y in top if x < over - 6]
    fall = 59 + (over - 240) * 0.42 if over > 240 else _back_y(over) - 1.5  # noqa: PLR2004
    back = "L".join(f"{x:.1f} {y:.1f}" for x, y in top)
    d = (
        f"M{_CHEST - 1:.1f} 127C112 118 127 92 {back}L{over:.1f} {fall:.1f}"
        f"C{rear - 2:.1f} {fall + 10:.1f} {rear:.1f} 92 {rear:.1f} 110"
        f"L{rear - 4:.1f} 166L102 166C97 152 96 140 {_CHEST - 1:.1f} 127Z"
    )
    shape = body.build.path(d)
    fold_x = rear - 46
    fold = f"M148 72C146 100 146 130 148 160M{fold_x:.1f} 74L{fold_x:.1f} 160"
    tx, ty = body.build.moves(_BUTTOCK, 62)
    return (
        f'<path class="f-manila" d="{shape}" fill="{MANILA}"/>'
        + line(body.build.path(fold), "c-edge", EDGE, 1)
        + strap(shape, part.answer, 6)
        + _mark(body, f"M{_BUTTOCK} 68L{_BUTTOCK} 178")
        + words(tx + 14, ty - 4, "buttock", _BUTTOCK_WORD)
        + number_ring(body.build.moves(200, 112), part.number, 10)
    )


_ART: Final = {"roller": _roller, "girth": _girth, "saddle": _saddle, "rug": _rug}


def tack_on_horse(kind: str, part: PartOn, said: Said, body: Body) -> str:
    """Return the horse wearing a roller, a girth, a saddle or a rug.

    Raises:
        KeyError: No picture is drawn of that kind; ``DRAWN`` names those that are.
    """
    art = (
        horse(body.build)
        + line(f"M14 {GROUND_Y}H318", "c-edge", EDGE, 1.4)
        + _ART[kind](part, body)
    )
    return drawn_in(FIELD, art, said)
