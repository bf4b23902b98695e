"""What at hand can fill each slot, and how well: by the rules of fit alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit import Answer, Finding, MadeUp, Tack, Wearer
from fitting.fit.findings import finding_of_hung
from fitting.fit.hung import hung_in_set
from fitting.fit.lasting import Sizes
from fitting.mixing.values import CHEEKPIECES, WHOLE, Room, word_of_slot

# How well a part sits: its answer, then the day it ends (negative: the later is the
# better). Of several parts the greatest is the set's: the worst answer, the first day.
Level = tuple[int, int]
RANKS: Final = {Answer.GOOD: 0, Answer.WATCH: 1, Answer.NOT_KNOWN: 2}
BEST: Final[Level] = (RANKS[Answer.GOOD], -date.max.toordinal())
WATCHED: Final[Level] = (RANKS[Answer.WATCH], 0)
UNKNOWN: Final[Level] = (RANKS[Answer.NOT_KNOWN], 0)
NAME: Final = ""  # of a set that is not made up yet: no item or set has that name


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An item that can fill a slot, with how well it does."""

    slot: str
    item: Tack
    finding: Finding
    level: Level
    taken: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Judge:
    """Says how parts would sit on a horse on a day, if they were made up."""

    wearer: Wearer
    room: Room
    on: date
    sizes: Sizes

    def fill(self, slot: str) -> tuple[Candidate, ...]:
        """Return what can fill a slot that hangs on no other, a no left out."""
        items = (item for item in self.room.items if lends(item, slot))
        return tuple(
            found for item in items if (found := self.candidate(slot, item)) is not None
        )

    def candidate(self, slot: str, item: Tack) -> Candidate | None:
        """Return an item in such a slot; None: it does not fit."""
        found = self.finding(((slot, item),), word_of_slot(slot))
        level = level_of(found)
        if level is None:
            return None
        return Candidate(
            slot=slot,
            item=item,
            finding=found,
            level=level,
            taken=self.is_taken(slot, item),
        )

    def hang(self, parts: tuple[tuple[str, Tack], ...]) -> Finding:
        """Return the finding of what hangs the bit, of those slots with the bit."""
        slots = {slot for slot, _ in parts}
        return self.finding(parts, WHOLE if WHOLE in slots else CHEEKPIECES)

    def finding(self, parts: tuple[tuple[str, Tack], ...], word: str) -> Finding:
        """Return the finding of one part of a set that is not made up yet."""
        made = MadeUp(name=NAME, parts=parts)
        hung = next(
            one for one in hung_in_set(made, self.room.made_up) if one.part.part == word
        )
        return finding_of_hung(hung, self.wearer, self.sizes, self.on)

    def is_taken(self, slot: str, item: Tack) -> bool:
        """Whether another horse wears that part now."""
        return (item.name, word_of_slot(slot)) in self.room.taken


def lends(item: Tack, slot: str) -> bool:
    """Whether an item has the part for a slot; bits come from bits, straps not."""
    kind = "bit" if slot == "bit" else "bridle"
    return item.kind == kind and item.part(word_of_slot(slot)) is not None


def level_of(found: Finding) -> Level | None:
    """Return how well a part sits; None: it does not."""
    if found.answer is Answer.NO:
        return None
    if found.answer is not Answer.GOOD:
        return RANKS[found.answer], 0
    return RANKS[found.answer], -(found.good_until or date.max).toordinal()
