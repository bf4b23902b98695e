"""What the calendar links page shows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from fitting.lending import say_day
from fitting.models import Yard
from fitting.reads.today import today_in
from starting.models import CalendarKey
from starting.models.calendar import ENTRY_KINDS
from starting.writes.links import OPTIONS


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRow:
    """One calendar link, without its secret: that is nowhere kept.

    Its days and times are those of the yard's clock.
    """

    pk: int
    label: str
    shows: str
    made_on: date
    fetched: str  # "today at 07.12", or the day; empty: never
    ended_on: date | None


def links(yard: Yard) -> tuple[LinkRow, ...]:
    """Return the yard's links, live ones first (2 queries)."""
    names = dict(yard.horses.values_list("key", "name"))
    rows = sorted(yard.calendar_keys.all(), key=lambda key: key.revoked_at is not None)
    zone, today = ZoneInfo(yard.timezone), today_in(yard)
    return tuple(_row(key, names, zone, today) for key in rows)


def _row(
    key: CalendarKey, names: dict[str, str], zone: ZoneInfo, today: date
) -> LinkRow:
    words = dict(ENTRY_KINDS)
    kinds = ", ".join(words.get(kind, kind) for kind in key.kinds) or "everything"
    horses = ", ".join(names.get(horse, horse) for horse in key.horses)
    alarm = key.get_alarm_display() if key.alarm else ""
    plain = "no names" if key.plain_titles else ""
    tasks = "as tasks" if key.as_tasks else ""
    whose = f"of {horses}" if horses else "of every horse"
    parts = (kinds, whose, alarm, plain, tasks)
    return LinkRow(
        pk=key.pk,
        label=key.label,
        shows=", ".join(part for part in parts if part),
        made_on=key.made_at.astimezone(zone).date(),
        fetched=_fetched(key.fetched_at and key.fetched_at.astimezone(zone), today),
        ended_on=key.revoked_at and key.revoked_at.astimezone(zone).date(),
    )


def _fetched(at: datetime | None, today: date) -> str:
    if at is None:
        return ""
    return f"today at {at:%H.%M}" if at.date() == today else say_day(at.date())


def chosen(key: CalendarKey) -> dict[str, Any]:
    """Return what a link's form starts from."""
    return {name: getattr(key, name) for name in ("label", *OPTIONS)}
