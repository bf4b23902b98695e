"""Who fits what: what every item is on every horse, grouped and put in order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final, Literal, NamedTuple

from fitting.by_name import by_name
from fitting.fit.answers import Answer, Finding, holed, worst
from fitting.fit.staleness import stale_words
from fitting.lending import say_day
from fitting.told import BEST_FIRST, told_parts, would_tell
from fitting.why_short import why_short

By = Literal["kind", "item", "horse", "until"]
MOST_NAMED: Final = 8  # horses: of more, only those it fits are named


class ItemLook(NamedTuple):
    """What one item, or one made-up set, is on one horse on a day.

    ``until``: the first day it is no longer good; ``looked_until``: good up to there at
    least; ``more``: why it is a no, or only just, or what is good of it, or would tell,
    where it is not known; ``stale``: how old the size is that it goes by, if too old.
    """

    item: str
    answer: Answer
    hole: int | None = None
    until: date | None = None
    looked_until: date | None = None
    more: str = ""
    stale: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitsLook:
    """What all tack is on one horse; the last tooth change noted is kept beside it."""

    items: tuple[ItemLook, ...]
    tooth_change: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A horse, or an item or set: its name, where that leads, its place on the page."""

    name: str
    href: str
    place: str = ""


class Named(NamedTuple):
    """One of a run: its name, where it leads, its hole and last day or why only just.

    ``stale``: how old the size is that its answer goes by, if too old.
    """

    name: str
    href: str
    said: str = ""
    stale: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Those that are answered alike; of many that it does not fit, only the count.

    ``more``: why it is a no; what would tell, where it is not known.
    """

    answer: Answer
    names: tuple[Named, ...]
    count: int
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One item with the horses, or one horse with the items."""

    thing: Thing
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """One item that stops being good on one horse, on that day."""

    on: date
    item: Thing
    horse: Thing
    hole: int | None


def item_looks(findings: Iterable[Finding]) -> tuple[ItemLook, ...]:
    """Return what each item and set is, in the order it is first found."""
    by_item: dict[str, list[Finding]] = {}
    for finding in findings:
        by_item.setdefault(finding.item, []).append(finding)
    return tuple(_look(item, parts) for item, parts in by_item.items())


def _look(item: str, parts: Sequence[Finding]) -> ItemLook:
    answer, stale = worst(parts), stale_words(parts)
    if answer is Answer.NOT_KNOWN:
        return ItemLook(item, answer, more=would_tell(parts), stale=stale)
    more = why_short(told_parts(parts), answer)
    if answer is Answer.NO:
        return ItemLook(item, answer, more=more, stale=stale)
    hole = holed(parts)
    until = looked = None
    if answer is Answer.GOOD:
        until = _first(part.good_until for part in parts)
        looked = None if until else _first(part.looked_until for part in parts)
    number = hole.hole if hole else None
    return ItemLook(item, answer, number, until, looked, more, stale)


def _first(days: Iterable[date | None]) -> date | None:
    return min((day for day in days if day), default=None)


Looks = Mapping[str, Mapping[str, ItemLook]]  # horse -> item -> what it is


def by_items(
    items: Sequence[Thing], horses: Sequence[tuple[str, Thing]], looks: Looks
) -> tuple[Row, ...]:
    """Return a row an item: the horses it is good for, only just, no, not known.

    ``horses``: each with the key it has in ``looks``.
    """
    sights = [(thing, looks.get(key, {})) for key, thing in horses]
    few = len(horses) <= MOST_NAMED
    return tuple(
        Row(
            thing=item,
            runs=_runs([(horse, of.get(item.name)) for horse, of in sights], few=few),
        )
        for item in items
    )


def by_horses(
    items: Sequence[Thing], horses: Sequence[tuple[str, Thing]], looks: Looks
) -> tuple[Row, ...]:
    """Return a row a horse: the items good for it, only just, no, not known."""
    return tuple(
        Row(
            thing=horse,
            runs=_runs(
                [(item, looks.get(key, {}).get(item.name)) for item in items],
                few=len(items) <= MOST_NAMED,
            ),
        )
        for key, horse in horses
    )


def ends(
    items: Sequence[Thing], horses: Sequence[tuple[str, Thing]], looks: Looks
) -> tuple[Ends, ...]:
    """Return what stops being good, the soonest first."""
    found = [
        Ends(on=look.until, item=item, horse=horse, hole=look.hole)
        for key, horse in horses
        for item in items
        if (look := looks.get(key, {}).get(item.name)) and look.until
    ]
    return tuple(sorted(found, key=lambda one: (one.on, by_name(one.item.name))))


def _runs(
    cells: Sequence[tuple[Thing, ItemLook | None]], *, few: bool
) -> tuple[Run, ...]:
    """Return those answered alike together: the best first, a no by its reason."""
    alike: dict[tuple[str, str], list[tuple[Thing, ItemLook]]] = {}
    for thing, look in cells:
        if look is not None:
            more = "" if look.answer is _WATCH else look.more  # each says its own
            alike.setdefault((look.answer, more), []).append((thing, look))
    order = sorted(alike, key=lambda key: (_PLACES[key[0]], key[1]))
    return tuple(_run(alike[key], few=few) for key in order)


_PLACES: Final[dict[str, int]] = {a: place for place, a in enumerate(BEST_FIRST)}
FITS: Final = frozenset({Answer.GOOD, Answer.WATCH})
_WATCH: Final = Answer.WATCH  # thousands are asked: a set of them would take longer


def _run(alike: Sequence[tuple[Thing, ItemLook]], *, few: bool) -> Run:
    look = alike[0][1]
    named = few or look.answer in FITS or len(alike) == 1  # its name is as short
    return Run(
        answer=look.answer,
        names=tuple(
            Named(thing.name, thing.href, _said(one), one.stale) for thing, one in alike
        )
        if named
        else (),
        count=len(alike),
        more="" if look.answer in FITS else look.more,
    )


def _said(look: ItemLook) -> str:
    """Return its hole, and until when it is good or why only just, in words."""
    just = look.more if look.answer is _WATCH else ""
    said = _until(look.until) if look.until else just
    if not look.hole:
        return said
    return f"hole {look.hole}, {said}" if said else f"hole {look.hole}"


@lru_cache(maxsize=1024)  # many end on one day
def _until(day: date) -> str:
    return f"until {say_day(day)}"
