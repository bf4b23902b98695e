"""Two horses that want the same item in the same weeks, and who comes first by day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from fitting.wanted.telling import say_day
from fitting.wanted.values import Wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """An item that could be lent to a horse: from when it is needed, good until when.

    ``until`` None: as far as was looked.
    """

    horse: str
    item: str
    start: date
    until: date | None


def wishes_of(horse: str, wanted: Iterable[Wanted]) -> tuple[Wish, ...]:
    """Return what could be lent to a horse for what it wants, each item once."""
    found: dict[str, Wish] = {}
    for one in wanted:
        for offer in one.borrow:
            wish = Wish(
                horse=horse, item=offer.item, start=one.needed_on, until=offer.until
            )
            kept = found.setdefault(offer.item, wish)
            found[offer.item] = min(kept, wish, key=lambda each: each.start)
    return tuple(found.values())


def same_weeks(one: Wish, other: Wish) -> bool:
    """Whether two horses want one item at the same time."""
    if one.item != other.item or one.horse == other.horse:
        return False
    return _before(one, other) and _before(other, one)


def _before(one: Wish, other: Wish) -> bool:
    return other.until is None or one.start < other.until


def clash_words(mine: Iterable[Wish], every: Sequence[Wish]) -> tuple[str, ...]:
    """Return for each item that another wants too who that is, and who comes first."""
    said = (
        _said(sorted((wish, other), key=lambda one: (one.start, one.horse)))
        for wish in mine
        for other in every
        if same_weeks(wish, other)
    )
    return tuple(dict.fromkeys(said))


def _said(both: Sequence[Wish]) -> str:
    first, second = both
    start = f"{first.horse} and {second.horse} want {first.item} in the same weeks:"
    if first.start == second.start:
        return f"{start} both from {say_day(first.start)}, so only one of them has it."
    return (
        f"{start} {first.horse} comes first, from {say_day(first.start)},"
        f" {second.horse} from {say_day(second.start)}."
    )
