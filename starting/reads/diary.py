"""The diary as a page: the days ahead, what is still to do, what the past became."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby
from typing import Final
from urllib.parse import urlencode

from django.db.models import Min, QuerySet

from fitting.models import Yard
from starting.dated import (
    DiaryRow,
    Month,
    Part,
    Together,
    became,
    in_parts,
    is_shown,
    month_of,
    open_until,
    together,
)
from starting.models import DiaryEntry
from starting.reads.diary_past import back_again, gone_of, records_of
from starting.reads.diary_rows import live_row, past_row

AT_ONCE: Final = 100  # entries: whole months are listed until there are so many; ours
ROOM: Final = 4  # lines of a day in the grid, as its style has them; ours
KINDS: Final = {
    "measure": "measuring days",
    "try_on": "try-ons",
    "care": "care, and giving back",
    "get": "to buy or borrow",
    "stage_opens": "steps that open",
    "stage_starts": "planned starts of steps",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What of the diary is asked for; empty ``horse`` or ``kind``: all of them."""

    month: Month
    today: date
    as_month: bool = False
    horse: str = ""
    kind: str = ""
    of_horse: bool = False  # whether the page is one horse's own

    @property
    def is_now(self) -> bool:
        """Whether it is this month."""
        return self.month == month_of(self.today)

    def query(self, month: Month | None = None, *, as_month: bool | None = None) -> str:
        """Return the address of the same for another month, or in another shape."""
        shape = self.as_month if as_month is None else as_month
        asked = {
            "month": (month or self.month).key,
            "as": "month" if shape else "list",
            "horse": "" if self.of_horse else self.horse,
            "kind": self.kind,
        }
        return urlencode({name: value for name, value in asked.items() if value})


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One day of a month, with its entries, those of many horses together."""

    on: date
    told: tuple[Together, ...]

    @property
    def more(self) -> int:
        """How many entries a day of the wide grid has no room for."""
        return sum(len(of.rows) for of in self.told[ROOM:])


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """A month that has entries, and where they stand."""

    month: Month
    how_many: int
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryPage:
    """The diary, as list or month. ``waiting``: due before what is shown."""

    asked: Asked
    later: Month | None
    counts: Mapping[Month, int]  # entries of each month, in order
    kept_from: date | None  # nothing that went before is kept; None: nothing is
    horses: tuple[tuple[str, str], ...]
    waiting: tuple[DiaryRow, ...] = ()
    parts: tuple[Part, ...] = ()
    past: tuple[DiaryRow, ...] = ()
    days: tuple[Day, ...] = ()

    @property
    def queries(self) -> dict[str, str]:
        """The addresses of what lies beside this page."""
        asked, month = self.asked, self.asked.month
        return {
            "back": asked.query(month.before) if month.can_go_back else "",
            "on": asked.query(month.after) if month.can_go_on else "",
            "now": "" if asked.is_now else asked.query(month_of(asked.today)),
            "list": asked.query(as_month=False),
            "month": asked.query(as_month=True),
            "later": asked.query(self.later) if self.later else "",
            "file": urlencode({"horse": asked.horse, "kind": asked.kind}),
        }

    @property
    def has_entries(self) -> bool:
        """Whether any month has some."""
        return bool(self.counts)

    @property
    def beyond(self) -> int:
        """How many entries come later than the list goes."""
        later = self.later
        months = (m for m in self.counts if later and m.first >= later.first)
        return sum(self.counts[month] for month in months)

    @property
    def jumps(self) -> tuple[Jump, ...]:
        """The months ahead that have entries: on this page, or on one of their own."""
        ahead = [month for month in self.counts if month.last >= self.asked.today]
        return tuple(
            Jump(month=month, how_many=self.counts[month], href=self._at(month))
            for month in ahead
        )

    def _at(self, month: Month) -> str:
        here = {part.month for part in self.parts if part.told}
        return f"#month-{month.key}" if month in here else f"?{self.asked.query(month)}"

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to show."""
        told = (
            *self.waiting,
            *self.past,
            *(of for part in self.parts for of in part.told),
        )
        return not told and not any(day.told for day in self.days)


