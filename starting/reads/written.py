"""What was written down on a day, as the kept history of each record has it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.db.models import Model
from django.urls import reverse

from fitting.models import Horse, Measurement, Tack, TryOn, Yard
from starting.models import (
    CareVisit,
    Incident,
    OffWork,
    Plan,
    Rest,
    Session,
    WentAhead,
)

OF_YARD: Final = 0  # stands for a horse where a record is the yard's


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """One kind of record: its words for one and for many, and where it is read."""

    one: str
    many: str
    page: str
    of_yard: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """How many records of a kind were written, and the page they stand on."""

    said: str
    href: str


KINDS: Final[tuple[tuple[type[Model], Kept], ...]] = (
    (Session, Kept(one="session", many="sessions", page="starting:sessions")),
    (
        Measurement,
        Kept(one="measurement", many="measurements", page="fitting:measured"),
    ),
    (TryOn, Kept(one="try-on", many="try-ons", page="fitting:horse-tack")),
    (CareVisit, Kept(one="visit", many="visits", page="starting:care")),
    (Incident, Kept(one="incident", many="incidents", page="starting:care")),
    (OffWork, Kept(one="time off work", many="times off work", page="starting:care")),
    (Rest, Kept(one="rest", many="rests", page="starting:care")),
    (
        WentAhead,
        Kept(
            one="reason to go ahead",
            many="reasons to go ahead",
            page="starting:steps",
        ),
    ),
    (Plan, Kept(one="plan", many="plans", page="starting:steps")),
    (Horse, Kept(one="horse itself", many="horses", page="fitting:horse")),
    (
        Tack,
        Kept(
            one="item of the tack room",
            many="items of the tack room",
            page="fitting:tack-room",
            of_yard=True,
        ),
    ),
)

Days = Mapping[tuple[int, date], tuple[Written, ...]]


def written_since(yard: Yard, since: date, horse: Horse | None = None) -> Days:
    """Return what was written from a day on, by horse and day (11 queries).

    Of a whole yard 12: its horses too.

    A record corrected or deleted that day counts too; a step set by hand keeps no
    history and is not among it.
    """
    keys = {horse.pk: horse.key} if horse else _keys(yard)
    found: dict[tuple[int, date], list[Written]] = defaultdict(list)
    for model, kept in KINDS:
        counted: dict[tuple[int, date], set[int]] = defaultdict(set)
        for pk, of, at in _rows(model, yard, since, kept, horse):
            counted[of, at].add(pk)
        for (of, on), pks in counted.items():
            href = _href(yard, kept, keys.get(of, ""))
            found[of, on].append(Written(said=_said(kept, len(pks)), href=href))
    return {key: tuple(rows) for key, rows in found.items()}


def _keys(yard: Yard) -> dict[int, str]:
    return dict(yard.horses.values_list("pk", "key"))


def _rows(
    model: type[Model], yard: Yard, since: date, kept: Kept, horse: Horse | None
) -> Iterator[tuple[int, int, date]]:
    """Yield each record's key, its horse, and the day it was written on (1 query)."""
    history: Any = model.history  # type: ignore[attr-defined]
    zone = ZoneInfo(yard.timezone)
    first = datetime.combine(since, time(), tzinfo=zone)
    rows = history.filter(history_date__gte=first)
    of = "id" if model is Horse else "horse_id"
    if kept.of_yard or (model is Horse and horse is None):
        rows = rows.filter(yard=yard)
    elif horse is not None:
        rows = rows.filter(**{of: horse.pk})
    else:
        rows = rows.filter(horse__yard=yard)
    names = ("id", "history_date") if kept.of_yard else ("id", "history_date", of)
    for pk, at, *whose in rows.order_by().values_list(*names):
        yield pk, (whose[0] if whose else OF_YARD), at.astimezone(zone).date()


def _said(kept: Kept, count: int) -> str:
    return f"1 {kept.one}" if count == 1 else f"{count} {kept.many}"


def _href(yard: Yard, kept: Kept, key: str) -> str:
    parts = [yard.slug] if kept.of_yard else [yard.slug, key]
    return reverse(kept.page, args=parts) if all(parts) else ""


def of_day(days: Days, horse: int, on: date) -> tuple[Written, ...]:
    """Return what was written of a horse, and of the yard, on a day."""
    found: Iterable[tuple[Written, ...]] = (
        days.get((whose, on), ()) for whose in (horse, OF_YARD)
    )
    return tuple(one for part in found for one in part)
