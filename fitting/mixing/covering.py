"""The fewest items that can still fill a set's straps: a bound that is never beaten."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from fitting.mixing.candidates import BEST, Candidate, Level

Slots = tuple[str, ...]
Have = tuple[int | None, ...]  # by slot: 1 a part taken from others, 0 another; or none
Cost = tuple[int, int]  # items beyond those used already; parts taken from others


@dataclass(frozen=True, slots=True, kw_only=True)
class Lenders:
    """The items that fill straps at one level, and the fewest for each few of them.

    ``serves``: item -> slot -> 1 if its part is taken, else 0.
    """

    serves: Mapping[str, Mapping[str, int]]
    _costs: dict[tuple[Slots, Have], Cost | None] = field(
        default_factory=dict, repr=False, compare=False
    )
    _fewest: dict[Slots, Cost | None] = field(
        default_factory=lambda: {(): (0, 0)}, repr=False, compare=False
    )

    def cost(self, used: Iterable[str], slots: Slots) -> Cost | None:
        """Return what filling slots costs beside items used; None: it cannot be."""
        have: Have = ()
        lend = [parts for item in used if (parts := self.serves.get(item))]
        if lend:
            have = tuple(
                min((parts[slot] for parts in lend if slot in parts), default=None)
                for slot in slots
            )
        if (slots, have) not in self._costs:
            self._costs[slots, have] = self._beside(slots, have)
        return self._costs[slots, have]

    def _beside(self, slots: Slots, have: Have) -> Cost | None:
        """Return the cost, where ``have`` is 1 or 0 for what the items used fill."""
        pairs = zip(slots, have, strict=bool(have))
        filled = {slot: taken for slot, taken in pairs if taken is not None}
        found = [
            (more[0], more[1] + sum(filled[slot] for slot in inside))
            for inside in _subsets(tuple(filled))
            if (more := self._of_others(_without(slots, inside))) is not None
        ]
        return min(found, default=None)

    def _of_others(self, slots: Slots) -> Cost | None:
        if slots not in self._fewest:
            self._fewest[slots] = self._reckon(slots)
        return self._fewest[slots]

    def _reckon(self, slots: Slots) -> Cost | None:
        """One item fills the first slot and some of the others; others the rest."""
        found = []
        for inside in _subsets(slots[1:]):
            together = (slots[0], *inside)
            taken = self._of_one(together)
            rest = self._of_others(_without(slots, together))
            if taken is not None and rest is not None:
                found.append((1 + rest[0], taken + rest[1]))
        return min(found, default=None)

    def _of_one(self, slots: Slots) -> int | None:
        """Return how many parts are taken at least, if one item fills all slots."""
        return min(
            (
                sum(parts[slot] for slot in slots)
                for parts in self.serves.values()
                if all(slot in parts for slot in slots)
            ),
            default=None,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering:
    """What can fill the straps of a set, level by level."""

    by_slot: Mapping[str, tuple[Candidate, ...]]
    _levels: list[Level] = field(default_factory=list, repr=False, compare=False)
    _floors: dict[Slots, Level] = field(default_factory=dict, repr=False, compare=False)
    _at: dict[int, Lenders] = field(default_factory=dict, repr=False, compare=False)

    def __post_init__(self) -> None:
        self._levels.extend(sorted({one.level for one in self._every()}))

    def floor(self, slots: Slots) -> Level:
        """Return the best level at which slots can be filled."""
        if slots not in self._floors:
            levels = (min(one.level for one in self.by_slot[slot]) for slot in slots)
            self._floors[slots] = max(levels, default=BEST)
        return self._floors[slots]

    def at(self, level: Level) -> Lenders:
        """Return the items that fill straps without making a level worse."""
        place = bisect_right(self._levels, level)
        if place not in self._at:
            serves: dict[str, dict[str, int]] = defaultdict(dict)
            for one in self._every():
                if one.level <= level:
                    serves[one.item.name][one.slot] = int(one.taken)
            self._at[place] = Lenders(serves=dict(serves))
        return self._at[place]

    def _every(self) -> Iterator[Candidate]:
        return (one for of in self.by_slot.values() for one in of)


def _subsets(slots: Slots) -> Iterator[Slots]:
    for count in range(len(slots) + 1):
        yield from combinations(slots, count)


def _without(slots: Slots, those: Slots) -> Slots:
    return tuple(slot for slot in slots if slot not in those)
