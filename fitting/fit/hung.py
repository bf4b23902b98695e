"""What hangs here part by part, as each is used: in an item, or in a made-up set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from fitting.fit.headcollars import NOSE
from fitting.fit.tack import MadeUp, Part, Tack

SADDLE: Final = "saddle"
PANEL: Final = "panel"
BRIDLE: Final = "bridle"
BIT_SLOT: Final = "bit"
BIT_PART: Final = "mouthpiece"
CHEEKPIECES: Final = "cheekpieces"
HANGING: Final = ("whole", CHEEKPIECES, "headpiece")
UNHUNG: Final = "No headpiece and cheekpieces are in it: how it hangs is not told."
# A headcollar or cavesson of which nothing is written down still goes round the nose.
ROUND_THE_NOSE: Final = frozenset({"headcollar", "cavesson"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """One part as it is used: in an item or a set, with the parts beside it.

    ``names``: the items and sets whose try-ons speak of it.
    """

    item: str
    kind: str
    part: Part
    beside: tuple[Part, ...]
    names: tuple[str, ...]
    in_set: bool

    @property
    def hangs_a_bit(self) -> bool:
        """Whether the part is one of those that carry a bit."""
        bridle = self.in_set or self.kind == BRIDLE
        return bridle and self.part.part in HANGING

    @property
    def repeats(self) -> bool:
        """Whether it is a headpiece, that only repeats what its cheekpieces say."""
        if self.part.part != "headpiece" or not self.hangs_a_bit:
            return False
        return any(part.part == CHEEKPIECES for part in self.beside)


@lru_cache(maxsize=4)  # a yard's tack is asked of every horse
def all_hung(tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...]) -> tuple[Hung, ...]:
    """Return every part of every item, then of every made-up set."""
    return (
        *(one for item in tack for one in _of_item(item, made_up)),
        *(one for made in made_up for one in hung_in_set(made, made_up)),
    )


def _of_item(item: Tack, made_up: tuple[MadeUp, ...]) -> Iterator[Hung]:
    for part in _parts_of(item):
        hangs = item.kind == BRIDLE and part.part in HANGING
        yield Hung(
            item=item.name,
            kind=item.kind,
            part=part,
            beside=_parts_of(item),
            # The hole depends on the whole bridle, so a set does not speak for it.
            names=(item.name,)
            if hangs
            else (item.name, *_sets_of(item, part, made_up)),
            in_set=False,
        )


def _parts_of(item: Tack) -> tuple[Part, ...]:
    """Return the parts of an item, with the nose strap it must have."""
    if item.kind not in ROUND_THE_NOSE or item.part(NOSE):
        return item.parts
    return (Part(part=NOSE), *item.parts)


def _sets_of(item: Tack, part: Part, made_up: tuple[MadeUp, ...]) -> tuple[str, ...]:
    """Return the sets that use this part of the item."""
    return tuple(
        made.name
        for made in made_up
        if any(
            lent.name == item.name and _word(slot) == part.part
            for slot, lent in made.parts
        )
    )


def hung_in_set(made: MadeUp, made_up: tuple[MadeUp, ...]) -> Iterator[Hung]:
    """Yield every part of a set as it is used in it.

    What was seen on another set speaks for this one too, where it is the same part;
    of what hangs the bit, where all of that and the bit are the same.
    """
    lent = _lent(made)
    beside = tuple(part for part, _ in lent)
    hung = hangs_by(made)
    alike = [other.name for other in made_up if hung and hangs_by(other) == hung]
    for part, item in lent:
        hangs = part.part in HANGING
        yield Hung(
            item=made.name,
            kind=item.kind,
            part=part,
            beside=beside,
            names=(made.name, *alike)
            if hangs
            else (made.name, item.name, *_sets_of(item, part, made_up)),
            in_set=True,
        )


def hangs_by(made: MadeUp) -> frozenset[tuple[str, str]]:
    """Return what the hole of a set goes by: part and item; empty: nothing hangs."""
    hung = {(part.part, item.name) for part, item in _lent(made)}
    if not any(word in HANGING for word, _ in hung):
        return frozenset()
    return frozenset(one for one in hung if one[0] in {*HANGING, BIT_PART})


def _lent(made: MadeUp) -> tuple[tuple[Part, Tack], ...]:
    """Return the parts of a set, each once, with the item that lends it.

    A bridle measured whole stands for headpiece and cheekpieces both. A part that is
    not written down is there without its sizes, so that it is not known.
    """
    found: dict[str, tuple[Part, Tack]] = {}
    for slot, item in made.parts:
        word = _word(slot)
        part = item.part(word)
        if part is None and word in HANGING:
            part = item.part("whole")
        part = part or Part(part=word)
        found.setdefault(part.part, (part, item))
    return tuple(found.values())


def lent_parts(made: MadeUp) -> tuple[Part, ...]:
    """Return the parts of a made-up set, each once."""
    return tuple(part for part, _ in _lent(made))


def _word(slot: str) -> str:
    return BIT_PART if slot == BIT_SLOT else slot
