"""What was seen when tack was held against a horse, or put on."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final, Literal

from fitting.age import Foaled, months_old
from fitting.body import stands_days

if TYPE_CHECKING:
    from collections.abc import Iterator

Seen = Literal["sits_right", "too_short", "too_long", "wrong_place", "rubs"]
Verdict = Literal[Seen, "only_just", "no"]
How = Literal["held", "worn"]

# Ours: tack on a foal under six months is looked at every day, so a try-on stands
# that long (an article on foal headcollars asks for the daily look).
FOAL_STANDS_DAYS: Final = 1

# The measure of the body each part goes by; straps and panels by the kind of tack.
BODY_OF_PART: Final = {
    "mouthpiece": "mouth_width",
    "headpiece": "head_length",
    "cheekpieces": "head_length",
    "whole": "head_length",
    "crown": "head_length",
    "browband": "brow",
    "noseband": "nose_round",
    "nose": "nose_round",
    "throatlash": "throat_round",
    "jowl": "throat_round",
    "strap": "heart_girth",
    "panel": "back_length",
    "back_seam": "rug_length",
}
_BODY_OF_GIRTH: Final = "girth_path"  # a girth's strap goes under the belly only
# A bridle hangs by headpiece and cheekpieces together, so either speaks for its hole.
SPEAK_FOR: Final = {
    "mouthpiece": ("mouthpiece", "bit"),
    "cheekpieces": ("cheekpieces", "headpiece"),
    "whole": ("whole", "cheekpieces", "headpiece"),
}
# Without a word on any part, the answer on the whole item holds for each of its parts.
_VERDICTS: Final[dict[str, Verdict]] = {
    "good": "sits_right",
    "watch": "only_just",
    "no": "no",
}


def body_of(kind: str, part: str) -> str | None:
    """Return the measure of the body that a part of a kind of tack goes by, if any."""
    if kind == "girth" and part == "strap":
        return _BODY_OF_GIRTH
    return BODY_OF_PART.get(part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What was seen of one part, on which hole, with the gap at the front of the nose.

    ``gap_mm``: of a noseband or a nose strap, if it was measured.
    """

    part: str
    seen: Seen
    hole: int | None = None
    gap_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TryOn:
    """One try-on of an item or a made-up set; only ``worn`` outranks arithmetic.

    ``record``: the page of the record it is told by, below the horse's own pages.
    """

    on: date
    item: str
    how: How
    answer: Literal["good", "watch", "no"] | None = None
    parts: tuple[Tried, ...] = ()
    record: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """What one try-on says of one part; ``until``: the last day it stands."""

    on: date
    how: How
    verdict: Verdict
    hole: int | None
    until: date
    gap_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SpokenOf:
    """The part a try-on may speak of: under these names, by this measure."""

    names: tuple[str, ...]
    part: str
    foaled: Foaled
    tooth_change: date | None = None

    @property
    def measure(self) -> str:
        """The measure of the body the part goes by."""
        return BODY_OF_PART.get(self.part, "heart_girth")

    def until(self, tried_on: date) -> date:
        """Return the last day a try-on stands: as a measurement of that measure.

        Taken at the youngest the horse can be. A tooth change noted later ends what
        was seen of the mouth the day before.
        """
        months = months_old(self.foaled.last, tried_on)
        days = stands_days(self.measure, months, ridden=False)
        last = tried_on + timedelta(days=FOAL_STANDS_DAYS if days is None else days)
        changed = self.tooth_change
        if self.measure == "mouth_width" and changed and changed > tried_on:
            return min(last, changed - timedelta(days=1))
        return last


def standing_worn(
    tryons: tuple[TryOn, ...], spoken_of: SpokenOf, on: date
) -> Saw | None:
    """Return what was last seen of a part put on, if that still stands."""
    saw = last_worn(tryons, spoken_of, on)
    return saw if saw is not None and on <= saw.until else None


def last_worn(tryons: tuple[TryOn, ...], spoken_of: SpokenOf, on: date) -> Saw | None:
    """Return what was last seen of a part put on, whether that still stands or not."""
    return _latest(tryons, spoken_of, on, "worn")


def last_held(tryons: tuple[TryOn, ...], spoken_of: SpokenOf, on: date) -> Saw | None:
    """Return what was last seen of a part held against the horse."""
    return _latest(tryons, spoken_of, on, "held")


def _latest(
    tryons: tuple[TryOn, ...], spoken_of: SpokenOf, on: date, how: How
) -> Saw | None:
    """Return the latest; of one day, the one written down last."""
    names = spoken_of.names
    chosen = [
        one for one in tryons if one.item in names and one.how == how and one.on <= on
    ]
    heard = [saw for one in chosen for saw in _said(one, spoken_of)]
    return max(reversed(heard), key=lambda saw: saw.on, default=None)


def _said(tryon: TryOn, spoken_of: SpokenOf) -> Iterator[Saw]:
    said = verdict_on(tryon, spoken_of.part)
    if said is not None:
        verdict, hole = said
        yield Saw(
            on=tryon.on,
            how=tryon.how,
            verdict=verdict,
            hole=hole,
            until=spoken_of.until(tryon.on),
            gap_mm=gap_on(tryon, spoken_of.part),
        )


def verdict_on(tryon: TryOn, part: str) -> tuple[Verdict, int | None] | None:
    """Return what a try-on says of one part, on which hole; None: nothing."""
    overall = _VERDICTS.get(tryon.answer or "")
    if not tryon.parts:
        return None if overall is None else (overall, None)
    tried = _tried(tryon, part)
    if tried is None:
        return None
    all_right = all(one.seen == "sits_right" for one in tryon.parts)
    if all_right and overall in {"only_just", "no"}:
        return "only_just", tried.hole  # something not written down was wrong
    return tried.seen, tried.hole


def gap_on(tryon: TryOn, part: str) -> float | None:
    """Return the gap seen under a part at the front of the nose (mm); None: unsaid."""
    tried = _tried(tryon, part)
    return None if tried is None else tried.gap_mm


def _tried(tryon: TryOn, part: str) -> Tried | None:
    """Return what was seen of a part, or of one that speaks for it."""
    words = SPEAK_FOR.get(part, (part,))
    by_word = {tried.part: tried for tried in tryon.parts}
    return next((by_word[word] for word in words if word in by_word), None)
