"""Which parts each kind of tack has, and how each size of a part is measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

KIND_WORDS: Final = {
    "bit": ("Bits", "One mouthpiece, by its measured length."),
    "bridle": ("Bridles", "Strap by strap, or measured whole."),
    "headcollar": ("Headcollars", "Nose, crown and jowl strap."),
    "cavesson": ("Lungeing cavessons", "Nose, crown and jowl strap."),
    "roller": ("Rollers", "Its strap, shortest and longest."),
    "girth": ("Girths", "Its strap."),
    "saddle": ("Saddles", "Its panel. A fitter has the word on the rest."),
    "rug": ("Rugs", "Its length, chest to tail."),
    "other": ("Other things", "A strap, or nothing to measure."),
}
PARTS_OF_KIND: Final = {
    "bit": ("mouthpiece",),
    "bridle": (
        *("headpiece", "cheekpieces", "browband", "noseband", "throatlash"),
        "whole",
    ),
    "headcollar": ("nose", "crown", "jowl"),
    "cavesson": ("nose", "crown", "jowl"),
    "roller": ("strap",),
    "girth": ("strap",),
    "saddle": ("panel",),
    "rug": ("back_seam",),
    "other": ("strap",),
}
PART_WORDS: Final = {
    "whole": "whole bridle",
    "jowl": "jowl strap",
    "back_seam": "length from chest to tail",
}
# In this order, as one stands: the mouth first, the straps upwards, then the back.
LOOKED_AT_IN_TURN: Final = (
    *("mouthpiece", "cheekpieces", "headpiece", "whole", "crown", "browband"),
    *("noseband", "nose", "throatlash", "jowl", "strap", "panel", "back_seam"),
)
WITHOUT_HOLES: Final = frozenset({"mouthpiece", "browband", "panel", "back_seam"})
SIZES: Final = (
    *("length", "shortest", "longest", "thickness", "ring", "spacing"),
    "strap_width",
)
FINE: Final = frozenset({"thickness", "ring", "spacing", "strap_width"})  # in mm
COUNTS: Final = ("holes", "hole")
CHOICES: Final = ("cheek", "mouthpiece")
MOST_HOLES: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One thing asked of a part: what it is called, and how it is found."""

    key: str
    label: str
    how: str


_LABELS: Final = {
    "length": "Length",
    "shortest": "Shortest",
    "longest": "Longest",
    "thickness": "Thickness",
    "ring": "Ring, inside",
    "spacing": "Hole to hole",
    "strap_width": "Width of the strap",
    "holes": "How many holes",
    "hole": "Hole it was measured on",
    "cheek": "Cheeks",
    "mouthpiece": "Mouthpiece",
    "material": "Material",
}
_USUAL: Final = {
    "spacing": "Middle of one hole to the middle of the next.",
    "strap_width": "Stands in for hole to hole where that is not measured.",
    "holes": "At one end.",
    "hole": "Hole 1 is nearest the tip: the longest.",
    "shortest": "Done up on its tightest hole, round the inside.",
    "longest": "Done up on its loosest hole, round the inside.",
}
_HOW: Final[dict[str, dict[str, str]]] = {
    "mouthpiece": {
        "length": "Laid straight, from cheek to cheek. Never from the label.",
        "thickness": "Just beside the ring: callipers, in millimetres (14 mm).",
        "ring": "Across one ring, inside edge to inside edge.",
        "cheek": "",
        "mouthpiece": "",
        "material": "Steel, rubber, ...",
    },
    "headpiece": {
        "length": "First hole on one end over the top to first hole on the other, never"
        " from point to point.",
        **{key: _USUAL[key] for key in ("holes", "spacing", "strap_width")},
    },
    "cheekpieces": {
        "length": "One side: from the buckle bar to where the bit sits.",
        **{key: _USUAL[key] for key in ("holes", "spacing", "strap_width")},
    },
    "browband": {"length": "Inside of one loop to the inside of the other."},
    "noseband": {key: _USUAL[key] for key in ("shortest", "longest", "holes")}
    | {"spacing": _USUAL["spacing"]},
    "throatlash": {
        "length": "Done up on a middle hole, from headpiece under to headpiece.",
        "holes": _USUAL["holes"],
        "spacing": _USUAL["spacing"],
    },
    "whole": {
        "length": "Where the bit sits, over the top, to where it sits on the other"
        " side: on the hole it is on now.",
        **{key: _USUAL[key] for key in ("hole", "holes", "spacing", "strap_width")},
    },
    "nose": {
        "length": "Round the inside, where it does not let out.",
        **{key: _USUAL[key] for key in ("shortest", "longest", "holes", "spacing")},
    },
    "crown": {
        "shortest": "Ring to ring over the top, on its tightest hole.",
        "longest": "Ring to ring over the top, on its loosest hole.",
        "holes": _USUAL["holes"],
        "spacing": _USUAL["spacing"],
    },
    "jowl": {
        "length": "From ring to ring under the jaw.",
        **{key: _USUAL[key] for key in ("shortest", "longest")},
    },
    "strap": {
        "length": "End to end, where it does not let out.",
        "shortest": "Done up on its tightest holes, with its pad.",
        "longest": "Done up on its loosest holes, with its pad.",
        "holes": _USUAL["holes"],
        "spacing": _USUAL["spacing"],
    },
    "panel": {"length": "Along the underside, front edge to back edge."},
    "back_seam": {
        "length": "Laid flat: from the middle of its front edge at the chest, along one"
        " side, to the tail edge. Rugs are sold by that, but labels differ.",
    },
}
# What a part can be at all (mm); ours. Beyond it the unit is likely another.
_LIMITS: Final = {
    "thickness": (5.0, 40.0),
    "ring": (30.0, 160.0),
    "spacing": (5.0, 80.0),
    "strap_width": (5.0, 120.0),
}
_LENGTH_LIMITS: Final = {
    "mouthpiece": (60.0, 230.0),
    "headpiece": (200.0, 1_200.0),
    "cheekpieces": (60.0, 600.0),
    "browband": (150.0, 700.0),
    "whole": (400.0, 1_600.0),
}
_ANY_LENGTH: Final = (100.0, 3_500.0)


def has_holes(kind: str) -> bool:
    """Whether a kind of tack has a part that does up on holes."""
    return not WITHOUT_HOLES.issuperset(PARTS_OF_KIND[kind])


def part_word(part: str) -> str:
    """Return what a part is called on a page."""
    return PART_WORDS.get(part, part)


def asked_of(part: str) -> tuple[Asked, ...]:
    """Return what is asked of a part, in the order of its page."""
    return tuple(asked_for(part, key) for key in _HOW.get(part, {}))


def asked_for(part: str, key: str) -> Asked:
    """Return one thing asked of a part, usual there or not."""
    how = _HOW.get(part, {}).get(key, _USUAL.get(key, ""))
    return Asked(key=key, label=_LABELS[key], how=how)


def label_of(key: str) -> str:
    """Return what a size is called."""
    return _LABELS[key]


def limits_of(part: str, key: str) -> tuple[float, float]:
    """Return the least and the most a size of a part can be (mm); ours."""
    if key in _LIMITS:
        return _LIMITS[key]
    return _LENGTH_LIMITS.get(part, _ANY_LENGTH)
