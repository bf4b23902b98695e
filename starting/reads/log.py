"""What the log shows: sessions, newest first, and what a session means."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final

from django.core.paginator import Paginator
from django.db.models import Prefetch

from fitting.models import Horse
from starting.models import Session, SessionWorn
from starting.programme import Programme, Stage, shipped
from starting.progress import is_good
from starting.reads.facts import session_fact

A_PAGE: Final = 60  # sessions
ORDER: Final = ("yes", "nearly", "no")


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionRow:
    """One session as a row."""

    pk: int
    on: date
    stage: str
    name: str
    good: bool
    minutes: int | None
    ticks: str
    stop: str
    level: str
    worn: tuple[str, ...]
    who: str
    mood: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthRows:
    """The sessions of one month."""

    month: date
    rows: tuple[SessionRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionsPage:
    """One page of a horse's sessions."""

    name: str
    key: str
    kind: str
    months: tuple[MonthRows, ...]
    count: int
    number: int
    newer: int | None
    older: int | None


def session_rows(
    rows: Iterable[Session], programme: Programme | None
) -> tuple[SessionRow, ...]:
    """Return sessions as rows; what was worn costs no query if read before."""
    return tuple(_row(row, programme) for row in rows)


def _row(row: Session, programme: Programme | None) -> SessionRow:
    stage, here = _step_of(row, programme)
    return SessionRow(
        pk=row.pk,
        on=row.on,
        stage=row.stage if here else "",
        name=stage.name if stage else row.stage.replace("_", " "),
        good=bool(stage and is_good(stage, session_fact(row))),
        minutes=row.minutes,
        ticks=said_ticks(row.checks.values()),
        stop=row.stop_sign,
        level=row.get_stop_level_display() if row.stop_level else "",
        worn=_worn(row),
        who=row.who,
        mood=row.mood,
        note=row.note,
    )


def _step_of(row: Session, programme: Programme | None) -> tuple[Stage | None, bool]:
    """Return the step of a session, and whether the horse's programme has it still.

    What a horse did by another programme is told by the usual one.
    """
    for way in (programme, shipped()):
        for stage in way.stages if way else ():
            if stage.key == row.stage:
                return stage, way is programme
    return None, False


def said_ticks(answers: Iterable[str]) -> str:
    """Return ticks in a few words: ``4 yes, 1 nearly``."""
    counted = Counter(answers)
    return ", ".join(f"{counted[one]} {one}" for one in ORDER if counted[one])


def _worn(row: Session) -> tuple[str, ...]:
    if "worn" not in getattr(row, "_prefetched_objects_cache", {}):
        return ()
    return tuple(
        str(worn.tack or worn.made_up)
        + (f", {worn.get_seen_display()}" if worn.seen else "")
        + (f" on hole {worn.hole}" if worn.hole else "")
        for worn in row.worn.all()
    )


def sessions_page(
    horse: Horse, programme: Programme | None, kind: str, number: str
) -> SessionsPage:
    """Return one page of sessions, newest first (3 queries: count, rows, worn)."""
    found = Session.objects.filter(horse=horse)
    worn = SessionWorn.objects.select_related("tack", "made_up")
    found = found.prefetch_related(Prefetch("worn", worn))
    page = Paginator(found, A_PAGE).get_page(number)
    rows = session_rows(page.object_list, programme)
    return SessionsPage(
        name=horse.name,
        key=horse.key,
        kind=kind,
        months=tuple(
            MonthRows(month=month, rows=tuple(group))
            for month, group in groupby(rows, key=lambda row: row.on.replace(day=1))
        ),
        count=page.paginator.count,
        number=page.number,
        newer=page.previous_page_number() if page.has_previous() else None,
        older=page.next_page_number() if page.has_next() else None,
    )
