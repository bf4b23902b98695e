"""What a file comes to: its lines read, put together, and held against the yard."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from itertools import islice
from typing import Final

from fitting.body import measure_by_key, middle
from fitting.bringing_in.columns import ROLES
from fitting.bringing_in.days import unclear_day
from fitting.bringing_in.lines import MOST_READINGS, make_sheet, read_line
from fitting.bringing_in.table import Line, Table
from fitting.bringing_in.values import (
    Entry,
    How,
    Known,
    KnownHorse,
    Outcome,
    Stands,
    Trouble,
)
from fitting.doubts import apart, believed
from fitting.readings import Units, echo, show, show_between, show_difference

MOST_ENTRIES: Final = 5_000  # of one file; ours
_SAME: Final = 0.05  # mm, kg or score: nearer sizes are one size; ours


def come_to(table: Table, how: How, known: Known) -> Outcome:
    """Return what a file comes to, read as the keeper says."""
    asks = tuple(_asks(table, how, known))
    if asks:
        return Outcome(lines=len(table.lines), asks=asks)
    sheet = make_sheet(table, how, known)
    lines, troubles = _once(table.lines)
    every = (one for line in lines for one in read_line(line, sheet))
    read = list(islice(every, 2 * MOST_ENTRIES))
    taken = [one for one in read if isinstance(one, Entry)]
    if len(taken) > MOST_ENTRIES or next(every, None):
        said = f"There are more than {MOST_ENTRIES} readings. Part the file."
        return Outcome(lines=len(table.lines), asks=(said,))
    entries, more = _held_against(_together(taken), known)
    troubles += [one for one in read if isinstance(one, Trouble)] + more
    return Outcome(
        lines=len(table.lines),
        methods_asked=tuple(sorted(sheet.asked)),
        entries=entries,
        troubles=tuple(sorted(troubles, key=lambda t: (t.line, t.said))),
    )


def _asks(table: Table, how: How, known: Known) -> Iterator[str]:
    """Yield what must be said before any line can be read."""
    held = Counter(role for role in how.roles if role)
    yield from _columns_asked(held)
    if "horse" not in held and not how.horse:
        yield "No column names the horse. Choose which does, or say whose they all are."
    if "day" not in held:
        yield "No column names the day. Choose which does."
    if "day" in held and how.order == "ask":
        yield from _order_asked(table.column(how.roles.index("day")))
    if not known.horses:
        yield "A horse comes first: there is none in the yard."


def _columns_asked(held: Counter[str]) -> Iterator[str]:
    for role, times in held.items():
        if role in ROLES and times > 1:
            yield f"{times} columns are taken for {ROLES[role]}: choose one."
    if ("measure" in held) != ("reading" in held):
        yield "A column with measures needs one with readings beside it."
    elif "measure" not in held and not any(role not in ROLES for role in held):
        yield "No column holds readings. Choose which does, and of what."


def _order_asked(days: tuple[str, ...]) -> Iterator[str]:
    unclear = unclear_day(days)
    if unclear:
        yield f"{echo(unclear)} may mean two days. Say which comes first, day or month."
    else:
        yield "Some days have the month first, some the day. Say which is to be read."


def _once(lines: Iterable[Line]) -> tuple[list[Line], list[Trouble]]:
    """Return the lines without those that say word for word what one above says."""
    first: dict[tuple[str, ...], int] = {}
    kept, twice = [], []
    for line in lines:
        above = first.setdefault(line.cells, line.number)
        if above == line.number:
            kept.append(line)
        else:
            said = f"The same as line {above}, word for word: it is read once."
            twice.append(Trouble(line=line.number, said=said, stands=True))
    return kept, twice


def _together(entries: Iterable[Entry]) -> list[Entry]:
    """Put readings of one measure, day, method and person into one measurement."""
    grouped: dict[tuple[object, ...], Entry] = {}
    for entry in entries:
        occasion = (entry.horse, entry.measure, entry.on, entry.method)
        key = (*occasion, entry.who, entry.same_person, entry.shod, entry.note)
        before = grouped.get(key)
        if before is None:
            grouped[key] = entry
        else:
            grouped[key] = replace(
                before,
                lines=tuple(dict.fromkeys((*before.lines, *entry.lines))),
                readings=(*before.readings, *entry.readings),
            )
    return list(grouped.values())


def _held_against(
    entries: Iterable[Entry], known: Known
) -> tuple[tuple[Entry, ...], list[Trouble]]:
    """Return what may be written in, with its doubts, and why the rest may not."""
    horses = {horse.key: horse for horse in known.horses}
    standing: dict[tuple[str, str, date, str], list[Stands]] = {}
    for row in known.standing:
        key = (row.horse, row.measure, row.on, row.method)
        standing.setdefault(key, []).append(row)
    kept: list[Entry] = []
    troubles: list[Trouble] = []
    for entry in entries:
        rows = standing.get((entry.horse, entry.measure, entry.on, entry.method), [])
        said, stands = _refused(entry, rows, horses[entry.horse].name)
        if said:
            more = [Trouble(line=n, said=said, stands=stands) for n in entry.lines]
            troubles += more
        else:
            doubts = (
                *_apart_words(entry, known.units),
                *_age_words(entry, horses[entry.horse], known.units),
                *_beside_words(rows, known.units),
            )
            kept.append(replace(entry, doubts=doubts))
    return tuple(kept), troubles


def _refused(entry: Entry, rows: list[Stands], name: str) -> tuple[str, bool]:
    """Return why a measurement is not written in, and whether it is here already."""
    measure = measure_by_key(entry.measure)
    title = measure.name.capitalize()
    if len(entry.readings) > MOST_READINGS:
        said = f"{title}: more than {MOST_READINGS} readings of {name} that day."
        return said, False
    for row in rows:
        if _holds(row.values, entry.values):
            struck = ", struck out" if row.struck else ""
            return f"{title} of {name}: this stands here already{struck}.", True
    return "", False


def _holds(standing: tuple[float, ...], sizes: tuple[float, ...]) -> bool:
    """Return whether every size is among those that stand, each used once."""
    left = list(standing)
    for size in sizes:
        same = next((one for one in left if abs(one - size) < _SAME), None)
        if same is None:
            return False
        left.remove(same)
    return True


def _apart_words(entry: Entry, units: Units) -> Iterator[str]:
    measure = measure_by_key(entry.measure)
    method = measure.method(entry.method)
    found = apart(entry.values, method, same_person=entry.same_person)
    if found is not None:
        off = show_difference(abs(found.off), measure.dimension, units)
        repeats = show_difference(found.repeats, measure.dimension, units)
        name = method.name.split(",")[0]
        yield f"The readings lie {off} apart. A {name} repeats to within {repeats}."


def _age_words(entry: Entry, horse: KnownHorse, units: Units) -> Iterator[str]:
    low, high = believed(entry.measure, horse.horse_type, horse.foaled, entry.on)
    if not low <= middle(entry.values) <= high:
        between = show_between(
            low, high, measure_by_key(entry.measure).dimension, units
        )
        yield f"Far from what is usual of this type at that age, {between}."


def _beside_words(rows: Iterable[Stands], units: Units) -> Iterator[str]:
    for row in rows:
        if not row.struck:
            dimension = measure_by_key(row.measure).dimension
            stands = show(middle(row.values), dimension, units)
            yield f"{stands} stands here already for that day, taken the same way."
