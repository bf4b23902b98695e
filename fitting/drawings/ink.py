"""Colours, words and small marks that every drawing shares.

Colours stand as presentation attributes, so that a drawing is whole without a
stylesheet; the classes let the stylesheet recolour it for slate and for print.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import Final, Literal

INK: Final = "#182430"
SOFT: Final = "#4B5966"
LEATHER: Final = "#7B3F14"
PAPER: Final = "#FDFCF8"
FEINT: Final = "#CFDCE2"
BAND: Final = "#EBD6BE"
MANILA: Final = "#F3E3C7"
MARGIN: Final = "#D3A27B"
EDGE: Final = "#6F7F8B"
COAT: Final = "#F4E9DA"
COAT_FAR: Final = "#E2DACD"

Anchor = Literal["start", "middle", "end"]
Role = Literal["img", "group"]

_HALO: Final = (
    f' stroke="{PAPER}" stroke-width="4" paint-order="stroke" stroke-linejoin="round"'
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """How words of a drawing look; ``halo``: they cross a band or a line."""

    size: int = 13
    fill: str = SOFT
    css: str = ""
    anchor: Anchor = "start"
    weight: int = 400
    halo: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a drawing says to those who cannot see it; ``uid`` is unique on the page."""

    uid: str
    title: str
    desc: str
    role: Role = "img"


def words(x: float, y: float, text: str, face: Face) -> str:
    """Return words at a point, escaped."""
    css = " ".join(filter(None, ("t", face.css, "halo" if face.halo else "")))
    weight = f' font-weight="{face.weight}"' if face.weight != Face().weight else ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" class="{css}" font-size="{face.size}"'
        f' fill="{face.fill}" text-anchor="{face.anchor}"{weight}'
        f"{_HALO if face.halo else ''}>{escape(text)}</text>"
    )


def line(d: str, css: str, colour: str, width: float, dash: str = "") -> str:
    """Return a stroked path; ``dash`` as in stroke-dasharray."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<path class="{css}" d="{d}" stroke="{colour}"'
        f' stroke-width="{width}"{dashed}/>'
    )


def ink_line(d: str, width: float = 1.2) -> str:
    """Return a line in ink."""
    return line(d, "c-ink", INK, width)


def leather_line(d: str, width: float = 2, dash: str = "") -> str:
    """Return a line in leather."""
    return line(d, "c-leather", LEATHER, width, dash)


def figure(size: tuple[int, int], body: str, said: Said, css: str = "") -> str:
    """Return a whole drawing with its title and its description."""
    width, height = size
    return (
        f'<svg class="{css}" viewBox="0 0 {width} {height}" role="{said.role}"'
        f' aria-labelledby="{said.uid}-t {said.uid}-d" fill="none"'
        ' stroke-linecap="round" stroke-linejoin="round">'
        f'<title id="{said.uid}-t">{escape(said.title)}</title>'
        f'<desc id="{said.uid}-d">{escape(said.desc)}</desc>{body}</svg>'
    )
