"""How a part sits on a horse, by chance: shared by every rule of tack."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum
from typing import Final, NamedTuple, Protocol, Self

from fitting.age import Foaled
from fitting.body import HorseType, Standing
from fitting.fit.edges import OURS, Decided, Edges
from fitting.fit.rests import UNSAID, Rests
from fitting.growth import Growth, Spread
from fitting.tryons import TryOn
from fitting.units import LengthUnit

# Ours: how sure an answer has to be.
GOOD_NO_UNDER: Final = 0.20
GOOD_AT_LEAST: Final = 0.50
NO_AT_LEAST: Final = 0.80
# Ours: a size exactly on an edge gets the kinder answer.
EDGE_MM: Final = 0.05


class Answer(StrEnum):
    """How a part sits: never good from missing facts."""

    GOOD = "good"
    WATCH = "watch"
    NO = "no"
    NOT_KNOWN = "not_known"


_HANGS_THE_BIT: Final = frozenset({"whole", "cheekpieces", "headpiece"})
WORST_FIRST: Final = (Answer.NO, Answer.NOT_KNOWN, Answer.WATCH, Answer.GOOD)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """The horse as the rules of tack see it on a day.

    ``clearances`` is the horse's own room: ("bit", mm) is added in all to every edge
    of the bit's clearance but the first. ``edges``: the figures its tack is judged by.
    ``tooth_change``: the last one noted; it ends what a try-on said of the mouth.
    """

    name: str
    horse_type: HorseType
    foaled: Foaled
    grown: bool
    growth: Growth
    standing: tuple[tuple[str, Standing], ...]
    tryons: tuple[TryOn, ...] = ()
    clearances: tuple[tuple[str, float], ...] = ()
    edges: Edges = OURS
    tooth_change: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What is known of one part on one horse on one day.

    ``short``: why it is a no, or only just, in a few words. ``good_until`` is the first
    day it is no longer good; None if it is not good now, or stays so as far as is
    looked (``looked_until``). Where it is not good yet, ``good_from`` to ``from_until``
    are the days it will be; with each first day goes the chance of a no on it.
    ``stale_days``: how long ago that was measured, or looked at, which is too old.
    ``size_mm`` is the part's own size, ``needs_from_mm`` to ``needs_to_mm`` the sizes
    that are good on this horse's middle size; of a bridle all three run from bit seat
    over the poll to bit seat, ``size_mm`` on the hole named, and ``reach_from_mm`` to
    ``reach_to_mm`` are the heads its last and first hole sit right on; of a strap round
    the head, done up as named, the bodies it is good for at all. ``decided``: the
    edges the answer went by.
    """

    item: str
    kind: str
    part: str
    answer: Answer
    why: str
    chance_no: float | None = None
    good_until: date | None = None
    until_chance: float | None = None
    looked_until: date | None = None
    good_from: date | None = None
    from_chance: float | None = None
    from_until: date | None = None
    hole: int | None = None
    spare_longer: int | None = None
    spare_shorter: int | None = None
    ask: str = ""
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    rests_on: str = ""
    stale: bool = False
    stale_days: int | None = None
    disagrees: str = ""
    size_mm: float | None = None
    needs_from_mm: float | None = None
    needs_to_mm: float | None = None
    clear_each_side_mm: float | None = None
    reach_from_mm: float | None = None
    reach_to_mm: float | None = None
    decided: tuple[Decided, ...] = ()
    short: str = ""


