"""Bits by their outline, laid flat: cheeks by kind, mouthpiece by kind.

Drawn from the left and mirrored; the mouthpiece lies between x 45 and 255, at y 60.
What is not written down is dotted.
"""

from __future__ import annotations

from typing import Final

from fitting.drawings.ink import (
    INK,
    LEATHER,
    PAPER,
    Face,
    Said,
    figure,
    line,
    words,
)

WIDE: Final = 360
HIGH: Final = 144
FIELD: Final = f"0 0 {WIDE} {HIGH}"
CHEEK_FIELD: Final = "0 0 150 120"
_SHIFT: Final = 'transform="translate(30 0)"'
_MIRRORED: Final = '<g transform="translate(300 0) scale(-1 1)">'
_RING: Final = 6.5  # thickness of the wire
_OUTLINE: Final = 2.4
_DOTS: Final = "1 7"

# Each cheek as wires (outlined strokes), then one solid piece over them.
_WIRES: Final[dict[str, tuple[str, ...]]] = {
    "loose_ring": ("M46 60A34 34 0 1 1 -22 60A34 34 0 1 1 46 60Z",),
    "eggbutt": ("M41 38C30 24 8 22 -6 36C-20 50 -20 70 -6 84C8 98 30 96 41 82",),
    "dee": ("M42 26C4 20 -22 36 -22 60C-22 84 4 100 42 94Z",),
    "full_cheek": ("M42 44C30 30 4 34 0 60C4 86 30 90 42 76",),
    "hanging_cheek": (
        "M46 24C58 24 58 4 46 4C34 4 34 24 46 24Z",
        "M43 50C26 44 2 54 2 78C2 102 40 106 43 70",
    ),
}
_PIECES: Final[dict[str, str]] = {
    "loose_ring": "M38 50C46 46 56 50 60 52V68C56 70 46 74 38 70C35 64 35 56 38 50Z",
    "eggbutt": "M36 36C42 32 48 36 49 42C51 50 56 52 60 52V68C56 68 51 70 49 78"
    "C48 84 42 88 36 84C41 72 41 48 36 36Z",
    "dee": "M38 24H48V48C50 51 56 52 60 52V68C56 68 50 69 48 72V96H38Z",
    "full_cheek": "M42 3C44 1 46 1 48 3L50 46C52 51 56 52 60 52V68C56 68 52 69 50 74"
    "L48 117C46 119 44 119 42 117L40 74V46Z",
    "hanging_cheek": "M42 24H50V46C52 51 56 52 60 52V68C56 68 52 70 50 74"
    "C48 78 44 78 40 76V48Z",
}
_ARM: Final = "M58 51C90 53 118 58 {x} 62A5.5 5.5 0 0 1 {x} 73C112 72 86 69 58 69Z"
_BARS: Final = {
    "straight_bar": "M58 52H242V68H58Z",
    "mullen": "M58 52C100 38 200 38 242 52V68C200 54 100 54 58 68Z",
}
_KEYS: Final = (
    "M140 76C134 82 130 96 133 104C137 108 143 104 143 98L146 78Z",
    "M147 79L145 106C147 111 153 111 155 106L153 79Z",
    "M160 76C166 82 170 96 167 104C163 108 157 104 157 98L154 78Z",
)


def _solid(d: str) -> str:
    return (
        f'<path class="f-paper c-ink" d="{d}" fill="{PAPER}" stroke="{INK}"'
        f' stroke-width="{_OUTLINE}"/>'
    )


def _wire(d: str) -> str:
    """Return a bent wire: ink with paper inside."""
    inside = _RING - _OUTLINE / 2
    return line(d, "c-ink", INK, _RING + _OUTLINE) + line(d, "c-paper", PAPER, inside)


def _eye(x: float, y: float) -> str:
    return _wire(f"M{x - 6} {y}a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z")


def _cheek(cheek: str) -> str:
    """Return the cheek of the left side; a dotted ring where it is not known."""
    if cheek not in _WIRES:
        ring = "M44 60A30 30 0 1 1 -16 60A30 30 0 1 1 44 60Z"
        return line(ring, "c-ink", INK, _OUTLINE, _DOTS)
    wires = "".join(_wire(d) for d in _WIRES[cheek])
    return wires + _solid(_PIECES[cheek])


def _both(left: str) -> str:
    return f"{left}{_MIRRORED}{left}</g>"


def _mouthpiece(mouthpiece: str) -> str:
    """Return what lies in the mouth; dotted where it is not known."""
    match mouthpiece:
        case "single_jointed":
            arms = _both(_solid(_ARM.format(x=138)))
            return f"{arms}{_eye(145, 67.5)}{_eye(155, 67.5)}"
        case "double_jointed":
            arms = _both(_solid(_ARM.format(x=112)) + _eye(119, 67.5))
            return arms + _solid(
                "M124 67.5C130 58 170 58 176 67.5C170 77 130 77 124 67.5Z"
            )
        case "with_keys":
            keys = "".join(_solid(d) for d in _KEYS)
            return _solid(_BARS["straight_bar"]) + keys + _eye(150, 74)
        case "straight_bar" | "mullen":
            return _solid(_BARS[mouthpiece])
    return line("M58 52H242M58 68H242", "c-ink", INK, _OUTLINE, _DOTS)


def outline(cheek: str, mouthpiece: str) -> str:
    """Return a bit's art in ``FIELD``, without its frame."""
    return f"<g {_SHIFT}>{_mouthpiece(mouthpiece)}{_both(_cheek(cheek))}</g>"


def bit(cheek: str, mouthpiece: str, said: Said, length: str = "") -> str:
    """Return a bit with its length between the cheeks; ``length`` as it is shown."""
    art = outline(cheek, mouthpiece)
    if length:
        size = "M79.5 134H146M215 134H281.5M79.5 127V141M281.5 127V141"
        face = Face(size=15, fill=INK, css="strong", anchor="middle")
        art += line(size, "c-leather", LEATHER, 2.4) + words(180, 139, length, face)
    return figure((WIDE, HIGH), art, said, "bit")


def _small(field: str, art: str) -> str:
    """Return a picture for a choice; its word stands beside it, so it is silent."""
    return (
        f'<svg class="bit-kind" viewBox="{field}" aria-hidden="true"'
        ' focusable="false" fill="none" stroke-linecap="round"'
        f' stroke-linejoin="round">{art}</svg>'
    )


def cheek_picture(cheek: str) -> str:
    """Return one kind of cheek, for the choice of kinds."""
    stub = line("M58 52H118M58 68H118", "c-ink", INK, _OUTLINE)
    return _small(CHEEK_FIELD, f"<g {_SHIFT}>{stub}{_cheek(cheek)}</g>")


def mouthpiece_picture(mouthpiece: str) -> str:
    """Return one kind of mouthpiece, for the choice of kinds."""
    ends = _both(line("M58 52V68", "c-ink", INK, _OUTLINE))
    return _small("50 30 200 82", _mouthpiece(mouthpiece) + ends)
