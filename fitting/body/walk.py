"""One walk round the horse: where to stand, and what is measured from there."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Final

from fitting.body.measures import measure_by_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """One place of the walk: its name, where to stand, and what is measured there."""

    title: str
    stand: str
    measures: tuple[str, ...]


# The order and where to stand: common practice of handling, no published source.
STOPS: Final = (
    Stop(
        title="In front of the head",
        stand="Stand beside the nose, never straight before it, with somebody at the"
        " headcollar.",
        measures=("mouth_width", "brow", "nose_gap"),
    ),
    Stop(
        title="Near side of the head",
        stand="Stand at the near shoulder, facing the head.",
        measures=("head_length", "nose_round", "throat_round"),
    ),
    Stop(
        title="Shoulder and withers",
        stand="Stand beside the near shoulder, and let the horse look at the stick"
        " first.",
        measures=("withers_height",),
    ),
    Stop(
        title="Barrel",
        stand="Stand close in at the girth; reach under with the arm, the head above"
        " the belly.",
        measures=("heart_girth", "weight", "girth_path"),
    ),
    Stop(
        title="Back",
        stand="Stand beside the barrel, near side, where the whole back can be seen.",
        measures=(
            *("back_length", "back_width_front", "back_width_last_rib"),
            *("body_length", "rug_length"),
        ),
    ),
    Stop(
        title="Croup",
        stand="Stand beside the hip with a hand on it, never straight behind.",
        measures=("croup_height", "condition_score"),
    ),
    Stop(
        title="Legs",
        stand="Bend down beside the near foreleg; never kneel or sit there.",
        measures=("cannon_round",),
    ),
    Stop(
        title="At a visit",
        stand="Not for the keeper: the vet or the qualified dental technician measures"
        " inside the mouth.",
        measures=("jaw_gap", "tongue_thickness"),
    ),
)
# How each is taken, for the sheet that is filled in by hand.
IN_SHORT: Final = {
    "withers_height": "stick, straight up to the highest point of the withers",
    "croup_height": "stick, straight up to the highest point of the croup",
    "heart_girth": "tape behind the elbows, over the back of the withers, breath out",
    "body_length": "point of the shoulder to point of the buttock, in a straight line",
    "cannon_round": "tape round the foreleg, midway between knee and fetlock",
    "head_length": "corner of the mouth, over the poll, to the other corner",
    "brow": "from browband loop to browband loop, across the forehead",
    "nose_round": "round the nose, two fingers below the facial crest",
    "throat_round": "base of one ear, round the throat, to base of the other",
    "mouth_width": "where the bit lies, lips loose, just outside each corner",
    "jaw_gap": "by vet or dental technician, between the jaws where the bit lies",
    "tongue_thickness": "by vet or dental technician, at rest where the bit lies",
    "back_length": "two fingers behind the shoulder blade to the last rib",
    "back_width_front": "curve two fingers behind the shoulder blade, across it a hand"
    " below the top",
    "back_width_last_rib": "curve at the last rib, across it a hand below the top",
    "girth_path": "middle hole to middle hole, under the belly, with the pad on",
    "rug_length": "centre of the chest along the side to point of the buttock",
    "nose_gap": "gauge under the noseband at the front, not forced",
    "weight": "scale if there is one, else weigh tape; say which",
    "condition_score": "look and feel, from 1 (very thin) to 9 (very fat)",
}


def in_walk(wanted: Collection[str]) -> tuple[Stop, ...]:
    """Return the stops at which any of the wanted measures is taken, with those only.

    Raises:
        UnknownMeasureError: There is no such measure.
    """
    for key in wanted:
        measure_by_key(key)
    kept = (
        Stop(
            title=stop.title,
            stand=stop.stand,
            measures=tuple(key for key in stop.measures if key in wanted),
        )
        for stop in STOPS
    )
    return tuple(stop for stop in kept if stop.measures)