class Chances(NamedTuple):
    """How likely a part is good, and is a no; ``small``: as it is too small."""

    good: float
    no: float
    small: float = 0.0

    @property
    def answer(self) -> Answer:
        """The answer under this spread."""
        if self.no >= NO_AT_LEAST:
            return Answer.NO
        if self.no < GOOD_NO_UNDER and self.good >= GOOD_AT_LEAST:
            return Answer.GOOD
        return Answer.WATCH

    def judged(self, answer: Answer) -> Judged:
        """Return these chances under an answer: their own, or one held back."""
        return Judged(answer=answer, chance_no=self.no, chance_good=self.good)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The edges of a clearance, part minus body in all, ascending (mm).

    ``decided``: the four of them as figures that an answer went by, if that is known.
    ``told_in``: the unit that a clearance held to them is told in.
    """

    no_below: float
    good_from: float
    good_to: float
    no_above: float
    decided: tuple[Decided, ...] = field(default=(), compare=False)
    told_in: LengthUnit = "mm"

    @property
    def middle(self) -> float:
        """The middle of the good window."""
        return (self.good_from + self.good_to) / 2

    @property
    def half(self) -> float:
        """Half the width of the good window."""
        return (self.good_to - self.good_from) / 2

    def with_room(self, room_mm: float) -> Self:
        """Return the window with room added to every edge but the first."""
        if not room_mm:
            return self
        return replace(
            self,
            good_from=self.good_from + room_mm,
            good_to=self.good_to + room_mm,
            no_above=self.no_above + room_mm,
            decided=(
                *self.decided[:1],
                *(one.with_room(room_mm) for one in self.decided[1:]),
            ),
        )

    def went_by(self, clear_mm: float) -> tuple[Decided, ...]:
        """Return the edges on both sides of a clearance, or the one it lies beyond."""
        edges = (self.no_below, self.good_from, self.good_to, self.no_above)
        if not self.decided:
            return ()
        if self.answer_at(clear_mm) is Answer.GOOD:
            return self.decided[1:3]
        above = sum(clear_mm > edge for edge in edges)
        return self.decided[max(above - 1, 0) : above + 1]

    def chances(self, size_mm: float, body: Spread) -> Chances:
        """Return the chances for a part of ``size_mm`` on a body of that spread."""
        small = 1.0 - body.below(size_mm - self.no_below + EDGE_MM)
        wide = body.below(size_mm - self.no_above - EDGE_MM)
        good = body.below(size_mm - self.good_from + EDGE_MM) - body.below(
            size_mm - self.good_to - EDGE_MM
        )
        return Chances(good=good, no=small + wide, small=small)

    def answer_at(self, clear_mm: float) -> Answer:
        """Return the answer at one exact clearance."""
        if not self.no_below - EDGE_MM <= clear_mm <= self.no_above + EDGE_MM:
            return Answer.NO
        if self.good_from - EDGE_MM <= clear_mm <= self.good_to + EDGE_MM:
            return Answer.GOOD
        return Answer.WATCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """The room under a nose strap at the front, as it is worn (mm); no forgiving.

    ``decided``: both edges as figures that an answer went by; ``told_in``: in a unit.
    """

    no_below: float
    good_from: float
    decided: tuple[Decided, ...] = field(default=(), compare=False)
    told_in: LengthUnit = "mm"

    def answer(self, gap_mm: float) -> Answer:
        """Return the answer of a live gap."""
        if gap_mm < self.no_below:
            return Answer.NO
        return Answer.GOOD if gap_mm >= self.good_from else Answer.WATCH


class Judged(NamedTuple):
    """An answer with the chance of a no, and of a good one (1 where it is not told)."""

    answer: Answer
    chance_no: float
    chance_good: float = 1.0


class Rule(Protocol):
    """What a kind of tack knows of one of its parts, on one horse."""

    @property
    def measure(self) -> str:
        """The measure of the body the part goes by."""

    @property
    def measure_name(self) -> str:
        """That measure in the yard's words."""

    @property
    def half_mm(self) -> float:
        """Half the good window (mm of the body)."""

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return the body (mm) the part sits best on, on that hole; None: not known."""

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer for a body of that spread on a day."""

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer with its numbers and reason; ``worn``: from a try-on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRule:
    """Why a part cannot be reckoned, and what would help.

    ``gap``: the room at the front of the nose it is judged by when it is put on.
    """

    measure: str
    why: str
    ask: str = ""
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ("ours",)
    gap: Gap | None = None


def middle_of(body: Spread) -> float:
    """Return the middle (median) of a size (mm)."""
    return body.middle


def holed(findings: Iterable[Finding]) -> Finding | None:
    """Return the part whose hole stands for the whole; None: there is none, or several.

    That is what hangs the bit, or the only one with a hole.
    """
    found = [finding for finding in findings if finding.hole is not None]
    hung = (finding for finding in found if finding.part in _HANGS_THE_BIT)
    return next(hung, found[0] if len(found) == 1 else None)


def worse(answers: Iterable[Answer]) -> Answer:
    """Return the worst of the answers; not known if there are none."""
    found = set(answers)
    return next((one for one in WORST_FIRST if one in found), Answer.NOT_KNOWN)


def worst(findings: Iterable[Finding]) -> Answer:
    """Return how a set or an item sits: as good as its worst part."""
    return worse(finding.answer for finding in findings)
