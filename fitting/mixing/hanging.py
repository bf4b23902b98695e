"""What hangs the bit: headpiece and cheekpieces, or a bridle whole, with each ring.

How it sits depends on all three. A horse's head is asked once for the whole tack room,
and says what a length can be at best; only what may still win is judged.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from itertools import accumulate
from typing import Final, Self

from fitting.fit import Answer, Part, Tack
from fitting.fit.answers import (
    EDGE_MM,
    GOOD_NO_UNDER,
    NO_AT_LEAST,
    NoRule,
)
from fitting.fit.bridles import FIRST_WRINKLE, RING_USUAL
from fitting.fit.edges import OURS, Edges
from fitting.fit.holes import MEASURE, Straps, straps_of
from fitting.fit.lasting import days_looked
from fitting.mixing.candidates import (
    BEST,
    UNKNOWN,
    WATCHED,
    Candidate,
    Judge,
    Level,
    lends,
)
from fitting.mixing.values import BIT, CHEEKPIECES, HEADPIECE, MOUTHPIECE, WHOLE

HANGING_CHEEK: Final = "hanging_cheek"
_SURELY_MM: Final = 0.01  # what is nearer to an edge than this is judged, not guessed
# A bridle of no item, to learn whether any can be judged by arithmetic.
PROBE: Final = Tack(
    name="",
    kind="bridle",
    parts=(Part(part=WHOLE, longest_mm=1000.0, holes=7, spacing_mm=16.0),),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang:
    """Headpiece and cheekpieces, or a whole bridle; without the bit.

    ``names``: those of its items, of a whole bridle one and nothing.
    """

    parts: tuple[tuple[str, Tack], ...]
    names: tuple[str, str]
    straps: Straps | NoRule
    taken: int

    @property
    def hung(self) -> frozenset[tuple[str, str]]:
        """Part and item of all that hangs the bit."""
        return frozenset((slot, item.name) for slot, item in self.parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """Bits that hang alike; one None: without a bit.

    ``floor``: the best level among them; ``free``: that of those no other horse wears.
    """

    ring_mm: float
    hanging_cheek: bool
    bits: tuple[Candidate | None, ...]
    floor: Level
    free: Level | None

    def only(self, bits: Iterable[Candidate | None]) -> Self | None:
        """Return the same ring with some of its bits; None: with none of them."""
        kept = tuple(bits)
        if not kept:
            return None
        return replace(self, bits=kept, floor=_floor(kept), free=_free(kept))


def _floor(bits: Iterable[Candidate | None]) -> Level:
    return min((bit.level for bit in bits if bit), default=BEST)


def _free(bits: Iterable[Candidate | None]) -> Level | None:
    levels = (
        bit.level if bit else BEST for bit in bits if bit is None or not bit.taken
    )
    return min(levels, default=None)


def hangs(judge: Judge) -> tuple[Hang, ...]:
    """Return every way to hang a bit from what is at hand."""
    items = judge.room.items
    heads = [item for item in items if lends(item, HEADPIECE)]
    cheeks = [item for item in items if lends(item, CHEEKPIECES)]
    return (
        *(_hang(judge, ((WHOLE, item),)) for item in items if lends(item, WHOLE)),
        *(
            _hang(judge, ((HEADPIECE, head), (CHEEKPIECES, cheek)))
            for head in heads
            for cheek in cheeks
        ),
    )


def _hang(judge: Judge, parts: tuple[tuple[str, Tack], ...]) -> Hang:
    names = [item.name for _, item in parts]
    return Hang(
        parts=parts,
        names=(names[0], names[1] if names[1:] else ""),
        straps=straps_of(
            tuple(part for word, item in parts if (part := item.part(word)))
        ),
        taken=sum(judge.is_taken(slot, item) for slot, item in parts),
    )


def rings(bits: tuple[Candidate, ...], edges: Edges = OURS) -> tuple[Ring, ...]:
    """Return the bits by what the hole knows of them; none wanted: one without."""
    alike: dict[tuple[float | None, bool], list[Candidate | None]] = defaultdict(list)
    for bit in bits:
        part = bit.item.part(MOUTHPIECE)
        ring = part.ring_mm if part else None
        hanging = part is not None and part.cheek == HANGING_CHEEK
        alike[ring, hanging].append(bit)
    if not bits:
        alike[None, False] = [None]
    return tuple(
        Ring(
            ring_mm=edges.value(RING_USUAL) if ring is None else ring,
            hanging_cheek=hanging,
            bits=tuple(of),
            floor=_floor(of),
            free=_free(of),
        )
        for (ring, hanging), of in alike.items()
    )


def name_of(bit: Candidate | None) -> str:
    """Return the name of a bit, empty for none."""
    return "" if bit is None else bit.item.name


def with_bit(hang: Hang, bit: Candidate | None) -> tuple[tuple[str, Tack], ...]:
    """Return the slots of what hangs, and of the bit."""
    return hang.parts if bit is None else (*hang.parts, (BIT, bit.item))


@dataclass(frozen=True, slots=True, kw_only=True)
class Heads:
    """One horse's head from a day on: what a bridle's length can be at best.

    ``small`` and ``large``: the head that is reached for sure, and nearly for sure, on
    each day looked at; ``large`` never falls. Empty: nothing is known of the head.
    """

    days: tuple[date, ...]
    small: tuple[float, ...]
    large: tuple[float, ...]
    edges: Edges = OURS

    def at_best(self, straps: Straps | NoRule, ring: Ring) -> Level | None:
        """Return a level that these straps reach at best; None: surely a no."""
        if isinstance(straps, NoRule) or ring.hanging_cheek or not self.days:
            return UNKNOWN
        hung = ring.ring_mm + 2 * self.edges.value(FIRST_WRINKLE)
        reach = straps.spacing_mm + EDGE_MM + _SURELY_MM
        longest = straps.first_mm + hung + reach
        shortest = straps.on_hole(straps.holes) + hung - reach
        if longest < self.small[0] or shortest > self.large[0]:
            return None
        if longest < self.large[0] or shortest > self.small[0]:
            return WATCHED
        outgrown = bisect_left(self.large, longest)
        if outgrown == len(self.days):
            return BEST
        return BEST[0], -self.days[outgrown].toordinal()


def heads(judge: Judge) -> Heads:
    """Return the horse's head from the judge's day on."""
    known = judge.hang(((WHOLE, PROBE),)).answer is not Answer.NOT_KNOWN
    days = days_looked(judge.on) if known else ()
    found = [body for day in days if (body := judge.sizes.at(MEASURE, day)) is not None]
    if not found or len(found) != len(days):
        return Heads(days=(), small=(), large=())
    # A no under 0.20 keeps a bridle good; one of 0.80 makes it a no.
    small = tuple(body.quantile(1 - NO_AT_LEAST) for body in found)
    large = accumulate((body.quantile(1 - GOOD_NO_UNDER) for body in found), max)
    return Heads(days=days, small=small, large=tuple(large), edges=judge.wearer.edges)
