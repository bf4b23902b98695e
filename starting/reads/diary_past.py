"""What became of entries that have gone from the diary: asked of the records."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping
from typing import Any, Final

import msgspec
from django.db.models import Q

from fitting.models import Loan, Measurement, TryOn, Yard
from starting.dated import Gone, Records, TickRow
from starting.diary import Entry
from starting.models import (
    Bought,
    CareVisit,
    DiaryTick,
    PastEntry,
    Session,
    SessionWorn,
    StageRecord,
)

IN_A_SET: Final = ("bridle", "bit")  # what a try-on of a made-up set tells of
NOBODY: Final = 0  # so that a page without past entries asks no fewer queries

Row = tuple[Any, ...]


def gone_of(row: PastEntry) -> Gone:
    """Return an entry that has gone as a plain value."""
    entry = msgspec.json.decode(row.content, type=Entry)
    return Gone(entry=entry, since=row.since, gone_on=row.gone_on)


def back_again(yard: Yard, rows: Iterable[PastEntry]) -> frozenset[str]:
    """Return the UIDs of what went and stands in the diary again (1 query)."""
    asked = yard.diary.filter(uid__in=["", *(row.uid for row in rows)])
    return frozenset(asked.values_list("uid", flat=True))


def records_of(yard: Yard, horses: Collection[int]) -> Mapping[int, Records]:
    """Return the days of the records of some horses, by their rows (9 queries)."""
    of = Q(horse__yard=yard, horse__in=[NOBODY, *horses])
    measured, visits = _measured(of), _visits(of)
    tried, sessions = _tried(yard, of, horses), _sessions(of)
    got, steps = _got(of), _steps(of)
    returned, ticks = _returned(yard, horses), _ticks(of)
    return {
        horse: Records(
            measured=tuple(measured[horse]),
            visits=tuple(visits[horse]),
            tried=tuple(tried[horse]),
            got=tuple(got[horse]),
            sessions=tuple(sessions[horse]),
            steps=tuple(steps[horse]),
            returned=tuple(returned[horse]),
            ticks=tuple(ticks[horse]),
        )
        for horse in horses
    }


def _by_horse(rows: Iterable[Row]) -> defaultdict[int, list[Row]]:
    """Return rows by the horse, which stands first in each."""
    found: defaultdict[int, list[Row]] = defaultdict(list)
    for horse, *row in rows:
        found[horse].append(tuple(row))
    return found


def _measured(of: Q) -> defaultdict[int, list[Row]]:
    rows = Measurement.objects.filter(of, struck="").order_by("on")
    return _by_horse(rows.values_list("horse", "measure", "on"))


def _visits(of: Q) -> defaultdict[int, list[Row]]:
    rows = CareVisit.objects.filter(of).order_by("on", "pk")
    return _by_horse(rows.values_list("horse", "kind", "on"))


def _sessions(of: Q) -> defaultdict[int, list[Row]]:
    rows = Session.objects.filter(of).order_by("on")
    return _by_horse(rows.values_list("horse", "stage", "on"))


def _got(of: Q) -> defaultdict[int, list[Row]]:
    rows = Bought.objects.filter(of).order_by("on")
    return _by_horse(rows.values_list("horse", "kind", "part", "on"))


def _steps(of: Q) -> defaultdict[int, list[Row]]:
    words = dict(StageRecord.State.choices)
    rows = StageRecord.objects.filter(of).values_list("horse", "stage", "state", "on")
    return _by_horse((horse, stage, words[s], on) for horse, stage, s, on in rows)


def _tried(yard: Yard, of: Q, horses: Collection[int]) -> defaultdict[int, list[Row]]:
    """Return what was tried on or worn in a session, by its kind (2 queries)."""
    rows = TryOn.objects.filter(of, struck="").values_list("horse", "tack__kind", "on")
    worn = SessionWorn.objects.filter(
        session__horse__yard=yard, session__horse__in=[NOBODY, *horses]
    )
    worn_rows = worn.values_list("session__horse", "tack__kind", "session__on")
    return _by_horse(
        (horse, each, on)
        for horse, kind, on in (*rows, *worn_rows)
        for each in ((kind,) if kind else IN_A_SET)
    )


def _returned(yard: Yard, horses: Collection[int]) -> defaultdict[int, list[Row]]:
    """Return the loans that went back, by the task that a loan is in the diary."""
    rows = Loan.objects.filter(tack__yard=yard, to__in=[NOBODY, *horses])
    times: Counter[tuple[int, str]] = Counter()
    found: list[Row] = []
    for to, key, on in rows.order_by("pk").values_list("to", "tack__key", "returned"):
        times[to, key] += 1
        if on is not None:
            found.append((to, f"{key}-{times[to, key]}", on))
    return _by_horse(found)


def _ticks(of: Q) -> defaultdict[int, list[TickRow]]:
    found: defaultdict[int, list[TickRow]] = defaultdict(list)
    for row in DiaryTick.objects.filter(of):
        found[row.horse_id].append(
            TickRow(key=row.key, due_on=row.due_on, on=row.on, who=row.who, pk=row.pk)
        )
    return found
