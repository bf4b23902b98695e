"""Who wears what now: the horse that wore an item, or a set, last."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.fit import MadeUp, Tack
from fitting.fit.hung import HANGING
from fitting.tryons import TryOn

WORN_NOW: Final = timedelta(days=56)  # ours: what was worn longer ago is free


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """Where a part is used: a set, or empty its own item; who wears that now."""

    made_up: str
    horse: str = ""
    on: date | None = None


def last_worn_by(
    tryons: Mapping[str, Iterable[TryOn]], on: date
) -> dict[str, tuple[date, str]]:
    """Return by item or set the day it was last put on lately, and the horse.

    ``tryons``: by the horse's name. Of one day the horse first in the alphabet counts.
    """
    found: dict[str, tuple[date, str]] = {}
    for horse in sorted(tryons, reverse=True):
        for one in tryons[horse]:
            if one.how != "worn" or not on - WORN_NOW <= one.on <= on:
                continue
            if one.item not in found or found[one.item][0] <= one.on:
                found[one.item] = one.on, horse
    return found


def uses_of(
    items: Iterable[Tack],
    made_up: Iterable[MadeUp],
    worn: Mapping[str, tuple[date, str]],
) -> dict[tuple[str, str], tuple[Use, ...]]:
    """Return by (item, part) where it is used, the set of each, and who wears it."""
    found: dict[tuple[str, str], list[Use]] = defaultdict(list)
    for item in items:
        for part in item.parts if item.name in worn else ():
            found[item.name, part.part].append(_use("", worn.get(item.name)))
    for made in made_up:
        for word, lender in lent_by(made):
            found[lender, word].append(_use(made.name, worn.get(made.name)))
    return {part: tuple(uses) for part, uses in found.items()}


def _use(made_up: str, worn: tuple[date, str] | None) -> Use:
    if worn is None:
        return Use(made_up=made_up)
    return Use(made_up=made_up, on=worn[0], horse=worn[1])


def lent_by(made: MadeUp) -> tuple[tuple[str, str], ...]:
    """Return part and item of all that is in a set; a whole bridle under its slot."""
    return tuple(
        (part.part, item.name)
        for slot, item in made.parts
        for part in item.parts
        if part.part == ("mouthpiece" if slot == "bit" else slot)
        or (part.part == "whole" and slot in HANGING)
    )


def taken_from(
    uses: Mapping[tuple[str, str], Iterable[Use]], horse: str
) -> frozenset[tuple[str, str]]:
    """Return the parts that another horse wears now."""
    return frozenset(
        part for part, of in uses.items() if any(u.horse not in {"", horse} for u in of)
    )
