"""The art of the signs: straps, gates, knots, leaves of a diary, one colour each."""

# ruff: noqa: E501 - a path is one line of coordinates

from __future__ import annotations

from typing import Final

_THREAD: Final = (
    'stroke="currentColor" fill="none" stroke-linecap="round" stroke-linejoin="round"'
)

STRAPS: Final[dict[str, str]] = {
    "good": (  # through the buckle on its middle hole, holes to spare both sides
        '<path fill="currentColor" fill-rule="evenodd" d="M1 7H29.5L35 12L29.5 17H1ZM6 10.2a1.8 1.8 0 1 0 0 3.6a1.8 1.8 0 1 0 0-3.6ZM26.5 10.2a1.8 1.8 0 1 0 0 3.6a1.8 1.8 0 1 0 0-3.6Z"/>'
        '<path class="cut" fill="#FDFCF8" d="M11.6 2h8.8v20h-8.8z"/>'
        '<path d="M12.8 3.2h6.4v17.6h-6.4z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>'
        '<path d="M9 12h10" fill="none" stroke="currentColor" stroke-width="2.6"/>'
    ),
    "watch": (  # in outline, buckled at the very tip
        '<path d="M1.2 7.2H26L31 12L26 16.8H1.2" fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round"/>'
        '<circle cx="7" cy="12" r="1.6" fill="currentColor"/>'
        '<circle cx="14" cy="12" r="1.6" fill="currentColor"/>'
        '<path d="M22.5 2.5h9v19h-9z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>'
    ),
    "no": (  # the strap ends short of the buckle
        '<path fill="currentColor" d="M1 6.5H11L17 12L11 17.5H1Z"/>'
        '<path d="M25 2.5h9v19h-9z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>'
        '<path d="M19.2 4.5v15" stroke="currentColor" stroke-width="2" stroke-dasharray="2.2 2.4"/>'
    ),
    "unknown": (  # a dotted outline, nothing buckled
        '<path d="M1.5 7H29L34 12L29 17H1.5Z" fill="none" stroke="currentColor" stroke-width="1.8" stroke-dasharray="2.4 2.6" stroke-linejoin="round"/>'
    ),
}
GATES: Final[dict[str, str]] = {
    "met": (  # the leaf swung right back
        '<path d="M4 3v18M32 3v18" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>'
        '<path d="M4 6.5L11 3.5M4 11L11 9.6M4 15L11 15.8M4 18.8L11 21.5M11 2.5v20" fill="none" stroke="currentColor" stroke-width="1.9" stroke-linecap="round"/>'
    ),
    "caution": (  # two rails, with a note tied on
        '<path d="M4 3v18M32 3v18" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>'
        '<path d="M4 7H32M4 17H11M25 17H32" stroke="currentColor" stroke-width="1.9"/>'
        '<path d="M18 7v3M12 10h12v10H12z" fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round"/>'
        '<path d="M14.8 13.6h6.4M14.8 16.6h4.4" stroke="currentColor" stroke-width="1.5"/>'
    ),
    "shut": (  # five bars and a brace
        '<path d="M4 3v18M32 3v18" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>'
        '<path d="M4 5.6H32M4 9.4H32M4 13.2H32M4 17.4H32M5 17.2L31 5.8" stroke="currentColor" stroke-width="1.9"/>'
    ),
    "unknown": (  # posts, and no gate seen
        '<path d="M4 3v18M32 3v18" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>'
        '<path d="M8.5 8.5H28M8.5 15.5H28" stroke="currentColor" stroke-width="1.9" stroke-dasharray="2.2 2.9"/>'
    ),
}
KNOTS: Final[dict[str, str]] = {
    "waiting": (  # a bead on a dotted string
        f'<path d="M12 0v36" {_THREAD} stroke-width="1.6" stroke-dasharray=".1 4"/>'
        '<circle cx="12" cy="18" r="3" class="cut" fill="#FDFCF8" stroke="currentColor" stroke-width="1.6"/>'
    ),
    "open": (  # a loop laid ready
        f'<path d="M12 0V11C12 18 21.5 15 21.5 20.5C21.5 26 12 24 12 17" {_THREAD} stroke-width="2"/>'
        f'<path d="M12 17v4" {_THREAD} stroke-width="2"/>'
        f'<path d="M12 22v14" {_THREAD} stroke-width="1.6" stroke-dasharray=".1 4"/>'
    ),
    "underway": (  # a knot half tied
        f'<path d="M12 0V8C12 14 3 13 3 19.5C3 26 21 26 21 19.5C21 13 12 14 12 22V25" {_THREAD} stroke-width="2.6"/>'
        f'<path d="M12 28v8" {_THREAD} stroke-width="1.6" stroke-dasharray=".1 4"/>'
    ),
    "settled": (  # a tight knot
        f'<path d="M12 0v36" {_THREAD} stroke-width="2.6"/>'
        '<path d="M4.5 14.5C4.5 10.5 8.5 9.6 12 12C15.5 9.6 19.5 10.5 19.5 14.5C19.5 16.6 18.4 17.4 17.6 18C18.4 18.6 19.5 19.4 19.5 21.5C19.5 25.5 15.5 26.4 12 24C8.5 26.4 4.5 25.5 4.5 21.5C4.5 19.4 5.6 18.6 6.4 18C5.6 17.4 4.5 16.6 4.5 14.5Z" fill="currentColor"/>'
        '<path class="cutl" d="M7.6 21.6L16.4 14.4" stroke="#FDFCF8" stroke-width="1.7" stroke-linecap="round"/>'
    ),
    "refresh": (  # the knot worked loose
        f'<path d="M12 0v12M12 24v12" {_THREAD} stroke-width="2.6"/>'
        f'<path d="M12 12C6 9 2.5 13 4.5 16.5C6 19 10 18 12 18C14 18 18 17 19.5 19.5C21.5 23 18 27 12 24" {_THREAD} stroke-width="2.6"/>'
        f'<path d="M12 12C18 9 21.5 12.5 19.5 16M12 24C6 27 2.5 23.5 4.5 20" {_THREAD} stroke-width="1.8" stroke-dasharray="2.2 2.6"/>'
    ),
    "aside": (  # the string cut, its ends frayed
        f'<path d="M12 0v9M12 27v9" {_THREAD} stroke-width="2"/>'
        f'<path d="M12 9l-3.4 4M12 9l3.4 4M12 27l-3.4-4M12 27l3.4-4" {_THREAD} stroke-width="1.6"/>'
    ),
}
_LEAF: Final = 'd="M5 5.5H19V21.5H5Z" stroke="currentColor" stroke-linejoin="round"'
_PEG: Final = '<circle cx="12" cy="4" r="2.4" fill="currentColor"/>'
LEAVES: Final[dict[str, str]] = {
    "likely": (  # a leaf pencilled in
        f'<path {_LEAF} fill="none" stroke-width="1.9" stroke-dasharray="2.3 2.6"/>'
    ),
    "set": (  # a blank leaf on its peg
        f'<path {_LEAF} fill="none" stroke-width="2"/>{_PEG}'
    ),
    "due": (  # a leaf written full
        f'<path {_LEAF} fill="currentColor" stroke-width="2"/>'
        '<path class="cutl" d="M8 10H16M8 13.5H16M8 17H13" stroke="#FDFCF8" stroke-width="1.7"/>'
    ),
    "overdue": (  # a full leaf that slips from its peg
        f'<g transform="rotate(24 12 4)"><path {_LEAF} fill="currentColor" stroke-width="2"/>'
        '<path class="cutl" d="M8 10H16M8 13.5H16M8 17H13" stroke="#FDFCF8" stroke-width="1.7"/></g>'
        f"{_PEG}"
    ),
    "done": (  # ticked, beyond its edge
        f'<path {_LEAF} fill="none" stroke-width="1.6"/>'
        '<path d="M7.5 13.5L11 17.5L21.5 5.5" fill="none" stroke="currentColor" stroke-width="2.8" stroke-linecap="round" stroke-linejoin="round"/>'
    ),
    "went": (  # struck through
        f'<path {_LEAF} fill="none" stroke-width="1.6"/>'
        '<path d="M2.5 20.5L21.5 6.5" stroke="currentColor" stroke-width="2.2" stroke-linecap="round"/>'
    ),
}
