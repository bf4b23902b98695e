"""Answers of fit, by chance: shared by every rule of tack."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Literal

from fitting.age import Foaled
from fitting.body import HorseType, Standing
from fitting.growth import Growth
from fitting.tryons import TryOn


class Answer(StrEnum):
    """How a part sits: never good from missing facts."""

    GOOD = "good"
    WATCH = "watch"
    NO = "no"
    NOT_KNOWN = "not_known"


Cheek = Literal["eggbutt", "dee", "full_cheek", "hanging_cheek", "loose_ring"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of an item of tack; lengths in millimetres.

    ``part`` is the yard file's word: mouthpiece, headpiece, cheekpieces, browband,
    noseband, throatlash, whole, crown, nose, jowl, strap, panel, back_seam.
    """

    part: str
    length_mm: float | None = None
    shortest_mm: float | None = None
    longest_mm: float | None = None
    thickness_mm: float | None = None
    cheek: Cheek | None = None
    mouthpiece: str = ""
    material: str = ""
    ring_mm: float | None = None
    holes: int | None = None
    spacing_mm: float | None = None
    strap_width_mm: float | None = None
    hole: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tack:
    """One item on a peg."""

    name: str
    kind: str
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeUp:
    """A bridle made up from parts with its bit: slot (a part's word, or bit) -> item."""

    name: str
    parts: tuple[tuple[str, Tack], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """The horse as the rules of tack see it on a day."""

    name: str
    horse_type: HorseType
    foaled: Foaled
    grown: bool
    growth: Growth
    standing: tuple[tuple[str, Standing], ...]
    tryons: tuple[TryOn, ...] = ()
    clearances: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What is known of one part on one horse on one day.

    ``good_until`` is the first day on which the answer is no longer good; None if it
    is not good now, or stays good as far as is looked (``looked_until``).
    """

    item: str
    kind: str
    part: str
    answer: Answer
    why: str
    chance_no: float | None = None
    good_until: date | None = None
    looked_until: date | None = None
    hole: int | None = None
    spare_longer: int | None = None
    spare_shorter: int | None = None
    ask: str = ""
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    rests_on: str = ""
    stale: bool = False
    disagrees: str = ""


def fits(
    wearer: Wearer, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], on: date
) -> tuple[Finding, ...]:
    """Return a finding for every part of every item, then for every made-up set."""
    raise NotImplementedError
