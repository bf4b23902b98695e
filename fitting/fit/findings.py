"""Whether tack fits a horse: a finding for every part of every item and set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Final

from fitting.fit import (
    bits,
    bridles,
    browbands,
    cavessons,
    girths,
    headcollars,
    nosebands,
    rollers,
    rugs,
    saddles,
    throatlashes,
)
from fitting.fit.answers import (
    Finding,
    NoRule,
    Rule,
    Wearer,
)
from fitting.fit.judging import Asked, finding_of
from fitting.fit.lasting import Sizes
from fitting.fit.tack import MadeUp, Part, Tack
from fitting.fit.unruled import unruled

SADDLE: Final = "saddle"
PANEL: Final = "panel"
BRIDLE: Final = "bridle"
BIT_SLOT: Final = "bit"
BIT_PART: Final = "mouthpiece"
CHEEKPIECES: Final = "cheekpieces"
HANGING: Final = ("whole", CHEEKPIECES, "headpiece")
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


def fits(
    wearer: Wearer, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], on: date
) -> tuple[Finding, ...]:
    """Return a finding for every part of every item, then for every made-up set.

    A set's parts stand under the set's name, with the kind of the item that lends
    them. The hole of a bridle stands on its cheekpieces, and its headpiece repeats it.
    """
    sizes = Sizes(growth=wearer.growth, start=on)
    hung = _hung(tack, made_up)
    once = [None if _repeats(one) else _found(one, wearer, sizes, on) for one in hung]
    cheeks = {
        (one.item, one.in_set): found
        for one, found in zip(hung, once, strict=True)
        if found is not None and one.part.part == CHEEKPIECES
    }
    return tuple(
        _repeated(cheeks[one.item, one.in_set]) if found is None else found
        for one, found in zip(hung, once, strict=True)
    )


def rules(
    wearer: Wearer, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], on: date
) -> tuple[Rule | NoRule, ...]:
    """Return the rule that each part is judged by, in the order of ``fits``."""
    return tuple(rule for _, rule in hung_rules(wearer, tack, made_up, on))


def hung_rules(
    wearer: Wearer, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], on: date
) -> tuple[tuple[Hung, Rule | NoRule], ...]:
    """Return every part as it is used, with its rule, in the order of ``fits``."""
    sizes = Sizes(growth=wearer.growth, start=on)
    return tuple(
        (one, _rule(_asked(one, wearer, sizes, on), one))
        for one in _hung(tack, made_up)
    )


@lru_cache(maxsize=4)  # a yard's tack is asked of every horse
def _hung(tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...]) -> tuple[Hung, ...]:
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
    if item.kind not in ROUND_THE_NOSE or item.part(headcollars.NOSE):
        return item.parts
    return (Part(part=headcollars.NOSE), *item.parts)


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


def _asked(hung: Hung, wearer: Wearer, sizes: Sizes, on: date) -> Asked:
    return Asked(
        item=hung.item,
        kind=hung.kind,
        part=hung.part.part,
        names=hung.names,
        wearer=wearer,
        sizes=sizes,
        on=on,
    )


def finding_of_hung(hung: Hung, wearer: Wearer, sizes: Sizes, on: date) -> Finding:
    """Return the finding of one part as it is used."""
    found = _found(hung, wearer, sizes, on)
    return _repeated(found) if _repeats(hung) else found


def _repeats(hung: Hung) -> bool:
    """Whether a headpiece only repeats what its cheekpieces say."""
    if hung.part.part != "headpiece" or not hung.hangs_a_bit:
        return False
    return any(part.part == CHEEKPIECES for part in hung.beside)


def _repeated(cheekpieces: Finding) -> Finding:
    """The hole is one answer, told on the cheekpieces."""
    why = f"Its hole goes with the cheekpieces. {cheekpieces.why}"
    return replace(cheekpieces, part="headpiece", why=why)


def _found(hung: Hung, wearer: Wearer, sizes: Sizes, on: date) -> Finding:
    asked = _asked(hung, wearer, sizes, on)
    if _repeats(hung):
        return finding_of(replace(asked, part=CHEEKPIECES), _rule(asked, hung))
    if hung.kind == SADDLE and hung.part.part == PANEL:
        rule = saddles.rule(hung.item, hung.kind, hung.part, wearer.edges)
        return saddles.finding(asked, rule)
    return finding_of(asked, _rule(asked, hung))


def _rule(asked: Asked, hung: Hung) -> Rule | NoRule:
    word = hung.part.part
    if word == BIT_PART:
        return bits.rule(hung.item, hung.kind, hung.part, asked.wearer, asked.sizes)
    if hung.hangs_a_bit:
        bit = next((part for part in hung.beside if part.part == BIT_PART), None)
        return bridles.rule(hung.item, hung.kind, hung.beside, bit, asked.wearer)
    about = _about_the_head(asked, hung) or _about_the_body(asked, hung)
    return about or unruled(word, hung.kind, asked.wearer)


def _about_the_head(asked: Asked, hung: Hung) -> Rule | NoRule | None:
    """Return the rule of a strap about the head; None: it is none."""
    name, kind, part, wearer = hung.item, hung.kind, hung.part, asked.wearer
    if kind == headcollars.HEADCOLLAR_KIND and part.part in headcollars.PARTS:
        return headcollars.rule(name, kind, part, wearer, asked.on)
    if kind == "cavesson" and part.part in headcollars.PARTS:
        return cavessons.rule(name, kind, part, wearer.edges)
    match part.part:
        case "noseband":
            return nosebands.rule(name, kind, part, wearer, asked.sizes)
        case "browband":
            return browbands.rule(name, kind, part, wearer.edges)
        case "throatlash":
            return throatlashes.rule(name, kind, part, wearer.edges)
    return None


def _about_the_body(asked: Asked, hung: Hung) -> Rule | NoRule | None:
    """Return the rule of what goes round or over the body; None: it is none."""
    name, kind, part, edges = hung.item, hung.kind, hung.part, asked.wearer.edges
    match kind, part.part:
        case "roller", "strap":
            return rollers.rule(name, kind, part, edges)
        case "girth", "strap":
            return girths.rule(name, kind, part, edges)
        case "rug", "back_seam":
            return rugs.rule(name, kind, part, edges)
        case "saddle", "panel":
            return saddles.rule(name, kind, part, edges)
    return None
