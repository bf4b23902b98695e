"""Lists of readings for tests, and the yard that they are brought into."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from typing import Any, Final

from fitting.age import read_foaled
from fitting.bringing_in import (
    Entry,
    How,
    Known,
    KnownHorse,
    Outcome,
    Stands,
    come_to,
    find_delimiter,
    find_order,
    match_headings,
    plain_text,
    read_table,
)
from fitting.readings import Units

TODAY: Final = date(2026, 11, 25)
PENNYROYAL: Final = KnownHorse(
    key="pennyroyal",
    name="Pennyroyal",
    she="she",
    foaled=read_foaled("2024-04-19"),
    horse_type="pony",
)
OLD_MARL: Final = KnownHorse(
    key="old-marl",
    name="Old Marl",
    she="he",
    foaled=read_foaled("2008"),
    horse_type="pony",
)
METRIC: Final = Units(height="cm", length="cm", weight="kg")
HEADINGS: Final = (
    *("Horse", "Day", "Measure", "Reading", "Method"),
    *("Who", "Same person", "Shod", "Note"),
)


def known(units: Units = METRIC, *standing: Stands) -> Known:
    """Return a yard of two horses, on a day in November."""
    return Known(
        horses=(PENNYROYAL, OLD_MARL), standing=standing, units=units, today=TODAY
    )


def found_in(text: str, yard: Known, **changed: Any) -> Outcome:
    """Return what a text comes to as it is found; ``changed``: what the keeper says."""
    plain = plain_text(text)
    delimiter = changed.get("delimiter") or find_delimiter(plain)
    table = read_table(plain, delimiter)
    roles = changed.get("roles") or match_headings(table.headings)
    days = table.column(roles.index("day")) if "day" in roles else ()
    how = How(
        delimiter=delimiter, roles=roles, order=find_order(days), units=yard.units
    )
    return come_to(table, replace(how, **changed), yard)


def line(text: str, yard: Known | None = None, **changed: Any) -> Outcome:
    """Return what one line comes to under the usual headings."""
    return found_in(
        f"Horse,Day,Measure,Reading,Method\n{text}", yard or known(), **changed
    )


def said(outcome: Outcome) -> list[str]:
    """Return every sentence that says why not, as ``2: sentence``."""
    return [f"{trouble.line}: {trouble.said}" for trouble in outcome.troubles]


def as_list(entries: Iterable[Entry], sign: str) -> str:
    """Return measurements as a list that a keeper may have."""
    names = {horse.key: horse.name for horse in (PENNYROYAL, OLD_MARL)}
    held = io.StringIO()
    writer = csv.writer(held, delimiter=sign)
    writer.writerow(HEADINGS)
    for entry in entries:
        writer.writerow(_cells(entry, names[entry.horse]))
    return held.getvalue()


def _cells(entry: Entry, name: str) -> Sequence[str]:
    return (
        name,
        entry.on.isoformat(),
        entry.measure,
        " | ".join(reading.written for reading in entry.readings),
        entry.method,
        entry.who,
        "yes" if entry.same_person else "no",
        "yes" if entry.shod else "",
        entry.note,
    )
