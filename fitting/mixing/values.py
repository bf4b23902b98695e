"""What a bridle is made up from, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from fitting.fit import Answer, Finding, MadeUp, Tack, worst
from fitting.fit.tack import Part

BIT: Final = "bit"
MOUTHPIECE: Final = "mouthpiece"
WHOLE: Final = "whole"
HEADPIECE: Final = "headpiece"
CHEEKPIECES: Final = "cheekpieces"
BROWBAND: Final = "browband"
OPTIONAL: Final = ("noseband", "throatlash")
STRAPS: Final = (BROWBAND, *OPTIONAL)
NOT_FOR_LONG: Final = timedelta(days=56)  # ours: what lasts less fits not for long
SAME_WIDTH_MM: Final = 1.0  # ours: straps that differ by less are as wide

Why = Literal["none_hangs", "none_fits"]


def word_of_slot(slot: str) -> str:
    """Return the part that fills a slot of a set."""
    return MOUTHPIECE if slot == BIT else slot


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What is at hand on a day: items on their pegs that are not lent elsewhere.

    ``made_up``: the sets as they are. ``taken``: (item, part) now worn by another
    horse.
    """

    items: tuple[Tack, ...]
    made_up: tuple[MadeUp, ...] = ()
    taken: frozenset[tuple[str, str]] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The item that lends one slot, and how it sits there; ``taken`` as in a room."""

    slot: str
    item: Tack
    finding: Finding
    taken: bool

    @property
    def part(self) -> Part:
        """The part that is lent."""
        word = word_of_slot(self.slot)
        return self.item.part(word) or Part(part=word)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """One bridle that can be made up: what lends each slot, in the order of a head."""

    chosen: tuple[Chosen, ...]

    @property
    def answer(self) -> Answer:
        """How it sits: as its worst part does."""
        return worst(one.finding for one in self.chosen)

    @property
    def good_until(self) -> date | None:
        """The first day it is no longer good; None: not good now, or as far as seen."""
        if self.answer is not Answer.GOOD:
            return None
        days = (one.finding.good_until for one in self.chosen)
        return min((day for day in days if day), default=None)

    @property
    def first_outgrown(self) -> tuple[str, ...]:
        """The slots whose part is the first to be good no longer."""
        until = self.good_until
        ends = (one for one in self.chosen if until and one.finding.good_until == until)
        return tuple(one.slot for one in ends)

    @property
    def items(self) -> tuple[str, ...]:
        """The items that lend it, each once."""
        return tuple(dict.fromkeys(one.item.name for one in self.chosen))

    @property
    def hangs(self) -> Finding:
        """The finding of what hangs the bit, with its hole."""
        hung = {CHEEKPIECES, WHOLE}
        return next(one.finding for one in self.chosen if one.slot in hung)

    @property
    def made_up(self) -> tuple[tuple[str, str], ...]:
        """Slot and item, in the order of a head."""
        return tuple((one.slot, one.item.name) for one in self.chosen)

    @property
    def strap_widths(self) -> tuple[float, float] | None:
        """The widths of headpiece and cheekpieces (mm), where they differ."""
        by_slot = {one.slot: one.part.strap_width_mm for one in self.chosen}
        head, cheek = by_slot.get(HEADPIECE), by_slot.get(CHEEKPIECES)
        if head is None or cheek is None or abs(head - cheek) <= SAME_WIDTH_MM:
            return None
        return head, cheek

    def is_not_for_long(self, on: date) -> bool:
        """Whether it fits on that day, but not for long."""
        until = self.good_until
        return until is not None and until - on < NOT_FOR_LONG


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacking:
    """A slot that nothing at hand can fill, and why."""

    slot: str
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A part that cannot be said to fit: what to write down, to measure, or to try."""

    item: str
    finding: Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixture:
    """The best bridles that can be made up, the best first.

    ``lacking``: without these it is no whole bridle, and ``left_off``: straps that can
    be left off, and are. ``unknown`` would perhaps do, if more were known of it.
    """

    best: tuple[Mixed, ...]
    lacking: tuple[Lacking, ...] = ()
    left_off: tuple[Lacking, ...] = ()
    unknown: tuple[Unknown, ...] = ()
