"""What is said beside the growth chart of a measure: where its curve comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthNote:
    """A note in the margin of a chart, and its source."""

    said: str
    source: str


def _borrowed(what: str, of: str) -> GrowthNote:
    return GrowthNote(
        said=f"No growth curve of the {what} is published: this one, borrowed from"
        f" {of}, is",
        source="ours",
    )


_ICELANDIC: Final = GrowthNote(
    said="Its curve is that of Icelandic horses, for every type alike.",
    source="Radunautafundur, 1994",
)

# Said of a horse that lives out, beside what the season moves.
LIVES_OUT: Final = (
    "Living out, a youngster is fullest in autumn and leanest in spring, so a winter"
    " dip is drawn as expected (Sveinsson, 1993). A loss beyond the band is one to ask"
    " the vet about."
)
SEASONAL: Final = frozenset({"heart_girth", "girth_path", "weight"})

# Which curve is whose: as beside each line of ``follows`` in ``curves.toml``.
NOTES: Final = {
    "withers_height": GrowthNote(
        said="Two heights closer than 1.1 cm, by one person, are never called growth.",
        source="Lamas and others, 2007",
    ),
    "croup_height": _ICELANDIC,
    "heart_girth": _ICELANDIC,
    "body_length": _ICELANDIC,
    "cannon_round": _ICELANDIC,
    "head_length": _borrowed("head", "height"),
    "brow": _borrowed("brow", "height"),
    "nose_round": _borrowed("nose", "height"),
    "throat_round": _borrowed("throat", "height"),
    "jaw_gap": _borrowed("jaw", "height"),
    "tongue_thickness": _borrowed("tongue", "height"),
    "mouth_width": _borrowed("mouth", "height"),
    "back_length": _borrowed("back", "body length"),
    "back_width_front": _borrowed("back's width", "body length"),
    "back_width_last_rib": _borrowed("back's width", "body length"),
    "rug_length": _borrowed("rug's line", "body length"),
    "girth_path": _borrowed("girth's path", "heart girth"),
    "weight": GrowthNote(
        said="A weigh tape errs by 6 in a hundred, a formula by 10, the eye by 20.",
        source="Ellis and Hollands, 1998",
    ),
    "condition_score": GrowthNote(
        said="Condition does not grow, so no band is drawn. Ask the vet about anything"
        " under 4 or over 6. Where the vet is asked is",
        source="ours",
    ),
    "nose_gap": GrowthNote(
        said="This is room under a noseband, not a size that grows: no band is drawn."
        " Under 17 mm is too tight for the stewards' measure.",
        source="FEI, 2025",
    ),
}
