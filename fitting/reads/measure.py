"""What was measured before: day by day, and every edit of one measurement."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from typing import Any, Final
from zoneinfo import ZoneInfo

from fitting.body import measure_by_key, middle
from fitting.models import Horse, Measurement
from fitting.readings import Units, understood
from fitting.reads.units import day_words, units_of


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredRow:
    """One measurement of the history."""

    pk: int
    title: str
    understood: str
    typed: str
    method: str
    who: str
    shod: bool
    struck: str
    note: str
    changed: str = ""
    came_with: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredDay:
    """All that was measured on one day."""

    on: date
    rows: tuple[MeasuredRow, ...]


def measured_days(horse: Horse) -> tuple[MeasuredDay, ...]:
    """Return all that was ever measured, newest day first (2 queries)."""
    units = units_of(horse.yard)
    rows = horse.measurements.select_related("brought_in")
    rows = rows.order_by("-on", "measure", "pk")
    changed = _last_changes(horse)
    return tuple(
        MeasuredDay(
            on=on,
            rows=tuple(measured_row(r, units, changed.get(r.pk, "")) for r in of_day),
        )
        for on, of_day in groupby(rows, key=lambda row: row.on)
    )


def _last_changes(horse: Horse) -> dict[int, str]:
    """Return who changed a measurement last, and when, by its key (1 query)."""
    kept: Any = Measurement.history.filter(horse=horse, history_type="~")
    kept = kept.select_related("history_user").order_by("pk")
    zone = ZoneInfo(horse.yard.timezone)
    return {edit.id: f"{_by(edit)}, {_when(edit, zone)}" for edit in kept}


def measured_row(row: Measurement, units: Units, changed: str = "") -> MeasuredRow:
    """Return one measurement as it is shown; ``changed``: by whom and when last."""
    measure = measure_by_key(row.measure)
    return MeasuredRow(
        pk=row.pk,
        title=measure.name.capitalize(),
        understood=understood(middle(row.values), measure.dimension, units),
        typed=row.written,
        method=row.get_method_display(),
        who=row.who,
        shod=row.shod,
        struck=row.struck,
        note=row.note,
        changed=changed,
        came_with=row.brought_in.name if row.brought_in else "",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One edit of a record: when, by whom, and what it changed, in words."""

    at: datetime
    when: str
    who: str
    said: str


_NAMES: Final = {
    "on": "day",
    "readings": "readings",
    "method": "method",
    "who": "measured by",
    "same_person": "the usual person",
    "shod": "shod",
    "note": "note",
}


def edits_of(row: Measurement) -> tuple[Edit, ...]:
    """Return every edit of a measurement, newest first (1 query)."""
    zone = ZoneInfo(row.horse.yard.timezone)
    kept: list[Any] = list(row.history.select_related("history_user").order_by("-pk"))
    return tuple(
        Edit(
            at=now.history_date,
            when=_when(now, zone),
            who=_by(now),
            said=_changes(before, now) if before else "written in",
        )
        for now, before in zip(kept, [*kept[1:], None], strict=True)
    )


def _by(edit: Any) -> str:
    """Return who edited; an edit by a command names nobody."""
    return str(edit.history_user or "somebody")


def _when(edit: Any, zone: ZoneInfo) -> str:
    """Return the day and the hour of an edit, by the yard's clock."""
    at = edit.history_date.astimezone(zone)
    return f"{day_words(at.date())}, {at:%H.%M}"


def _changes(before: Any, now: Any) -> str:
    """Return what an edit changed, in words."""
    changed = [
        f"{said}: {_said(before, name)} became {_said(now, name)}"
        for name, said in _NAMES.items()
        if getattr(before, name) != getattr(now, name)
    ]
    return "; ".join([*_struck(before, now), *changed]) or "nothing changed"


def _struck(before: Any, now: Any) -> list[str]:
    """Return whether an edit struck out, let count again, or gave another reason."""
    if before.struck == now.struck:
        return []
    if not now.struck:
        return [f"counts again (it was struck out because: {before.struck})"]
    return [f"struck out because: {now.struck}"]


def _said(row: Any, name: str) -> str:
    """Return a field of a record in words."""
    value = getattr(row, name)
    if name == "readings":
        return ", ".join(reading["written"] for reading in value)
    if name == "method":
        return str(row.get_method_display())
    if isinstance(value, bool):
        return "yes" if value else "no"
    return day_words(value) if isinstance(value, date) else str(value or "nothing")
