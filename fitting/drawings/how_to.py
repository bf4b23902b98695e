"""How to measure: the horse or its head, with the one line to take.

Solid: straight, with a stick. Dashed: along or round the body, with a tape or string.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from fitting.drawings import close_up
from fitting.drawings import head as hd
from fitting.drawings.horse import GROUND_Y, Build, horse
from fitting.drawings.ink import EDGE, LEATHER, line

_YOUNGSTER: Final = Build(young=0.35, croup=3)
_WIDTH: Final = 7
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
    return _whole(close_up.HORSE_FIELD, art + measured + ground)


def _on_head(d: str, *, shared: bool) -> str:
    art = '<use href="#art-head"/>' if shared else hd.head()
    measured = line(d, "c-leather", LEATHER, _WIDTH, close_up.ROUND)
    return _whole(close_up.HEAD_FIELD, art + measured)


@cache
def shared_art() -> str:
    """Return the horse and its head once, for pictures that share them on a page."""
    return (
        '<svg width="0" height="0" class="sprite" aria-hidden="true" focusable="false"'
        ' fill="none" stroke-linecap="round" stroke-linejoin="round"><defs>'
        f'<g id="art-horse">{horse(_YOUNGSTER)}</g><g id="art-head">{hd.head()}</g>'
        "</defs></svg>"
    )


def _close_up(measure: str, *, shared: bool) -> str:
    """Return the picture of what no outline shows; nothing where none is drawn."""
    whole = '<use href="#art-horse"/>' if shared else horse(_YOUNGSTER)
    face = '<use href="#art-head"/>' if shared else hd.head()
    match measure:
        case "mouth_width":
            field, art = close_up.MOUTH_FIELD, close_up.mouth()
        case "jaw_gap" | "tongue_thickness":
            field, art = close_up.MOUTH_FIELD, close_up.mouth_cut(measure)
        case "back_width_front" | "back_width_last_rib":
            field = close_up.HORSE_FIELD
            art = close_up.back_cut(measure, _YOUNGSTER, whole)
        case "nose_gap":
            field, art = close_up.HEAD_FIELD, close_up.nose_gap(face)
        case "weight":
            field = close_up.SCALE_FIELD
            art = close_up.on_the_scale(_YOUNGSTER, whole)
        case "condition_score":
            field, art = close_up.HORSE_FIELD, close_up.felt(_YOUNGSTER, whole)
        case _:
            return ""
    return _whole(field, art)


@cache
def how_to(measure: str, *, shared: bool = False) -> str:
    """Return the picture of how a measure is taken; nothing where none is drawn.

    ``shared``: the page holds ``shared_art``, so the horse is not drawn again.
    """
    if measure in _STRAIGHT:
        return _on_horse(_STRAIGHT[measure], "", shared=shared)
    if measure in _ALONG:
        return _on_horse(_ALONG[measure], close_up.ROUND, shared=shared)
    if measure in _HEAD:
        return _on_head(_HEAD[measure], shared=shared)
    return _close_up(measure, shared=shared)
