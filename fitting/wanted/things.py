"""What is got in one piece: a bit, a browband, a cavesson with all its straps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.pieces import part_word
from fitting.wanted.hanging import WHOLE
from fitting.wanted.values import Wanted

# Sold by the strap; the rest, and a bridle of which all is wanted, comes in one piece.
BY_THE_STRAP: Final = "bridle"
WORDS: Final = {"cavesson": "lungeing cavesson"}
_VOWELS: Final = "aeiou"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing to get, with the parts that are wanted of it.

    ``part`` empty: all of the kind in one piece.
    """

    kind: str
    part: str
    wanted: tuple[Wanted, ...]

    @property
    def first(self) -> Wanted:
        """The part that is needed first."""
        return min(self.wanted, key=lambda one: one.by)

    @property
    def by(self) -> date:
        """The day it is needed by."""
        return self.first.by

    @property
    def got_on(self) -> date | None:
        """The day it was ticked off; None: some of it is still to be got."""
        days = [one.got_on for one in self.wanted]
        known = [day for day in days if day is not None]
        return max(known) if len(known) == len(days) else None

    @property
    def words(self) -> str:
        """What it is: bit, browband, lungeing cavesson."""
        return part_word(self.part) if self.part else WORDS.get(self.kind, self.kind)

    @property
    def with_article(self) -> str:
        """What it is, as a sentence has it: a bit."""
        return f"{'an' if self.words[0] in _VOWELS else 'a'} {self.words}"


def things_of(wanted: Iterable[Wanted]) -> tuple[Thing, ...]:
    """Return what is wanted as things to get, soonest first."""
    every = tuple(wanted)
    in_one = {w.kind for w in every if w.kind != BY_THE_STRAP or w.part == WHOLE}
    found: dict[tuple[str, str], list[Wanted]] = {}
    for one in every:
        part = "" if one.kind in in_one else one.part
        found.setdefault((one.kind, part), []).append(one)
    things = (
        Thing(kind=kind, part=part, wanted=tuple(parts))
        for (kind, part), parts in found.items()
    )
    return tuple(sorted(things, key=lambda thing: (thing.by, thing.kind, thing.part)))
