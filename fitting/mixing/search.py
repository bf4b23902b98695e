"""The best bridles there are, found without making up every one.

What is open is kept in order of the best that can still become of it; what comes out
first and is whole is the best of all. The order: how the worst part sits, the day the
first part is outgrown (the later the better), how few items lend it, how few parts
another horse wears now, and then the names of its items from poll to bit and brow.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from heapq import heapify, heappop, heappush
from itertools import count

from fitting.fit import Finding
from fitting.fit.hung import hangs_by
from fitting.mixing.candidates import BEST, Candidate, Judge, Level, level_of
from fitting.mixing.covering import Covering
from fitting.mixing.hanging import (
    Hang,
    Heads,
    Ring,
    hangs,
    heads,
    name_of,
    rings,
    with_bit,
)
from fitting.mixing.values import MOUTHPIECE

Key = tuple[Level, int, int, tuple[str, ...]]
Told = Mapping[frozenset[tuple[str, str]], frozenset[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A bridle in part: what hangs, then its ring, its bit, then strap after strap.

    ``rings``: those it may still be made up with. ``found`` is None until it is
    judged: until then ``level`` is what it reaches at best.
    """

    hang: Hang
    rings: tuple[Ring, ...]
    level: Level
    found: Finding | None = None
    straps: tuple[Candidate, ...] = ()

    @property
    def is_of_one_bit(self) -> bool:
        """Whether its bit is chosen."""
        return len(self.rings) == 1 and len(self.rings[0].bits) == 1

    @property
    def bit(self) -> Candidate | None:
        """The first of its bits; None: it has none."""
        return self.rings[0].bits[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """Bridles made up from what is at hand, with these straps.

    ``told``: what hangs in the sets as they are, and with which bits. A try-on of such
    a set speaks for what hangs as in it, so that is never guessed.
    """

    judge: Judge
    covering: Covering
    slots: tuple[str, ...]
    told: Told
    head: Heads
    _open: list[tuple[Key, int, Part]] = field(default_factory=list, repr=False)
    _count: Iterator[int] = field(default_factory=count, repr=False)

    def best(self, bits: tuple[Candidate, ...]) -> Iterator[Part]:
        """Yield every bridle that can be made up, the best first."""
        every = rings(bits, self.judge.wearer.edges)
        for hang in hangs(self.judge):
            whole = self._one(Part(hang=hang, rings=every, level=BEST))
            self._open.extend(whole)
        heapify(self._open)
        while self._open:
            _, _, part = heappop(self._open)
            if part.found is not None and len(part.straps) == len(self.slots):
                yield part
                continue
            for more in self._further(part):
                for one in self._one(more):
                    heappush(self._open, one)

    def _one(self, part: Part) -> Iterator[tuple[Key, int, Part]]:
        """Yield a part with its place in the order; nothing if it is surely a no."""
        if part.found is None:
            levels = (self._at_best(part.hang, ring) for ring in part.rings)
            level = min((level for level in levels if level), default=None)
            if level is None:
                return
            part = replace(part, level=level)
        yield self._key(part), next(self._count), part

    def _at_best(self, hang: Hang, ring: Ring) -> Level | None:
        names = self.told.get(hang.hung) if self.told else None
        if names and any(name_of(bit) in names for bit in ring.bits):
            return BEST
        return self.head.at_best(hang.straps, ring)

    def _further(self, part: Part) -> Iterator[Part]:
        if part.found is not None:
            slot = self.slots[len(part.straps)]
            for one in self.covering.by_slot[slot]:
                level = max(part.level, one.level)
                yield replace(part, straps=(*part.straps, one), level=level)
        elif len(part.rings) > 1:
            yield from (replace(part, rings=(ring,)) for ring in part.rings)
        else:
            yield from self._judged(part, part.rings[0])

    def _judged(self, part: Part, ring: Ring) -> Iterator[Part]:
        """Yield a bridle once it is judged, with each bit of a ring; none of a no."""
        names = self.told.get(part.hang.hung, frozenset())
        plain = ring.only(bit for bit in ring.bits if name_of(bit) not in names)
        by_itself = (ring.only((bit,)) for bit in ring.bits if name_of(bit) in names)
        for alike in (plain, *by_itself):
            if alike is None:
                continue
            found = self.judge.hang(with_bit(part.hang, alike.bits[0]))
            level = level_of(found)
            for bit in alike.bits if level else ():
                one = alike.only((bit,))
                if one and level:
                    reached = max(level, one.floor)
                    yield replace(part, rings=(one,), found=found, level=reached)

    def _key(self, part: Part) -> Key:
        """Return the key of the best bridle that can still become of it."""
        left = self.slots[len(part.straps) :]
        floor = min(ring.floor for ring in part.rings)
        level = max(part.level, floor, self.covering.floor(left))
        used = {*part.hang.names, *(one.item.name for one in part.straps)} - {""}
        more, taken = self.covering.at(level).cost(used, left) or (0, 0)
        taken += part.hang.taken + sum(one.taken for one in part.straps)
        free = any(ring.free and ring.free <= level for ring in part.rings)
        items = len(used) + more + (part.bit is not None)
        return level, items, taken + (not free), self._names(part)

    def _names(self, part: Part) -> tuple[str, ...]:
        """Return the names as far as they are chosen; a longer one is never less."""
        if not part.is_of_one_bit:
            return part.hang.names
        straps = (one.item.name for one in part.straps)
        return (*part.hang.names, name_of(part.bit), *straps)


def search_of(
    judge: Judge, filled: Mapping[str, tuple[Candidate, ...]], slots: tuple[str, ...]
) -> Search:
    """Return the search for bridles with these straps; ``filled``: what fills them."""
    return Search(
        judge=judge,
        covering=Covering(by_slot={slot: filled[slot] for slot in slots}),
        slots=slots,
        told=_hung_in_sets(judge),
        head=heads(judge),
    )


def _hung_in_sets(judge: Judge) -> Told:
    found: dict[frozenset[tuple[str, str]], set[str]] = defaultdict(set)
    for made in judge.room.made_up:
        hung = hangs_by(made)
        bits = {item for word, item in hung if word == MOUTHPIECE}
        parts = frozenset(one for one in hung if one[0] != MOUTHPIECE)
        found[parts].add(next(iter(bits), ""))
    return {parts: frozenset(names) for parts, names in found.items()}
