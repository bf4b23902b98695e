"""What the pages to buy or borrow show, and the cards for the shop."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby
from typing import Final

import msgspec

from fitting.models import Horse, Yard
from fitting.reads.horses import horse_words
from fitting.sources import SOURCES
from fitting.wanted import GOT_STANDS_DAYS, Wants, things_of
from fitting.wanted.clashes import wishes_of
from fitting.wanted.telling import CHECKS, MEASURE_IT
from fitting.wanted.things import WORDS
from starting.models import Bought, StoredOutlook
from starting.outlook.values import NOTHING
from starting.reads.wanted_rows import (
    FirstRow,
    ThingRow,
    Whose,
    first_row,
    thing_row,
)

NOW: Final = "Now"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """The part of a stored outlook that says what is wanted."""

    horse: str
    key: str
    wants: Wants = NOTHING


DECODE: Final = msgspec.json.Decoder(Wishes)


@dataclass(frozen=True, slots=True, kw_only=True)
class GotRow:
    """One tick; ``thing``: what it ticks off, as long as nothing good hangs here."""

    pk: int
    whose: Whose
    title: str
    on: date
    asked_again: date
    thing: ThingRow | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What is needed by the same time."""

    title: str
    rows: tuple[ThingRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedPage:
    """What to buy or borrow: for the yard, or for one horse (``name`` and ``key``)."""

    groups: tuple[Group, ...]
    first: tuple[FirstRow, ...]
    got: tuple[GotRow, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    planned: bool
    horses: tuple[Whose, ...]
    name: str = ""
    key: str = ""
    kind: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One card for the shop: a thing, and what to look at on used tack."""

    thing: ThingRow
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cards:
    """The cards for one horse; ``waits``: something is to be found out first."""

    cards: tuple[Card, ...]
    waits: bool


def yard_page(yard: Yard, on: date) -> WantedPage:
    """Return what to get for every horse of a yard (2 queries)."""
    rows = StoredOutlook.objects.filter(horse__yard=yard).order_by("horse__name")
    got = Bought.objects.filter(horse__yard=yard).select_related("horse")
    return _page(yard, _wishes(rows), got, on)


def horse_page(horse: Horse, on: date) -> WantedPage:
    """Return what to get for one horse (2 queries)."""
    rows = StoredOutlook.objects.filter(horse__yard=horse.yard)
    got = horse.bought.select_related("horse")
    page = _page(horse.yard, _wishes(rows), got, on, only=horse.key)
    return replace(page, name=horse.name, key=horse.key, kind=horse_words(horse, on))


def cards_of(horse: Horse) -> Cards:
    """Return a card for each thing that is still to be got for a horse (1 query)."""
    wishes = _wishes(StoredOutlook.objects.filter(horse__yard=horse.yard))
    cards = tuple(
        Card(thing=row, checks=(MEASURE_IT, *CHECKS[row.kind]))
        for row in _things(horse.yard, wishes, got=False)
        if row.whose.key == horse.key
    )
    waits = any(one.wants.first for one in wishes if one.key == horse.key)
    return Cards(cards=cards, waits=waits)


def _wishes(rows: Iterable[StoredOutlook]) -> list[Wishes]:
    return [DECODE.decode(zlib.decompress(row.content)) for row in rows]


def _page(
    yard: Yard,
    every: Sequence[Wishes],
    got: Iterable[Bought],
    on: date,
    only: str = "",
) -> WantedPage:
    wishes = [one for one in every if only in {"", one.key}]
    open_ones = _of(_things(yard, every, got=False), only)
    ticked = _of(_things(yard, every, got=True), only)
    return WantedPage(
        groups=_groups(open_ones, on),
        first=tuple(_first(wishes)),
        got=tuple(_got(row, ticked, on) for row in got if _stands(row, on)),
        cautions=tuple(dict.fromkeys(c for row in open_ones for c in row.cautions)),
        sources=_sources(open_ones),
        planned=bool(wishes),
        horses=tuple(dict.fromkeys(row.whose for row in open_ones)),
    )


def _of(rows: Iterable[ThingRow], only: str) -> list[ThingRow]:
    return [row for row in rows if only in {"", row.whose.key}]


def _things(yard: Yard, wishes: Sequence[Wishes], *, got: bool) -> list[ThingRow]:
    every = [
        wish
        for one in wishes
        for wish in wishes_of(one.horse, (w for w in one.wants.wanted if not w.got_on))
    ]
    found = [
        thing_row(
            yard, Whose(name=one.horse, key=one.key), thing, every, one.wants.first
        )
        for one in wishes
        for thing in things_of(one.wants.wanted)
        if (thing.got_on is not None) is got
    ]
    return sorted(found, key=lambda row: (row.by, row.whose.name, row.kind))


def _groups(rows: Sequence[ThingRow], on: date) -> tuple[Group, ...]:
    """Return what is needed now, then month by month."""
    by_time = groupby(rows, key=lambda row: _time(row.by, on))
    return tuple(Group(title=title, rows=tuple(some)) for title, some in by_time)


def _time(by: date, on: date) -> str:
    return NOW if by <= on else f"{by:%B %Y}"


def _first(wishes: Iterable[Wishes]) -> Iterable[FirstRow]:
    """Yield what to find out first; what tells of two kinds of a horse's tack once."""
    for one in wishes:
        whose = Whose(name=one.horse, key=one.key)
        kinds = dict.fromkeys(first.kind for first in one.wants.first)
        found: dict[tuple[str, ...], FirstRow] = {}
        for kind in kinds:
            same = tuple(first for first in one.wants.first if first.kind == kind)
            row = first_row(whose, same)
            said = found.get(row.asks)
            why = f"{said.why} {row.why}".strip() if said else row.why
            found[row.asks] = replace(row, why=why)
        yield from found.values()


def _stands(row: Bought, on: date) -> bool:
    return row.on <= on <= row.on + timedelta(days=GOT_STANDS_DAYS)


def _got(row: Bought, ticked: Iterable[ThingRow], on: date) -> GotRow:
    word = row.part.replace("_", " ") or WORDS.get(row.kind, row.kind)
    return GotRow(
        pk=row.pk,
        whose=Whose(name=row.horse.name, key=row.horse.key),
        title=f"{word[:1].upper()}{word[1:]}",
        on=row.on,
        asked_again=row.on + timedelta(days=GOT_STANDS_DAYS + 1),
        thing=next((t for t in ticked if _ticks(row, t)), None),
    )


def _ticks(row: Bought, thing: ThingRow) -> bool:
    same = (row.horse.key, row.kind) == (thing.whose.key, thing.kind)
    return same and row.part in {"", thing.part}


def _sources(rows: Iterable[ThingRow]) -> tuple[str, ...]:
    keys = dict.fromkeys(key for row in rows for key in row.sources)
    return tuple(SOURCES[key].text for key in keys if key in SOURCES)
