"""What the page of measuring asks for: one walk round the horse."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, cast

from fitting.body import (
    MEASURES,
    HorseType,
    Measure,
    Stop,
    Taken,
    in_walk,
)
from fitting.doubts import believed
from fitting.looks import MeasureLook, Seen
from fitting.models import Horse, Measurement
from fitting.readings import Units, show
from fitting.reads.facts import taken_fact
from fitting.reads.outlook import seen_of
from fitting.reads.units import day_words, units_of
from fitting.taking import doubted_words, repeats_words

DUE_WITHIN_DAYS: Final = 7  # ours: what is due in a week is asked for now
# What a first walk round a horse asks for: ours.
FIRST_ASKED: Final = ("mouth_width", "head_length", "withers_height", "heart_girth")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One measure on the page: how it stood, how it is taken, whether it is due.

    ``before`` is the newest measurement that counts.
    """

    measure: Measure
    title: str
    last: str
    stale: bool
    due: bool
    method: str
    repeats: str
    doubted: str
    before: Taken | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedStop:
    """One place of the walk, and what is asked there."""

    stop: Stop
    asked: tuple[Asked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToMeasure:
    """What is asked on the page of measuring, and who measured last."""

    seen: Seen | None
    now: tuple[AskedStop, ...]
    later: tuple[AskedStop, ...]
    who: str
    same_person: bool

    @property
    def due(self) -> tuple[Asked, ...]:
        """What is due."""
        return tuple(one for stop in self.now for one in stop.asked if one.due)


def to_measure(horse: Horse, on: date, wanted: Sequence[str] = ()) -> ToMeasure:
    """Return what to measure on a day (2 queries: outlook, measurements).

    ``wanted`` measures are asked for first, due or not.
    """
    seen = seen_of(horse)
    rows = list(horse.measurements.filter(struck="").order_by("-on", "-pk"))
    due = due_measures(seen, on)
    known = {measure.key for measure in MEASURES}
    first = ({*due, *wanted} & known) or set(FIRST_ASKED)
    asked = {
        measure.key: _asked(horse, measure, rows, on, due=measure.key in due, seen=seen)
        for measure in MEASURES
    }
    return ToMeasure(
        seen=seen,
        now=_walk(asked, first),
        later=_walk(asked, known - first),
        who=rows[0].who if rows else "",
        same_person=rows[0].same_person if rows else False,
    )


def _walk(asked: dict[str, Asked], wanted: set[str]) -> tuple[AskedStop, ...]:
    return tuple(
        AskedStop(stop=stop, asked=tuple(asked[key] for key in stop.measures))
        for stop in in_walk(wanted)
    )


def due_measures(seen: Seen | None, on: date) -> set[str]:
    """Return the measures due now or within a week."""
    if seen is None:
        return set()
    until = on + timedelta(days=DUE_WITHIN_DAYS)
    due = {m.measure for m in seen.measures if m.measure_by and m.measure_by <= until}
    for day in seen.measuring_days:
        if day.on <= until:
            due |= set(day.measures)
    return due


def _asked(
    horse: Horse,
    measure: Measure,
    rows: Sequence[Measurement],
    on: date,
    *,
    due: bool,
    seen: Seen | None,
) -> Asked:
    look = seen.measure(measure.key) if seen else None
    last = next((row for row in rows if row.measure == measure.key), None)
    units = units_of(horse.yard)
    return Asked(
        measure=measure,
        title=measure.name.capitalize(),
        last=last_words(look, units),
        stale=bool(look and look.standing == "stale"),
        due=due,
        method=last.method if last else measure.methods[0].key,
        repeats=repeats_words(measure, units),
        doubted=_doubted(horse, measure, on, units),
        before=taken_fact(last) if last else None,
    )


def _doubted(horse: Horse, measure: Measure, on: date, units: Units) -> str:
    """Return outside which sizes a reading is asked about; nothing for a score."""
    if measure.dimension == "score":
        return ""
    horse_type = cast("HorseType", horse.horse_type)
    low, high = believed(measure.key, horse_type, horse.foaled_days, on)
    return doubted_words(low, high, measure.dimension, units)


def last_words(look: MeasureLook | None, units: Units) -> str:
    """Return the last reading in words, ``Last 13.0 hands, stick, 12 Nov 2026``."""
    last = look.last if look else None
    if look is None or last is None:
        return "Not measured yet."
    size = show(last.value, look.dimension, units)
    method = Measurement(method=last.method).get_method_display()
    return f"Last {size}, {method}, {day_words(last.on)}."
