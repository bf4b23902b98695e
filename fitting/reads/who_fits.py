"""What the page of who fits what shows: today by what is stored, else computed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

import msgspec
from django.db.models import F
from django.urls import reverse

from fitting.by_name import by_name
from fitting.fit import fits
from fitting.fit.kind_cautions import SETS, brief_cautions_of
from fitting.models import Horse, Yard
from fitting.pieces import KIND_WORDS
from fitting.reads.growths import known_of
from fitting.reads.wearers import wearer_on
from fitting.who_fits import (
    MOST_NAMED,
    By,
    Ends,
    FitsLook,
    Looks,
    Row,
    Thing,
    by_horses,
    by_items,
    ends,
    item_looks,
)

DECODE: Final = msgspec.json.Decoder(FitsLook)
ALL: Final = "all"
NOTHING: Final = FitsLook(items=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked: a day, an order, one kind or all, youngsters alone or all."""

    day: date
    by: By = "kind"
    kind: str = ALL
    young: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Rows under one heading."""

    title: str
    rows: tuple[Row, ...]
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WhoFitsPage:
    """Who fits what on a day; ``ends`` where it is put in the order of last days.

    ``planned``: whether anything is stored yet; ``computed``: for another day.
    ``cautions``: of all that is told, where it is not told kind by kind.
    """

    asked: Asked
    computed: bool
    groups: tuple[Group, ...]
    ends: tuple[Ends, ...]
    items: int
    horses: int
    planned: bool
    cautions: tuple[str, ...]

    @property
    def by_horse(self) -> bool:
        """Whether a row is a horse, and its names are items."""
        return self.asked.by == "horse"

    @property
    def in_short(self) -> bool:
        """Whether there are so many horses that only what fits them is told at once."""
        return self.by_horse and self.horses > MOST_NAMED

    @property
    def places(self) -> tuple[Thing, ...]:
        """The horses to go to, where they are many."""
        rows = [row.thing for group in self.groups for row in group.rows]
        return tuple(rows) if self.in_short else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Item:
    """An item or a set that may fit somebody."""

    thing: Thing
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sight:
    """What is put in order: items, horses, and what each is on each."""

    items: tuple[_Item, ...]
    young: tuple[tuple[str, Thing], ...]
    grown: tuple[tuple[str, Thing], ...]
    looks: Looks

    @property
    def horses(self) -> tuple[tuple[str, Thing], ...]:
        """All of them, youngsters first."""
        return (*self.young, *self.grown)

    @property
    def things(self) -> tuple[Thing, ...]:
        """The items, in their order."""
        return tuple(item.thing for item in self.items)


def who_fits_page(yard: Yard, asked: Asked, today: date) -> WhoFitsPage:
    """Return who fits what (3 queries: horses, tack, sets; for another day 9 more)."""
    found = yard.horses.annotate(fits=F("outlook__fits"))
    rows = sorted(found, key=lambda row: (row.grown, by_name(row.name)))
    stored = {row.key: _stored(row) for row in rows}
    chosen = [row for row in rows if not (asked.young and row.grown)]
    on_day = asked.day == today
    looks = stored if on_day else _computed(chosen, stored, asked.day)
    sight = _sight(yard, chosen, looks, asked.kind)
    return WhoFitsPage(
        asked=asked,
        computed=not on_day,
        groups=() if asked.by == "until" else _ORDERS[asked.by](sight),
        ends=ends(sight.things, sight.horses, sight.looks)
        if asked.by == "until"
        else (),
        items=len(sight.items),
        horses=len(chosen),
        planned=any(look.items for look in stored.values()),
        cautions=brief_cautions_of(*_kinds(sight)) if asked.by != "kind" else (),
    )


def stored_fits(row: Horse) -> FitsLook:
    """Return what is stored of all tack on one horse (1 query)."""
    found: Any = Horse.objects.filter(pk=row.pk).values_list("outlook__fits", flat=True)
    content = found.first()
    return DECODE.decode(content) if content else NOTHING


def _stored(row: Any) -> FitsLook:
    return DECODE.decode(row.fits) if row.fits else NOTHING


def _computed(
    rows: Sequence[Horse], stored: Mapping[str, FitsLook], day: date
) -> dict[str, FitsLook]:
    """Return what all tack is on each horse on another day (10 queries at most)."""
    found = {}
    for known in known_of(rows):
        key = known.horse.key
        wearer = wearer_on(known, stored[key].tooth_change, day)
        tack, made_up = known.tried.tack, known.tried.made_up
        findings = fits(wearer, tack, made_up, day, only_good=True)
        found[key] = FitsLook(items=item_looks(findings))
    return found


def _sight(
    yard: Yard, rows: Sequence[Horse], looks: Mapping[str, FitsLook], kind: str
) -> _Sight:
    start = reverse("fitting:horses", args=(yard.slug,))
    horses = [(row.key, _horse(row, start), row.grown) for row in rows]
    return _Sight(
        items=_items(yard, kind),
        young=tuple((key, thing) for key, thing, grown in horses if not grown),
        grown=tuple((key, thing) for key, thing, grown in horses if grown),
        looks={
            key: {look.item: look for look in found.items}
            for key, found in looks.items()
        },
    )


def _horse(row: Horse, start: str) -> Thing:
    href = f"{start}{row.key}/tack/"
    return Thing(name=row.name, href=href, place=f"of-{row.key}")


def _items(yard: Yard, kind: str) -> tuple[_Item, ...]:
    """Return sets first, then items by kind and name; of one kind, if one is asked."""
    start = reverse("fitting:tack-room", args=(yard.slug,))
    sets = [
        _Item(thing=Thing(name=name, href=f"{start}sets/{key}/"), kind=SETS)
        for name, key in yard.sets.filter(gone__isnull=True).values_list("name", "key")
    ]
    rows = yard.tack.filter(gone__isnull=True).values_list("name", "key", "kind")
    items = [
        _Item(thing=Thing(name=name, href=f"{start}{key}/"), kind=of)
        for name, key, of in rows
    ]
    order = {of: place for place, of in enumerate(KIND_WORDS)}
    sets.sort(key=lambda item: by_name(item.thing.name))
    items.sort(key=lambda item: (order[item.kind], by_name(item.thing.name)))
    return tuple(item for item in (*sets, *items) if kind in {ALL, item.kind})


def _in_kinds(sight: _Sight) -> tuple[Group, ...]:
    titles = {
        SETS: "Made-up sets",
        **{k: title for k, (title, _) in KIND_WORDS.items()},
    }
    return tuple(
        Group(
            title=titles[kind],
            cautions=brief_cautions_of(kind),
            rows=by_items(
                [item.thing for item in sight.items if item.kind == kind],
                sight.horses,
                sight.looks,
            ),
        )
        for kind in _kinds(sight)
    )


def _kinds(sight: _Sight) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item.kind for item in sight.items))


def _in_names(sight: _Sight) -> tuple[Group, ...]:
    things = sorted(sight.things, key=lambda thing: by_name(thing.name))
    rows = by_items(things, sight.horses, sight.looks)
    return (Group(title="By name", rows=rows),) if rows else ()


def _in_horses(sight: _Sight) -> tuple[Group, ...]:
    named = (("Youngsters", sight.young), ("Grown horses", sight.grown))
    return tuple(
        Group(title=title, rows=by_horses(sight.things, horses, sight.looks))
        for title, horses in named
        if horses
    )


_ORDERS: Final[dict[str, Callable[[_Sight], tuple[Group, ...]]]] = {
    "kind": _in_kinds,
    "item": _in_names,
    "horse": _in_horses,
}
