"""Month by month: one horse's drawing, its steps as a table, and its months."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import msgspec

from fitting.drawings.months import month_after, month_of, months_from
from fitting.drawings.timeline import Timeline
from fitting.models import Horse
from fitting.reads.horses import HorseHead, horse_head
from starting.models import StoredOutlook
from starting.months import (
    Ahead,
    Line,
    MonthRow,
    Records,
    StepSeen,
    chart_of,
    lines_ahead,
    lines_behind,
    month_rows,
    steps_shown,
)
from starting.months.charting import span_of
from starting.outlook.days_ahead import MOST_DRAWN
from starting.reads.month_records import records_of
from starting.reads.moved import Lately, lately_of

DECODE: Final = msgspec.json.Decoder(Ahead)
BEHIND: Final = 1  # months drawn before this one
DRAWN: Final = 9  # months in all; ours: as many as a phone shows apart
MOST_FAR: Final = 60
OPEN_BEHIND: Final = 2  # months listed before this one; the rest is folded
OPEN_AHEAD: Final = 11
NOTHING: Final = Records()
LIKELY_ONLY: Final = (
    "Early and late ends are not known here, only the likely days: for more than"
    f" {MOST_DRAWN} youngsters of a yard they are not drawn."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """One step as a row of the table under the drawing."""

    stage: str
    name: str
    state: str
    start: date | None
    early: date | None
    likely: date | None
    late: date | None
    open_end: bool
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthsPage:
    """One horse month by month; ``gated``: a gate stands at its opening day.

    ``earlier`` and ``later`` are folded; ``likely_only``: why no early and late ends
    stand here; ``undated``: steps without a day, with what holds the first of them.
    """

    head: HorseHead
    chart: Timeline | None
    steps: tuple[StepRow, ...]
    likely_only: str
    undated: tuple[str, ...]
    undated_because: str
    next_after: StepSeen | None
    earlier: tuple[MonthRow, ...]
    months: tuple[MonthRow, ...]
    later: tuple[MonthRow, ...]
    moved: Lately
    this_month: date
    far: bool
    gated: bool
    planned: bool
    grown: bool


def ahead_of(horse: Horse) -> Ahead | None:
    """Return what is planned for a horse; None before its first planning (1 query)."""
    rows = StoredOutlook.objects.filter(horse=horse).values_list("content", flat=True)
    content = rows.first()
    return DECODE.decode(zlib.decompress(content)) if content else None


def months_page(horse: Horse, on: date, *, far: bool = False) -> MonthsPage:
    """Return one horse month by month (10 queries); ``far``: all the way ahead."""
    ahead = ahead_of(horse) or Ahead(horse=horse.name, key=horse.key, on=on, stages=())
    found = records_of(horse.yard, horse=horse).get(horse.pk, NOTHING)
    lines = [*lines_behind(found, ahead.stages), *lines_ahead(ahead)]
    months = _drawn(ahead, on, far=far)
    chart = chart_of(ahead, found.begun, found.spells, months, horse.foaled_days)
    earlier, near, later = _parted(_rows(horse, lines, on), on)
    undated = [s for s in ahead.stages if s.ahead and s.start is None]
    return MonthsPage(
        head=horse_head(horse, on),
        chart=chart if chart.straps else None,
        steps=tuple(map(_step, steps_shown(ahead, found.begun, span_of(months)))),
        likely_only="" if ahead.drawn else LIKELY_ONLY,
        undated=tuple(s.name for s in undated),
        undated_because=undated[0].because if undated else "",
        next_after=_next_after(ahead, months),
        earlier=earlier,
        months=near,
        later=later,
        moved=lately_of(horse, on),
        this_month=month_of(on),
        far=far,
        gated=any(one.opens and not one.alone for one in chart.straps),
        planned=bool(ahead.stages),
        grown=horse.grown,
    )


def _drawn(ahead: Ahead, on: date, *, far: bool) -> tuple[date, ...]:
    """Return the months that are drawn: nine, or up to the last step with a day."""
    first = month_after(on, -BEHIND)
    if not far:
        return months_from(first, DRAWN)
    ends = [s.finish_late or s.finish or s.start for s in ahead.dated]
    last = max((end for end in ends if end), default=on)
    count = (last.year - first.year) * 12 + last.month - first.month + 1
    return months_from(first, min(max(count, DRAWN), MOST_FAR))


def _next_after(ahead: Ahead, months: Sequence[date]) -> StepSeen | None:
    """Return the first step that begins beyond the months drawn."""
    end = month_after(months[-1])
    later = [s for s in ahead.dated if s.start and s.start >= end]
    return min(later, key=lambda s: s.start or date.max, default=None)


def _rows(horse: Horse, lines: Sequence[Line], on: date) -> tuple[MonthRow, ...]:
    """Return every month from the first line to the last, this one among them."""
    days = [on, *(line.on for line in lines)]
    return month_rows(lines, min(days), max(days), horse.foaled_days)


def _parted(rows: tuple[MonthRow, ...], on: date) -> tuple[tuple[MonthRow, ...], ...]:
    """Return the months long past, those about now, and those far ahead."""
    first, last = month_after(on, -OPEN_BEHIND), month_after(on, OPEN_AHEAD)
    return (
        tuple(r for r in rows if r.last < first),
        tuple(r for r in rows if r.last >= first and r.first <= last),
        tuple(r for r in rows if r.first > last),
    )


def _step(step: StepSeen) -> StepRow:
    done = not step.ahead
    return StepRow(
        stage=step.stage,
        name=step.name,
        state=step.shown_state,
        start=None if done else step.start,
        early=None if done else step.finish_early,
        likely=step.established_on if done else step.finish,
        late=None if done else step.finish_late,
        open_end=step.finish_early is not None and step.finish_late is None,
        because="" if done else step.because,
    )