def diary_page(yard: Yard, asked: Asked) -> DiaryPage:
    """Return the diary (15 queries: 5 of its rows, 9 records, the horses).

    A horse that the yard has not is every horse.
    """
    horses = tuple(yard.horses.order_by("name").values_list("key", "name"))
    asked = asked if asked.horse in dict(horses) else replace(asked, horse="")
    live = _live(yard, asked)
    counts = Counter(month_of(on) for on in live.values_list("on", flat=True))
    months, later = _months_shown(asked, counts)
    since = date.min if asked.is_now else asked.month.first
    shown = live.filter(on__gte=since, on__lte=months[-1].last)
    rows = [live_row(row, yard.slug, asked.today) for row in shown]
    shape = _as_month if asked.as_month else _as_list
    page = DiaryPage(
        asked=asked,
        later=later,
        counts=counts,
        kept_from=yard.past_entries.aggregate(first=Min("gone_on"))["first"],
        horses=horses,
    )
    return shape(page, rows, _past(yard, asked))


def _as_list(
    page: DiaryPage, rows: Sequence[DiaryRow], past: Sequence[DiaryRow]
) -> DiaryPage:
    """Return what is still to do first, then what is ahead, then what has been."""
    waiting = _before(page.asked.today, rows) if page.asked.is_now else ()
    parts = in_parts(rows[len(waiting) :], page.asked.month, page.asked.today)
    return replace(page, waiting=waiting, parts=parts, past=tuple(past))


def _as_month(
    page: DiaryPage, rows: Sequence[DiaryRow], past: Sequence[DiaryRow]
) -> DiaryPage:
    """Return every day of the month, and what is still to do from before it."""
    month = page.asked.month
    every = sorted((*past, *rows), key=_order)
    by_day = {on: tuple(of) for on, of in groupby(every, key=lambda row: row.on)}
    days = tuple(Day(on=on, told=together(by_day.get(on, ()))) for on in month.days)
    return replace(page, waiting=_before(month.first, rows), days=days)


def _before(day: date, rows: Sequence[DiaryRow]) -> tuple[DiaryRow, ...]:
    return tuple(row for row in rows if row.on < day)


def _order(row: DiaryRow) -> tuple[date, str, str]:
    return row.on, row.horse, row.title


def _live(yard: Yard, asked: Asked) -> QuerySet[DiaryEntry]:
    """Return the published entries that are asked for, by day."""
    rows = DiaryEntry.objects.filter(yard=yard)
    if asked.horse:
        rows = rows.filter(horse__key=asked.horse)
    if asked.kind:  # a slash inside a part of a key is written otherwise
        rows = rows.filter(key__contains=f"/{asked.kind}/")
    return rows


def _months_shown(
    asked: Asked, counts: Counter[Month]
) -> tuple[list[Month], Month | None]:
    """Return the months of a page, and the first of those that come later.

    A list goes on until it is long enough, and past what stands open in it; a month,
    and the past, stand alone.
    """
    until = open_until(asked.month, asked.today)
    last = max(counts, key=lambda month: month.first, default=asked.month)
    months, found = [asked.month], counts[asked.month]
    alone = asked.as_month or asked.month.last < asked.today
    while not alone and months[-1].first < last.first:
        if found >= AT_ONCE and months[-1].last >= until:
            break
        months.append(months[-1].after)
        found += counts[months[-1]]
    more = months[-1].first < last.first and not alone
    return months, months[-1].after if more else None


def _past(yard: Yard, asked: Asked) -> list[DiaryRow]:
    """Return what became of the month's entries that went (11 queries)."""
    month = asked.month
    rows = yard.past_entries.filter(on__gte=month.first, on__lte=month.last)
    if asked.horse:
        rows = rows.filter(horse__key=asked.horse)
    found = [(row, gone_of(row)) for row in rows]
    again = back_again(yard, rows)
    records = records_of(yard, {row.horse_id for row in rows})
    shown = [
        (row, gone, became(gone, records[row.horse_id]))
        for row, gone in found
        if asked.kind in {"", gone.entry.kind}
    ]
    return [
        past_row(gone.entry, told, row.uid, yard.slug)
        for row, gone, told in shown
        if is_shown(gone, told) and (told.is_told or row.uid not in again)
    ]
