"""The sheet for measuring that is printed and filled in by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.body import IN_SHORT, MEASURES, in_walk, measure_by_key
from fitting.looks import MeasureLook, Seen
from fitting.models import Horse, Measurement, Yard
from fitting.readings import Units, show
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.outlook import seen, seen_of
from fitting.reads.to_measure import FIRST_ASKED, due_measures
from fitting.reads.units import near_words, units_of

UNIT_WORDS: Final = {"hands": "hands", "cm": "cm", "in": "inches", "mm": "mm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """One measure of the sheet."""

    measure: str
    title: str
    how: str
    last: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStop:
    """One place of the walk, with the measures taken there."""

    title: str
    stand: str
    rows: tuple[SheetRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The sheet of one horse; ``due``: whether any of it is due."""

    head: HorseHead
    due: bool
    stops: tuple[SheetStop, ...]


def sheet_of(
    horse: Horse, on: date, *, every: bool, wanted: Sequence[str] = ()
) -> Sheet:
    """Return the sheet of one horse (1 query)."""
    return _sheet(horse, seen_of(horse), on, every=every, wanted=wanted)


def sheets(yard: Yard, on: date, *, every: bool) -> tuple[Sheet, ...]:
    """Return a sheet for every youngster of the yard, by name (2 queries)."""
    known = seen(yard)
    youngsters = yard.horses.filter(grown=False).order_by("name")
    return tuple(
        _sheet(horse, known.get(horse.key), on, every=every) for horse in youngsters
    )


def _sheet(
    horse: Horse,
    look: Seen | None,
    on: date,
    *,
    every: bool,
    wanted: Sequence[str] = (),
) -> Sheet:
    known = {measure.key for measure in MEASURES}
    due = due_measures(look, on)
    asked = known if every else ({*due, *wanted} & known) or set(FIRST_ASKED)
    units = units_of(horse.yard)
    return Sheet(
        head=horse_head(horse, on),
        due=bool(due),
        stops=tuple(
            SheetStop(
                title=stop.title,
                stand=stop.stand,
                rows=tuple(_row(key, look, units, on) for key in stop.measures),
            )
            for stop in in_walk(asked)
        ),
    )


def _row(key: str, look: Seen | None, units: Units, on: date) -> SheetRow:
    measure = look.measure(key) if look else None
    return SheetRow(
        measure=key,
        title=measure_by_key(key).name.capitalize(),
        how=IN_SHORT[key],
        last=_last_shortly(measure, units, on),
    )


def _last_shortly(look: MeasureLook | None, units: Units, on: date) -> str:
    """Return the last reading in few words, ``last 35¾ in, tape, 10 Oct``."""
    last = look.last if look else None
    if look is None or last is None:
        return "never yet"
    size = show(last.value, look.dimension, units).removesuffix(" hands")
    method = Measurement(method=last.method).get_method_display()
    return f"last {size}, {method}, {near_words(last.on, on)}"


def bare_words(yard: Yard) -> str:
    """Return what a bare number on the sheet will be read as."""
    units = units_of(yard)
    return (
        f"A bare number is read as {UNIT_WORDS[units.height]} for a height,"
        f" {UNIT_WORDS[units.length]} for a length, {units.weight} for a weight; write"
        " any other unit beside it."
    )
