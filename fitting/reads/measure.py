"""What the pages of measuring show: what is asked, and all that was measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from typing import Any, Final

from fitting.body import MEASURES, Measure, measure_by_key, middle
from fitting.looks import MeasureLook, Seen
from fitting.models import Horse, Measurement
from fitting.readings import Units, show, understood
from fitting.reads.outlook import seen_of
from fitting.reads.units import day_words, units_of

DUE_WITHIN_DAYS: Final = 7  # ours: what is due in a week is asked for now
# One walk round the horse, from its head to its hind end.
WALK: Final = (
    ("head", "The head"),
    ("height", "Heights and legs"),
    ("girth", "Girth and weight"),
    ("back", "The trunk"),
)
# What a first walk round a horse asks for: ours.
FIRST_ASKED: Final = ("mouth_width", "head_length", "withers_height", "heart_girth")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One measure on the page: how it stood, and whether it is due."""

    measure: Measure
    title: str
    last: str
    stale: bool
    due: bool
    by: date | None
    method: str
    last_on: date | None = None
    last_value: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToMeasure:
    """What is asked on the page of measuring, and who measured last."""

    seen: Seen | None
    now: tuple[Asked, ...]
    later: tuple[Asked, ...]
    who: str
    same_person: bool

    @property
    def due(self) -> tuple[Asked, ...]:
        """What is due."""
        return tuple(one for one in self.now if one.due)


def to_measure(horse: Horse, on: date, wanted: Sequence[str] = ()) -> ToMeasure:
    """Return what to measure on a day (2 queries: outlook, last measurement).

    ``wanted`` measures are asked for first, due or not.
    """
    seen = seen_of(horse)
    last = horse.measurements.order_by("-on", "-pk").first()
    due = _due(seen, on) if seen else set()
    first = {*due, *wanted} or set(FIRST_ASKED)
    units = units_of(horse.yard)
    asked = [_asked(m, seen, units, due=m.key in due) for m in in_walk()]
    return ToMeasure(
        seen=seen,
        now=tuple(one for one in asked if one.measure.key in first),
        later=tuple(one for one in asked if one.measure.key not in first),
        who=last.who if last else "",
        same_person=last.same_person if last else False,
    )


def in_walk() -> Iterator[Measure]:
    """Yield every measure in the order of one walk round the horse."""
    for group, _ in WALK:
        yield from (measure for measure in MEASURES if measure.group == group)


def _due(seen: Seen, on: date) -> set[str]:
    """Return the measures due now or within a week."""
    until = on + timedelta(days=DUE_WITHIN_DAYS)
    due = {m.measure for m in seen.measures if m.measure_by and m.measure_by <= until}
    for day in seen.measuring_days:
        if day.on <= until:
            due |= set(day.measures)
    return due


def _asked(measure: Measure, seen: Seen | None, units: Units, *, due: bool) -> Asked:
    look = seen.measure(measure.key) if seen else None
    last = look.last if look else None
    return Asked(
        measure=measure,
        title=measure.name.capitalize(),
        last=_last_words(look, units) if look else "Not measured yet.",
        stale=bool(look and look.standing == "stale"),
        due=due,
        by=look.measure_by if look else None,
        method=last.method if last else measure.methods[0].key,
        last_on=last.on if last else None,
        last_value=last.value if last else None,
    )


def _last_words(look: MeasureLook, units: Units) -> str:
    """Return the last reading in words, ``Last 13.0 hands, stick, 12 Nov 2026``."""
    last = look.last
    if last is None:
        return "Not measured yet."
    size = show(last.value, look.dimension, units)
    method = Measurement(method=last.method).get_method_display()
    return f"Last {size}, {method}, {day_words(last.on)}."


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


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredDay:
    """All that was measured on one day."""

    on: date
    rows: tuple[MeasuredRow, ...]


def measured_days(horse: Horse) -> tuple[MeasuredDay, ...]:
    """Return all that was ever measured, newest day first (1 query)."""
    units = units_of(horse.yard)
    rows = horse.measurements.order_by("-on", "measure", "pk")
    return tuple(
        MeasuredDay(on=on, rows=tuple(measured_row(row, units) for row in of_day))
        for on, of_day in groupby(rows, key=lambda row: row.on)
    )


def measured_row(row: Measurement, units: Units) -> MeasuredRow:
    """Return one measurement as it is shown."""
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
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One edit of a record: when, by whom, and what it changed, in words."""

    at: datetime
    who: str
    said: str


_NAMES: Final = {
    "on": "day",
    "readings": "readings",
    "method": "method",
    "who": "measured by",
    "same_person": "the usual person",
    "shod": "shod",
    "struck": "struck out because",
    "note": "note",
}


def edits_of(row: Measurement) -> tuple[Edit, ...]:
    """Return every edit of a measurement, newest first (1 query)."""
    kept: list[Any] = list(row.history.select_related("history_user").order_by("-pk"))
    return tuple(
        Edit(
            at=now.history_date,
            who=str(now.history_user or "somebody"),
            said=_changes(before, now) if before else "written in",
        )
        for now, before in zip(kept, [*kept[1:], None], strict=True)
    )


def _changes(before: Any, now: Any) -> str:
    """Return what an edit changed, in words."""
    changed = [
        f"{said}: {_said(before, name)} became {_said(now, name)}"
        for name, said in _NAMES.items()
        if getattr(before, name) != getattr(now, name)
    ]
    return "; ".join(changed) or "nothing changed"


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
