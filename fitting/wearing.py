"""What a horse has worn and when: each kind, each item, its first day and how often."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

Told = Literal["written", "tried", "session"]
# Of two records of one day, what was written of the first time says most.
_SAYS_MOST: Final[tuple[Told, ...]] = ("written", "tried", "session")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wore:
    """One record that an item was worn on a day; ``item`` empty: it is not known which.

    ``record``: the page of it, below the horse's own pages.
    """

    on: date
    kind: str
    item: str
    told: Told
    who: str = ""
    how_it_went: str = ""
    record: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemWorn:
    """One item: its first time, its last, and on how many days it was worn.

    ``written``: what was written of the first time, where an earlier day is told by
    another record.
    """

    item: str
    first: Wore
    last: date
    days: int
    written: Wore | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class KindWorn:
    """One kind of tack, its items in the order in which they were first worn."""

    kind: str
    items: tuple[ItemWorn, ...]

    @property
    def first(self) -> Wore:
        """The first time of the kind."""
        return self.items[0].first


def worn_by_kind(wore: Iterable[Wore]) -> tuple[KindWorn, ...]:
    """Return what was worn, in the order of first days; a day of an item counts once.

    A record that does not know its item adds nothing to a day on which an item of its
    kind is known.
    """
    by_kind: dict[str, list[Wore]] = defaultdict(list)
    for one in wore:
        by_kind[one.kind].append(one)
    found = (
        KindWorn(kind=kind, items=_items(_known(of_kind)))
        for kind, of_kind in by_kind.items()
    )
    return tuple(sorted(found, key=lambda kind: (_order(kind.first), kind.kind)))


def _known(of_kind: Sequence[Wore]) -> list[Wore]:
    """Leave out what names no item on a day that another record names one of."""
    named = {one.on for one in of_kind if one.item}
    return [one for one in of_kind if one.item or one.on not in named]


def _items(of_kind: Iterable[Wore]) -> tuple[ItemWorn, ...]:
    by_item: dict[str, list[Wore]] = defaultdict(list)
    for one in of_kind:
        by_item[one.item].append(one)
    found = (_item(item, of_item) for item, of_item in by_item.items())
    return tuple(sorted(found, key=lambda one: (_order(one.first), one.item)))


def _item(item: str, of_item: Sequence[Wore]) -> ItemWorn:
    first = min(of_item, key=_order)
    written = next((one for one in of_item if one.told == "written"), None)
    return ItemWorn(
        item=item,
        first=first,
        last=max(one.on for one in of_item),
        days=len({one.on for one in of_item}),
        written=written if written and written.on > first.on else None,
    )


def _order(one: Wore) -> tuple[date, int]:
    return one.on, _SAYS_MOST.index(one.told)
