"""Whether tack fits a horse: a finding for every part of every item and set."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

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
    Answer,
    Finding,
    NoRule,
    Rule,
    Wearer,
)
from fitting.fit.asked import Answered, Asked
from fitting.fit.hung import (
    BIT_PART,
    CHEEKPIECES,
    PANEL,
    SADDLE,
    Hung,
    all_hung,
)
from fitting.fit.judging import answered
from fitting.fit.lasting import Sizes
from fitting.fit.tack import MadeUp, Tack
from fitting.fit.unruled import unruled


def fits(
    wearer: Wearer,
    tack: tuple[Tack, ...],
    made_up: tuple[MadeUp, ...],
    on: date,
    *,
    only_good: bool = False,
) -> tuple[Finding, ...]:
    """Return a finding for every part of every item, then for every made-up set.

    A set's parts stand under the set's name, with the kind of the item that lends
    them. The hole of a bridle stands on its cheekpieces, and its headpiece repeats it.
    ``only_good``: days to come are told of what is good in every part, and of no other.
    """
    sizes = Sizes(growth=wearer.growth, start=on)
    hung = all_hung(tack, made_up)
    now = [None if one.repeats else _found(one, wearer, sizes, on) for one in hung]
    undated = _not_good(now) if only_good else frozenset()
    found = [None if one is None else _dated(one, undated) for one in now]
    cheeks = {
        (one.item, one.in_set): finding
        for one, finding in zip(hung, found, strict=True)
        if finding is not None and one.part.part == CHEEKPIECES
    }
    return tuple(
        _repeated(cheeks[one.item, one.in_set]) if finding is None else finding
        for one, finding in zip(hung, found, strict=True)
    )


def _dated(one: Answered, undated: frozenset[str]) -> Finding:
    return one.found if one.found.item in undated else one.dated()


def _not_good(now: Iterable[Answered | None]) -> frozenset[str]:
    """Return the items and sets of which a part is not good."""
    return frozenset(
        one.found.item for one in now if one and one.found.answer is not Answer.GOOD
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
        for one in all_hung(tack, made_up)
    )


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
    found = _found(hung, wearer, sizes, on).dated()
    return _repeated(found) if hung.repeats else found


def _repeated(cheekpieces: Finding) -> Finding:
    """The hole is one answer, told on the cheekpieces."""
    why = f"Its hole goes with the cheekpieces. {cheekpieces.why}"
    return replace(cheekpieces, part="headpiece", why=why)


def _found(hung: Hung, wearer: Wearer, sizes: Sizes, on: date) -> Answered:
    asked = _asked(hung, wearer, sizes, on)
    if hung.repeats:
        return answered(replace(asked, part=CHEEKPIECES), _rule(asked, hung))
    if hung.kind == SADDLE and hung.part.part == PANEL:
        rule = saddles.rule(hung.item, hung.kind, hung.part, wearer.edges)
        return Answered(asked=asked, found=saddles.finding(asked, rule))
    return answered(asked, _rule(asked, hung))


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
