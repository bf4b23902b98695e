"""What moved, day by day and why: of one horse, of the yard, and since last week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from operator import itemgetter
from typing import Final, NamedTuple

import msgspec
from django.db.models import QuerySet
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.reads.horses import horse_words
from starting.models import Moved
from starting.moves import Move, net
from starting.moves.saying import (
    Led,
    alike,
    led,
    loudest,
    run_names,
    run_sentence,
    run_title,
    text,
    title,
)
from starting.reads.written import Days, Written, of_day, written_since

MOVE: Final = msgspec.json.Decoder(Move)
WEEK: Final = timedelta(days=7)
YARD_DAYS: Final = timedelta(days=30)  # of the whole yard; more on each horse's page
HORSE_DAYS_OPEN: Final = 14  # the rest is folded
YARD_DAYS_OPEN: Final = 5
A_HORSE: Final = 4  # rows a horse a day on the yard's page; all are on its own
IN_WEEKS_FROM_DAYS: Final = 100  # a margin holds two figures
LATELY: Final = 3  # rows a horse at the head of the plan
MANY_HORSES: Final = 9  # from here on one row each, and of so many only
LATELY_HORSES: Final = 8


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
    text: str
    href: str = ""
    title: str = ""
    by: str = ""
    unit: str = ""
    followers: tuple[Follower, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedOf:
    """What moved of one horse on one day, and what was written down that day."""

    name: str
    key: str
    rows: tuple[MovedRow, ...]
    more: int  # rows that only the horse's own page shows
    written: tuple[Written, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedDay:
    """One day on which something moved."""

    on: date
    horses: tuple[MovedOf, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedPage:
    """What moved; ``since``: how far back; ``open_days``: so many are not folded."""

    days: tuple[MovedDay, ...]
    open_days: int
    since: date | None = None
    name: str = ""
    key: str = ""
    kind: str = ""
    grown: bool = False

    @property
    def lately(self) -> tuple[MovedDay, ...]:
        """The newest days; the others are folded."""
        return self.days[: self.open_days]

    @property
    def before(self) -> tuple[MovedDay, ...]:
        """The days that are folded."""
        return self.days[self.open_days :]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lately:
    """What moved of one horse since last week, the loudest first."""

    name: str
    key: str
    said: tuple[str, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LatelyMoved:
    """What moved since last week; ``more``: horses that are not among these."""

    horses: tuple[Lately, ...]
    more: int


def moved_page(yard: Yard, on: date) -> MovedPage:
    """Return what moved at the yard in the last 30 days (15 queries)."""
    since = on - YARD_DAYS
    rows = Moved.objects.filter(horse__yard=yard, on__gte=since)
    written = written_since(yard, since)
    return MovedPage(
        days=_days(yard, rows, written, A_HORSE),
        open_days=YARD_DAYS_OPEN,
        since=since,
    )


def horse_moved_page(horse: Horse, on: date) -> MovedPage:
    """Return all that is kept of what moved for one horse (15 queries)."""
    rows = Moved.objects.filter(horse=horse)
    first = rows.order_by("on").values_list("on", flat=True).first()
    written = written_since(horse.yard, first or on, horse)
    return MovedPage(
        days=_days(horse.yard, rows, written),
        open_days=HORSE_DAYS_OPEN,
        since=first,
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        grown=horse.grown,
    )


class _Kept(NamedTuple):
    """One row of what moved, as it is read."""

    on: date
    horse: int
    name: str
    key: str
    content: bytes


def _kept(rows: QuerySet[Moved], *order: str) -> list[_Kept]:
    """Return rows in an order, without the weight of whole models (1 query)."""
    names = ("on", "horse_id", "horse__name", "horse__key", "content")
    return [_Kept(*row) for row in rows.order_by(*order).values_list(*names)]


def _days(
    yard: Yard, rows: QuerySet[Moved], written: Days, most: int | None = None
) -> tuple[MovedDay, ...]:
    """Return the days, newest first, so many rows a horse (3 queries)."""
    hrefs = _hrefs(yard)
    found = _kept(rows, "-on", "horse__name", "pk")
    return tuple(
        MovedDay(
            on=on,
            horses=tuple(
                _horse(yard, list(of), hrefs, most, of_day(written, horse, on))
                for horse, of in groupby(day, key=lambda row: row.horse)
            ),
        )
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


def _horse(
    yard: Yard,
    rows: Sequence[_Kept],
    hrefs: dict[str, str],
    most: int | None,
    written: tuple[Written, ...],
) -> MovedOf:
    runs = alike(led([MOVE.decode(row.content) for row in rows]))
    shown = runs[:most]
    return MovedOf(
        name=rows[0].name,
        key=rows[0].key,
        rows=tuple(_row(yard, rows[0].key, run, hrefs) for run in shown),
        more=len(runs) - len(shown),
        written=written,
    )


def _row(yard: Yard, key: str, run: Sequence[Led], hrefs: dict[str, str]) -> MovedRow:
    first = run[0]
    if len(run) > 1:
        return MovedRow(name=run_title(run), text=run_names(run))
    by, unit = _by(first.move)
    return MovedRow(
        name=first.move.mark.name,
        href=_href(yard, key, first.move, hrefs),
        title=title(first.move),
        text=text(first.move),
        by=by,
        unit=unit,
        followers=tuple(map(_follower, first.followers)),
    )


def _follower(one: Move) -> Follower:
    by, unit = _by(one)
    return Follower(name=one.mark.name, by=by, unit=unit)


def _href(yard: Yard, key: str, one: Move, hrefs: dict[str, str]) -> str:
    if one.kind == "item":
        return hrefs.get(one.mark.subject, "")
    if one.what == "vanishes":
        return ""
    return reverse("starting:step", args=[yard.slug, key, one.mark.subject])


def _by(one: Move) -> tuple[str, str]:
    """Return how far with its sign, and its unit: ``+14 days``; empty: not by days."""
    if one.days is None or one.what not in {"later", "sooner"}:
        return "", ""
    many = abs(one.days) >= IN_WEEKS_FROM_DAYS
    count = round(one.days / WEEK.days) if many else one.days
    return f"{count:+d}".replace("-", "−"), "weeks" if many else "days"


def lately(yard: Yard, on: date) -> LatelyMoved:
    """Return what moved in the last 7 days and stayed so, by horse (1 query).

    Of many horses only those that moved furthest, by name.
    """
    rows = Moved.objects.filter(horse__yard=yard, on__gt=on - WEEK)
    found = _kept(rows, "horse__name", "on", "pk")
    each = [
        (name, key, led(net([MOVE.decode(row.content) for row in of])))
        for (name, key), of in groupby(found, key=lambda row: (row.name, row.key))
    ]
    each = [one for one in each if one[2]]
    many = len(each) >= MANY_HORSES
    loud = sorted(each, key=lambda one: -_furthest(one[2])) if many else each
    shown = sorted(loud[:LATELY_HORSES], key=itemgetter(0)) if many else each
    return LatelyMoved(
        horses=tuple(_lately(*one, most=1 if many else LATELY) for one in shown),
        more=len(each) - len(shown),
    )


def lately_of(horse: Horse, on: date) -> Lately:
    """Return what moved for one horse in the last 7 days and stayed so (1 query)."""
    rows = _kept(Moved.objects.filter(horse=horse, on__gt=on - WEEK), "on", "pk")
    found = led(net([MOVE.decode(row.content) for row in rows]))
    return _lately(horse.name, horse.key, found, most=LATELY)


def _furthest(found: Sequence[Led]) -> int:
    return max((abs(one.move.days or 0) for one in found), default=0)


def _lately(name: str, key: str, leaders: Sequence[Led], *, most: int) -> Lately:
    said = loudest(leaders, most)
    told = sum(map(len, said))
    return Lately(
        name=name,
        key=key,
        said=tuple(run_sentence(name, run) for run in said),
        more=len(leaders) - told + sum(len(one.followers) for one in leaders),
    )
