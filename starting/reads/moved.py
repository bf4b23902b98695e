"""What moved, day by day and why: of one horse, of the yard, and since last week."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Final

import msgspec
from django.db.models import QuerySet
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.reads.horses import horse_words
from starting.models import Moved
from starting.moves import Move, net
from starting.moves.saying import Led, led, loudest, sentence, text, title
from starting.reads.written import Days, Written, of_day, written_since

MOVE: Final = msgspec.json.Decoder(Move)
WEEK: Final = timedelta(days=7)
YARD_DAYS: Final = timedelta(days=30)  # of the whole yard; more on each horse's page
HORSE_DAYS_OPEN: Final = 14  # the rest is folded
IN_WEEKS_FROM_DAYS: Final = 100  # a margin holds two figures
LATELY: Final = 3  # rows a horse at the head of the plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Follower:
    """A step that moved only because one before it did."""

    name: str
    by: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedRow:
    """One step or item that moved; ``by``: how far, with its sign, for the margin."""

    name: str
    href: str
    title: str
    text: str
    by: str
    unit: str
    followers: tuple[Follower, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedOf:
    """What moved of one horse on one day, and what was written down that day."""

    name: str
    key: str
    rows: tuple[MovedRow, ...]
    written: tuple[Written, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedDay:
    """One day on which something moved."""

    on: date
    horses: tuple[MovedOf, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedPage:
    """What moved; ``since``: the first day looked back to."""

    days: tuple[MovedDay, ...]
    since: date | None = None
    name: str = ""
    key: str = ""
    kind: str = ""
    grown: bool = False

    @property
    def lately(self) -> tuple[MovedDay, ...]:
        """The newest days; the others are folded."""
        return self.days[:HORSE_DAYS_OPEN]

    @property
    def before(self) -> tuple[MovedDay, ...]:
        """The days that are folded."""
        return self.days[HORSE_DAYS_OPEN:]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lately:
    """What moved of one horse since last week, the loudest first."""

    name: str
    key: str
    said: tuple[str, ...]
    more: int


def moved_page(yard: Yard, on: date) -> MovedPage:
    """Return what moved at the yard in the last 30 days (15 queries)."""
    since = on - YARD_DAYS
    rows = Moved.objects.filter(horse__yard=yard, on__gte=since)
    return MovedPage(days=_days(yard, rows, written_since(yard, since)), since=since)


def horse_moved_page(horse: Horse, on: date) -> MovedPage:
    """Return all that is kept of what moved for one horse (14 queries)."""
    rows = Moved.objects.filter(horse=horse)
    first = rows.order_by("on").values_list("on", flat=True).first()
    written = written_since(horse.yard, first or on, horse)
    return MovedPage(
        days=_days(horse.yard, rows, written),
        since=first,
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        grown=horse.grown,
    )


def _days(yard: Yard, rows: QuerySet[Moved], written: Days) -> tuple[MovedDay, ...]:
    """Return the days, newest first (3 queries: moves, tack, sets)."""
    hrefs = _hrefs(yard)
    found = rows.select_related("horse").order_by("-on", "horse__name", "pk")
    return tuple(
        MovedDay(on=on, horses=tuple(_horses(yard, on, day, hrefs, written)))
        for on, day in groupby(found, key=lambda row: row.on)
    )


def _hrefs(yard: Yard) -> dict[str, str]:
    """Return where each item and each set leads, by its name (2 queries)."""
    pages = (("fitting:set", yard.sets), ("fitting:tack", yard.tack))
    return {
        name: reverse(page, args=[yard.slug, key])
        for page, things in pages
        for name, key in things.values_list("name", "key")
    }


def _horses(
    yard: Yard, on: date, rows: Iterable[Moved], hrefs: dict[str, str], written: Days
) -> Iterator[MovedOf]:
    for horse, of in groupby(rows, key=lambda row: row.horse):
        found = [MOVE.decode(row.content) for row in of]
        yield MovedOf(
            name=horse.name,
            key=horse.key,
            rows=tuple(_row(yard, horse, one, hrefs) for one in led(found)),
            written=of_day(written, horse.pk, on),
        )


def _row(yard: Yard, horse: Horse, one: Led, hrefs: dict[str, str]) -> MovedRow:
    by, unit = _by(one.move)
    return MovedRow(
        name=one.move.mark.name,
        href=_href(yard, horse, one.move, hrefs),
        title=title(one.move),
        text=text(one.move),
        by=by,
        unit=unit,
        followers=tuple(map(_follower, one.followers)),
    )


def _follower(one: Move) -> Follower:
    by, unit = _by(one)
    return Follower(name=one.mark.name, by=by, unit=unit)


def _href(yard: Yard, horse: Horse, one: Move, hrefs: dict[str, str]) -> str:
    if one.kind == "item":
        return hrefs.get(one.mark.subject, "")
    if one.what == "vanishes":
        return ""
    return reverse("starting:step", args=[yard.slug, horse.key, one.mark.subject])


def _by(one: Move) -> tuple[str, str]:
    """Return how far with its sign, and its unit: ``+14 days``; empty: not by days."""
    if one.days is None or one.what not in {"later", "sooner"}:
        return "", ""
    many = abs(one.days) >= IN_WEEKS_FROM_DAYS
    count = round(one.days / WEEK.days) if many else one.days
    return f"{count:+d}".replace("-", "−"), "weeks" if many else "days"


def lately(yard: Yard, on: date) -> tuple[Lately, ...]:
    """Return what moved in the last 7 days and stayed so, by horse (1 query)."""
    rows = Moved.objects.filter(horse__yard=yard, on__gt=on - WEEK)
    rows = rows.select_related("horse").order_by("horse__name", "on", "pk")
    each = (
        _lately(horse, [MOVE.decode(row.content) for row in of])
        for horse, of in groupby(rows, key=lambda row: row.horse)
    )
    return tuple(one for one in each if one.said)


def _lately(horse: Horse, found: Sequence[Move]) -> Lately:
    leaders = led(net(found))
    said = loudest(leaders, LATELY)
    return Lately(
        name=horse.name,
        key=horse.key,
        said=tuple(sentence(horse.name, one.move) for one in said),
        more=len(leaders) - len(said) + sum(len(one.followers) for one in leaders),
    )
