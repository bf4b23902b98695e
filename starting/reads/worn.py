"""What was worn in sessions, told wherever it is asked what a horse has worn."""

from __future__ import annotations

from typing import Any

from django.urls import reverse

from fitting.hangs_on import HangsOn, Record, hangs_on
from fitting.models import Horse, Tack, TackSet
from fitting.reads.units import day_words
from fitting.reads.worn import worn_items
from fitting.signals import records_asked, worn_asked
from fitting.wearing import Wore
from starting.models import Session, SessionWorn


def worn_in_sessions(horse: Horse) -> tuple[Wore, ...]:
    """Return each item that was worn in a session of a horse (3 queries)."""
    rows = SessionWorn.objects.filter(session__horse=horse)
    rows = rows.select_related("session", "tack", "made_up")
    return tuple(
        Wore(
            on=row.session.on,
            kind=item.kind,
            item=item.name,
            told="session",
            who=row.session.who,
            how_it_went=row.session.note,
            record=f"sessions/{row.session_id}/",
        )
        for row in rows.prefetch_related("made_up__parts__tack")
        for item in worn_items(row)
    )


def sessions_with(thing: Tack | TackSet) -> tuple[HangsOn, ...]:
    """Return the sessions in which a thing was worn, the newest first (1 query)."""
    worn = SessionWorn.objects.filter(
        **{"made_up" if isinstance(thing, TackSet) else "tack": thing}
    )
    rows = Session.objects.filter(pk__in=worn.values("session")).select_related("horse")
    found = [_record(thing.yard.slug, row) for row in rows.order_by("-on", "-pk")]
    return hangs_on("session", "sessions", found)


def _record(slug: str, row: Session) -> Record:
    return Record(
        said=f"{row.horse.name}, {day_words(row.on)}",
        href=reverse("starting:edit-session", args=[slug, row.horse.key, row.pk]),
    )


def listen() -> None:
    """Tell what was worn in sessions."""
    worn_asked.connect(_asked, sender=Horse, dispatch_uid="sessions-worn")
    for of in (Tack, TackSet):
        records_asked.connect(_told, sender=of, dispatch_uid="sessions-naming")


def _asked(sender: type[Horse], *, horse: Horse, **_: Any) -> tuple[Wore, ...]:
    return worn_in_sessions(horse)


def _told(
    sender: type[Tack | TackSet], *, thing: Tack | TackSet, **_: Any
) -> tuple[HangsOn, ...]:
    return sessions_with(thing)
