"""What was worn in sessions, told wherever it is asked what a horse has worn."""

from __future__ import annotations

from typing import Any

from fitting.models import Horse
from fitting.reads.worn import worn_items
from fitting.signals import worn_asked
from fitting.wearing import Wore
from starting.models import SessionWorn


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


def listen() -> None:
    """Tell what was worn in sessions."""
    worn_asked.connect(_asked, sender=Horse, dispatch_uid="sessions-worn")


def _asked(sender: type[Horse], *, horse: Horse, **_: Any) -> tuple[Wore, ...]:
    return worn_in_sessions(horse)
