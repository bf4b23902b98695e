"""How to measure: the horse or its head, with the one line to take.

Solid: straight, with a stick. Dashed: along or round the body, with a tape or string.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from fitting.drawings import head as hd
from fitting.drawings.horse import GROUND_Y, Build, horse
from fitting.drawings.ink import COAT, EDGE, INK, LEATHER, line

_YOUNGSTER: Final = Build(young=0.35, croup=3)
_WIDTH: Final = 7
_ROUND: Final = "12 9"
# Straight lines on the grown drawing; they bend with the build.
_STRAIGHT: Final[dict[str, str]] = {
    "withers_height": "M156 58.5L156 260M142 58.5L170 58.5",
    "croup_height": "M240 60.5L240 260M226 60.5L254 60.5",
    "body_length": "M97.5 131L299 107M96.7 122L98.3 140M298.2 98L299.8 116",
}
_ALONG: Final[dict[str, str]] = {
    "heart_girth": "M171 63C166 92 158 122 151 155",
    "girth_path": "M178 104C174 124 169 142 165 156",
    "cannon_round": "M113 216L133 216",
    "rug_length": "M97.5 125C150 118 250 104 299 104",
    "back_length": "M168 62C181 67 196 69.5 219 65.5",
}
_HEAD: Final[dict[str, str]] = {
    "head_length": hd.through(
        (0.868, -0.048), (0.60, -0.06), (0.30, -0.065), (0.08, -0.085), (-0.03, -0.06)
    ),
    "brow": hd.through((0.078, -0.090), (0.105, -0.01), (0.128, 0.07), (0.155, 0.156)),
    "nose_round": hd.through(
        (0.618, 0.122), (0.634, 0.05), (0.630, -0.05), (0.598, -0.162)
    ),
    "throat_round": hd.through(
        (0.02, -0.105), (0.12, -0.185), (0.22, -0.285), (0.29, -0.365)
    ),
}


def _whole(box: str, art: str) -> str:
    """Return a picture; the words beside it say the same, so it is silent."""
    return (
        f'<svg class="how" viewBox="{box}" aria-hidden="true" focusable="false"'
        f' fill="none" stroke-linecap="round" stroke-linejoin="round">{art}</svg>'
    )


def _on_horse(d: str, dash: str, *, shared: bool) -> str:
    measured = line(_YOUNGSTER.path(d), "c-leather", LEATHER, _WIDTH, dash)
    ground = line(f"M10 {GROUND_Y}H320", "c-edge", EDGE, 3)
    art = '<use href="#art-horse"/>' if shared else horse(_YOUNGSTER)
    return _whole("0 0 330 270", art + measured + ground)


def _on_head(d: str, *, shared: bool) -> str:
    art = '<use href="#art-head"/>' if shared else hd.head()
    measured = line(d, "c-leather", LEATHER, _WIDTH, _ROUND)
    return _whole("40 -14 420 350", art + measured)


@cache
def shared_art() -> str:
    """Return the horse and its head once, for pictures that share them on a page."""
    return (
        '<svg width="0" height="0" class="sprite" aria-hidden="true" focusable="false"'
        ' fill="none" stroke-linecap="round" stroke-linejoin="round"><defs>'
        f'<g id="art-horse">{horse(_YOUNGSTER)}</g><g id="art-head">{hd.head()}</g>'
        "</defs></svg>"
    )


def _mouth() -> str:
    """Return the mouth from the front: a dowel through the lips, a mark each side."""
    muzzle = (
        "M43 2C42 26 32 44 31 66C30 92 48 112 75 112C102 112 120 92 119 66"
        "C118 44 108 26 107 2"
    )
    nostrils = (
        "M45 68C41 60 46 50 54 50C60 51 61 59 56 65"
        "M105 68C109 60 104 50 96 50C90 51 89 59 94 65"
    )
    dowel = "M8 86H36M114 86H142"
    shape = (
        f'<path class="h-body" d="{muzzle}" fill="{COAT}" stroke="{INK}"'
        ' stroke-width="2.2"/>'
    )
    art = (
        shape,
        line(nostrils, "h-line", INK, 2.2),
        line("M38 87C54 95 96 95 112 87", "h-line", INK, 1.8),
        line("M75 70V80M58 103C68 107 82 107 92 103", "h-soft", EDGE, 1.4),
        line(dowel, "c-ink", INK, 9),
        line(dowel, "c-leather", LEATHER, 5.6),
        line("M33 76V98M117 76V98", "c-ink", INK, 2),
    )
    return _whole("0 0 150 118", "".join(art))


@cache
def how_to(measure: str, *, shared: bool = False) -> str:
    """Return the picture of how a measure is taken; nothing where none is drawn.

    ``shared``: the page holds ``shared_art``, so the horse is not drawn again.
    """
    if measure in _STRAIGHT:
        return _on_horse(_STRAIGHT[measure], "", shared=shared)
    if measure in _ALONG:
        return _on_horse(_ALONG[measure], _ROUND, shared=shared)
    if measure in _HEAD:
        return _on_head(_HEAD[measure], shared=shared)
    return _mouth() if measure == "mouth_width" else ""
