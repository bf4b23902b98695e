"""A horse standing to be measured, with a lettered line for each common measure.

Solid: straight, with a stick. Dashed: along or round the body, with a tape or string.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitting.drawings.horse import GROUND_Y, Build, horse
from fitting.drawings.ink import (
    EDGE,
    INK,
    PAPER,
    Face,
    Said,
    figure,
    leather_line,
    line,
)
from fitting.drawings.ink import words as ink_words

_YOUNGSTER: Final = Build(young=0.35, croup=3)
_WIDTH: Final = 2.4
_ROUND: Final = "5 4"
_RING: Final = 9.5
# Letter, its line on the grown drawing, whether the line bends, and the letter's place.
LINES: Final[dict[str, tuple[str, str, str, tuple[float, float]]]] = {
    "withers_height": ("A", "M156 58.5L156 260M149 58.5L163 58.5", "", (155.5, 214)),
    "croup_height": ("B", "M240 60.5L240 260M233 60.5L247 60.5", "", (237, 196)),
    "heart_girth": ("C", "M171 62C166 92 158 122 151 153", _ROUND, (163, 108)),
    "body_length": (
        "D",
        "M97.5 131L299 107M96.7 124L98.3 138M298.2 100L299.8 114",
        "",
        (205, 117.5),
    ),
    "cannon_round": ("E", "M113 219L131 219", "", (90, 219)),
    "head_length": ("F", "M43 89C61 71 76 54 80 28", _ROUND, (46, 44)),
}
LETTERS: Final = {measure: letter for measure, (letter, *_) in LINES.items()}


def _tag(at: tuple[float, float], letter: str) -> str:
    x, y = at
    face = Face(css="strong", fill=INK, anchor="middle", weight=700)
    return (
        f'<circle class="tag-n" cx="{x}" cy="{y}" r="{_RING}" fill="{PAPER}"'
        f' stroke="{INK}" stroke-width="1.5"/>{ink_words(x, y + 4.6, letter, face)}'
    )


def standing(measures: Sequence[str], names: Sequence[str]) -> str:
    """Return the horse with the lines of these measures; others are left out.

    Args:
        measures: the keys of the measures; those that no line is drawn for are passed.
        names: their names, in the same order, for those who cannot see it.
    """
    drawn = [horse(_YOUNGSTER)]
    said = []
    for measure, name in zip(measures, names, strict=True):
        if measure in LINES:
            letter, path, dash, at = LINES[measure]
            bent = _YOUNGSTER.path(path)
            drawn.append(leather_line(bent, _WIDTH, dash) + _tag(at, letter))
            said.append(f"{letter} {name}")
    drawn.append(line(f"M14 {GROUND_Y}H318", "c-edge", EDGE, 1.4))
    alt = Said(
        uid="standing",
        title="A horse standing to be measured, near side",
        desc=f"Lettered lines: {', '.join(said)}. The letters are those of the table.",
    )
    return figure((330, 266), "".join(drawn), alt)
