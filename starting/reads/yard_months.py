"""The yard month by month: its youngsters drawn, and what each month holds for each."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import Foaled
from fitting.drawings.ink import Said
from fitting.drawings.months import Span, month_after, month_of, months_from
from fitting.drawings.timeline_straps import Strap
from fitting.drawings.yard_timeline import HorseStraps, YardTimeline
from fitting.models import Horse, Yard
from starting.models import StoredOutlook
from starting.months import (
    Ahead,
    Line,
    Records,
    age_said,
    lines_ahead,
    lines_behind,
)
from starting.months.charting import rests_of, span_of, straps_of
from starting.reads.month_records import records_of
from starting.reads.months import DECODE, LIKELY_ONLY, NOTHING

SHOWN: Final = 6  # months drawn; ours
A_DRAWING: Final = 10  # horses; a taller drawing would not go on a sheet of paper
BIG_FROM: Final = 9  # horses: from here on a month is a page of its own
FURTHEST: Final = 60  # months ahead, and as many back as any horse here is old


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseSteps:
    """The numbered steps of one horse, as the list beside a drawing has them."""

    name: str
    key: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Some of the horses drawn, and the list of their steps."""

    chart: YardTimeline
    listed: tuple[HorseSteps, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseMonth:
    """What one month holds for one horse."""

    name: str
    key: str
    age: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YardMonth:
    """One month of the yard; ``quiet``: horses with nothing in it."""

    first: date
    horses: tuple[HorseMonth, ...]
    quiet: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YardMonthsPage:
    """The yard's youngsters over six months; of many horses only one is listed.

    ``earlier`` and ``later``: where the months before and after begin; ``empty``: the
    yard has no youngster.
    """

    drawings: tuple[Drawing, ...]
    months: tuple[YardMonth, ...]
    likely_only: str
    this_month: date
    first: date
    last: date
    earlier: date | None
    later: date | None
    big: bool
    empty: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sight:
    """One youngster: what is planned, and what is written."""

    name: str
    key: str
    foaled: Foaled
    ahead: Ahead
    records: Records


def yard_months_page(yard: Yard, on: date, first: date | None = None) -> YardMonthsPage:
    """Return months of the yard, from one on (10 queries)."""
    sights = _sights(yard, on)
    start = _start(first, on, sights)
    months = months_from(start, SHOWN)
    big = len(sights) >= BIG_FROM
    listed = months[:1] if big else months
    earlier = month_after(start, -len(listed))
    later = month_after(start, len(listed))
    return YardMonthsPage(
        drawings=tuple(
            _drawing(sights[at : at + A_DRAWING], months, at)
            for at in range(0, len(sights), A_DRAWING)
        ),
        months=_months(sights, listed),
        likely_only="" if all(s.ahead.drawn for s in sights) else LIKELY_ONLY,
        this_month=month_of(on),
        first=start,
        last=months[-1],
        earlier=earlier if earlier >= _oldest(sights, on, 1 - len(listed)) else None,
        later=later if later <= month_after(on, FURTHEST) else None,
        big=big,
        empty=not sights,
    )


def _start(first: date | None, on: date, sights: Sequence[_Sight]) -> date:
    """Return the month asked for, where it lies within what can be told."""
    asked = month_of(first or on)
    oldest, furthest = _oldest(sights, on, 0), month_after(on, FURTHEST)
    return min(max(asked, min(oldest, month_of(on))), furthest)


def _oldest(sights: Sequence[_Sight], on: date, more: int) -> date:
    """Return the month the first of the horses was foaled in, some months on."""
    return month_after(min((s.foaled.first for s in sights), default=on), more)


def _sights(yard: Yard, on: date) -> list[_Sight]:
    """Return the youngsters with what is known of each (10 queries)."""
    stored = StoredOutlook.objects.filter(horse__yard=yard, horse__grown=False)
    contents = dict(stored.values_list("horse_id", "content"))
    records = records_of(yard)
    return [
        _Sight(
            name=row.name,
            key=row.key,
            foaled=row.foaled_days,
            ahead=_ahead(row, contents.get(row.pk), on),
            records=records.get(row.pk, NOTHING),
        )
        for row in yard.horses.filter(grown=False).order_by("name")
    ]


def _ahead(row: Horse, content: bytes | memoryview | None, on: date) -> Ahead:
    if content is None:
        return Ahead(horse=row.name, key=row.key, on=on, stages=())
    return DECODE.decode(zlib.decompress(content))


def _drawing(sights: Sequence[_Sight], months: tuple[date, ...], at: int) -> Drawing:
    """Return some horses drawn, with the steps that are not done yet."""
    span = span_of(months)
    straps = [_ahead_only(sight, span) for sight in sights]
    chart = YardTimeline(
        months=months,
        today=sights[0].ahead.on,
        horses=tuple(
            HorseStraps(name=s.name, straps=own, rests=rests_of(s.records.spells, span))
            for s, own in zip(sights, straps, strict=True)
        ),
        said=Said(
            uid=f"yard-{at}",
            title=f"{months[0]:%B %Y} to {months[-1]:%B %Y}",
            desc=(
                "A row a horse; its steps are numbered straps, the buckle at the"
                " likely last day. The list below names them, the months have the days."
            ),
        ),
    )
    listed = (
        HorseSteps(name=s.name, key=s.key, steps=tuple(one.name for one in own))
        for s, own in zip(sights, straps, strict=True)
    )
    return Drawing(chart=chart, listed=tuple(listed))


def _ahead_only(sight: _Sight, span: Span) -> tuple[Strap, ...]:
    every = straps_of(sight.ahead, sight.records.begun, span)
    return tuple(one for one in every if not one.done)


def _months(sights: Sequence[_Sight], months: Sequence[date]) -> tuple[YardMonth, ...]:
    every = [_by_month(sight) for sight in sights]
    return tuple(
        YardMonth(
            first=first,
            horses=tuple(
                HorseMonth(
                    name=s.name,
                    key=s.key,
                    age=age_said(s.foaled, first),
                    lines=lines[first],
                )
                for s, lines in zip(sights, every, strict=True)
                if first in lines
            ),
            quiet=tuple(
                s.name
                for s, lines in zip(sights, every, strict=True)
                if first not in lines
            ),
        )
        for first in months
    )


def _by_month(sight: _Sight) -> dict[date, tuple[Line, ...]]:
    """Return the lines of one horse by the first day of their month."""
    lines = [
        *lines_behind(sight.records, sight.ahead.stages),
        *lines_ahead(sight.ahead),
    ]
    found: dict[date, list[Line]] = {}
    for line in sorted(lines, key=lambda one: one.on):
        found.setdefault(month_of(line.on), []).append(line)
    return {month: tuple(some) for month, some in found.items()}
