"""How to measure what no outline shows: sections through mouth and back, the gauge.

Each is art without its frame; the field it is drawn in stands beside it.
"""

from __future__ import annotations

from typing import Final

from fitting.drawings import head as hd
from fitting.drawings.horse import GROUND_Y, Build
from fitting.drawings.ink import BAND, COAT, EDGE, INK, LEATHER, PAPER, line

MOUTH_FIELD: Final = "0 0 150 118"
HORSE_FIELD: Final = "0 0 330 270"
SCALE_FIELD: Final = "0 0 330 282"
HEAD_FIELD: Final = "40 -14 420 350"
ROUND: Final = "12 9"
_MUZZLE: Final = (
    "M43 2C42 26 32 44 31 66C30 92 48 112 75 112C102 112 120 92 119 66"
    "C118 44 108 26 107 2"
)
_NOSTRILS: Final = (
    "M45 68C41 60 46 50 54 50C60 51 61 59 56 65"
    "M105 68C109 60 104 50 96 50C90 51 89 59 94 65"
)
# The mouth cut across where the bit lies: head, hollow, tongue.
_CUT: Final = "M18 6C10 40 12 90 40 105C60 115 90 115 110 105C138 90 140 40 132 6"
_HOLLOW: Final = (
    "M30 48C40 24 110 24 120 48C124 66 120 82 110 86C102 88 98 84 94 91L56 91"
    "C52 84 48 88 40 86C30 82 26 66 30 48Z"
)
_TONGUE: Final = "M54 91C48 66 58 52 75 52C92 52 102 66 96 91Z"
_IN_THE_MOUTH: Final = {
    "jaw_gap": "M109 42V86M100 40.5H118M100 87H118",
    "tongue_thickness": "M75 52V91M64 52H86M64 91H86",
}
# The back cut across, seen from behind: outline, curve laid over it, width across it,
# and where on the side view it is taken.
_BACKS: Final = {
    "back_width_front": (
        "M24 116C28 78 54 40 66 26C70 20 80 20 84 26C96 40 122 78 126 116",
        "M39.5 74C48 56 58 38 66 26C70 20 80 20 84 26C92 38 102 56 110.5 74",
        "M40 74H110M40 64V84M110 64V84",
        "M171 60C170 70 168 82 165 96",
    ),
    "back_width_last_rib": (
        "M12 116C12 74 38 40 64 32C70 30 80 30 86 32C112 40 138 74 138 116",
        "M21.5 74C30 54 46 38 64 32C70 30 80 30 86 32C104 38 120 54 128.5 74",
        "M22 74H128M22 64V84M128 64V84",
        "M219 63C219 74 218 86 216 100",
    ),
}
# Where hand and eye go for the score of condition, on the grown drawing.
_FELT: Final = ((112, 84), (156, 70), (126, 112), (192, 112), (219, 77), (273, 84))


def _shape(d: str, css: str, fill: str, width: float) -> str:
    return (
        f'<path class="{css}" d="{d}" fill="{fill}" stroke="{INK}"'
        f' stroke-width="{width}"/>'
    )


def mouth() -> str:
    """Return the mouth from the front: a dowel through the lips, a mark each side."""
    dowel = "M8 86H36M114 86H142"
    art = (
        _shape(_MUZZLE, "h-body", COAT, 2.2),
        line(_NOSTRILS, "h-line", INK, 2.2),
        line("M38 87C54 95 96 95 112 87", "h-line", INK, 1.8),
        line("M75 70V80M58 103C68 107 82 107 92 103", "h-soft", EDGE, 1.4),
        line(dowel, "c-ink", INK, 9),
        line(dowel, "c-leather", LEATHER, 5.6),
        line("M33 76V98M117 76V98", "c-ink", INK, 2),
    )
    return "".join(art)


def mouth_cut(measure: str) -> str:
    """Return the mouth cut across, with the line of ``jaw_gap`` or of the tongue.

    Raises:
        KeyError: the measure is not taken inside the mouth.
    """
    art = (
        _shape(_CUT, "h-body", COAT, 2.2),
        _shape(_HOLLOW, "f-paper c-ink", PAPER, 1.8),
        _shape(_TONGUE, "f-band c-ink", BAND, 1.8),
        line(_IN_THE_MOUTH[measure], "c-leather", LEATHER, 4.6),
    )
    return "".join(art)


def back_cut(measure: str, build: Build, small_horse: str) -> str:
    """Return the back cut across, over a small horse that shows where.

    Args:
        measure: one of the two widths of the back.
        build: how the small horse is built.
        small_horse: its art, in a field of 330 by 270.

    Raises:
        KeyError: the measure is no width of the back.
    """
    outline, curve, width, place = _BACKS[measure]
    there = line(build.path(place), "c-leather", LEATHER, 11)
    cut = (
        _shape(outline, "h-body", COAT, 2),
        line(curve, "c-leather", LEATHER, 5, "8 7"),
        line(width, "c-leather", LEATHER, 4.4),
    )
    return (
        f'<g transform="translate(-4 104) scale(.62)">{small_horse}{there}</g>'
        f'<g transform="translate(156 -14) scale(1.16)">{"".join(cut)}</g>'
    )


def nose_gap(head: str) -> str:
    """Return the gauge slid under the noseband, at the front of the nose."""
    band = hd.through((0.600, 0.130), (0.618, 0.05), (0.612, -0.05), (0.576, -0.176))
    gauge = hd.through((0.36, 0.205), (0.52, 0.145), (0.68, 0.122))
    art = (
        line(gauge, "c-ink", INK, 17),
        line(gauge, "c-leather", LEATHER, 12),
        line(band, "c-ink", INK, 17),
        line(band, "c-paper", PAPER, 12),
    )
    return head + "".join(art)


def on_the_scale(build: Build, whole: str) -> str:
    """Return a horse on a weighbridge, with the line of a weigh tape."""
    tape = build.path("M171 63C166 92 158 122 151 155")
    ground = GROUND_Y + 6
    return (
        whole
        + line(tape, "c-leather", LEATHER, 7, ROUND)
        + line(f"M64 {ground}H322", "c-leather", LEATHER, 11)
        + line(f"M10 {ground + 9}H328", "c-edge", EDGE, 3)
    )


def felt(build: Build, whole: str) -> str:
    """Return a horse with a ring on each place that is looked at and felt."""
    rings = "".join(
        f'<circle class="c-leather" cx="{x:.1f}" cy="{y:.1f}" r="10"'
        f' stroke="{LEATHER}" stroke-width="6"/>'
        for x, y in (build.moves(*place) for place in _FELT)
    )
    return whole + rings + line(f"M10 {GROUND_Y}H320", "c-edge", EDGE, 3)
