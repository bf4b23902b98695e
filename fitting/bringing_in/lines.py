"""One line of a file becomes measurements, or sentences that say why not."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from difflib import get_close_matches
from typing import Final

from fitting.body import MEASURES, Measure, UnknownMeasureError, measure_by_key
from fitting.bringing_in.columns import bare, measure_named, unit_in
from fitting.bringing_in.days import NoDayError, read_day
from fitting.bringing_in.table import Line, Table
from fitting.bringing_in.values import Entry, How, Known, KnownHorse, Trouble
from fitting.readings import Reading, UnreadableReadingError, echo, read_reading
from fitting.units.grammar import FRACTIONS, LONGEST_TEXT

MOST_IN_A_CELL: Final = 300  # characters; as long as a note may be
MOST_IN_WHO: Final = 60  # characters
MOST_GUESSES: Final = 50  # words of one file that a likely meaning is sought for; ours
MOST_READINGS: Final = 12  # of one measure on one day by one method; ours
_PARTS_READINGS: Final = re.compile(r"[|;]")
_YES: Final = frozenset({"yes", "y", "true", "1", "x", "shod", "same"})
_NO: Final = frozenset({"", "no", "n", "false", "0", "unshod", "barefoot", "other"})
_METHODS: Final = {
    bare(called): method.key
    for measure in MEASURES
    for method in measure.methods
    for called in (method.key, method.name, method.name.split(",")[0])
}


class NotReadError(ValueError):
    """Why a line, or one size of it, cannot be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A table, how it is read, and what the yard knows."""

    table: Table
    how: How
    known: Known
    at: Mapping[str, int]  # the column of each role
    names: Mapping[str, tuple[KnownHorse, ...]]  # horses by their small-letter names
    asked: set[str] = field(default_factory=set)  # measures without a method so far
    guessed: dict[str, str] = field(default_factory=dict)  # what words may be meant for

    def cell(self, line: Line, role: str) -> str:
        """Return what a line says of a role; empty: nothing, or no such column."""
        at = self.at.get(role, len(line.cells))
        return line.cells[at] if at < len(line.cells) else ""

    def nearest(self, word: str, names: Iterable[str]) -> str:
        """Return the name that a word may be meant for; empty: none."""
        if word not in self.guessed:
            if len(self.guessed) >= MOST_GUESSES:
                return ""
            close = get_close_matches(word[:MOST_IN_WHO], names, n=1)
            self.guessed[word] = close[0] if close else ""
        return self.guessed[word]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Size:
    """What a line says of one measure."""

    measure: Measure
    texts: tuple[str, ...]
    is_wide: bool  # the measure has a column of its own


def make_sheet(table: Table, how: How, known: Known) -> Sheet:
    """Return a table ready to be read line by line."""
    names: dict[str, tuple[KnownHorse, ...]] = {}
    for horse in known.horses:
        names[bare(horse.name)] = (*names.get(bare(horse.name), ()), horse)
    at = {role: number for number, role in enumerate(how.roles) if role}
    return Sheet(table=table, how=how, known=known, at=at, names=names)


def read_line(line: Line, sheet: Sheet) -> Iterator[Entry | Trouble]:
    """Yield what one line comes to: measurements, and why others cannot be read."""
    try:
        common = _common(line, sheet)
        sizes = tuple(_sizes(line, sheet))
    except NotReadError as error:
        yield Trouble(line=line.number, said=str(error))
        return
    if not sizes:
        yield Trouble(line=line.number, said="No reading is written.")
    for size in sizes:
        try:
            method = _method(size, sheet.cell(line, "method"), sheet)
            readings = tuple(_reading(size.measure, t, sheet) for t in size.texts)
        except NotReadError as error:
            said = f"{size.measure.name.capitalize()}: {error}"
            yield Trouble(line=line.number, said=said)
            continue
        yield replace(
            common, measure=size.measure.key, method=method, readings=readings
        )


def _common(line: Line, sheet: Sheet) -> Entry:
    """Return what every measurement of a line shares, no measure said yet.

    Raises:
        NotReadError: something of it cannot be read.
    """
    _bounded(line, sheet)
    horse = _horse(sheet.cell(line, "horse"), sheet)
    who = sheet.cell(line, "who")
    if len(who) > MOST_IN_WHO:
        raise NotReadError(f"Who measured takes at most {MOST_IN_WHO} characters.")
    return Entry(
        lines=(line.number,),
        horse=horse.key,
        measure="",
        on=_on(sheet.cell(line, "day"), horse, sheet),
        method="",
        readings=(),
        who=who,
        same_person=_yes_or_no(sheet.cell(line, "same_person")),
        shod=_yes_or_no(sheet.cell(line, "shod")),
        note=sheet.cell(line, "note"),
    )


def _bounded(line: Line, sheet: Sheet) -> None:
    width = len(sheet.table.headings)
    if any(line.cells[width:]):
        raise NotReadError(
            f"There are {len(line.cells)} cells under {width} headings. A comma inside"
            " a cell needs quotation marks round it."
        )
    if any(len(cell) > MOST_IN_A_CELL for cell in line.cells):
        raise NotReadError(f"A cell takes at most {MOST_IN_A_CELL} characters.")


def _horse(name: str, sheet: Sheet) -> KnownHorse:
    if not name:
        for horse in sheet.known.horses:
            if horse.key == sheet.how.horse:
                return horse
        raise NotReadError("No horse is named.")
    found = sheet.names.get(bare(name), ())
    exact = [horse for horse in found if horse.name == name] or found
    if len(exact) == 1:
        return exact[0]
    if exact:
        both = " or ".join(horse.name for horse in exact)
        raise NotReadError(f"{echo(name)} may be {both}.")
    close = sheet.nearest(bare(name), sheet.names)
    meant = f" {sheet.names[close][0].name} may be meant." if close else ""
    raise NotReadError(f"No horse here is called {echo(name)}.{meant}")


def _on(text: str, horse: KnownHorse, sheet: Sheet) -> date:
    if not text:
        raise NotReadError("No day is written.")
    try:
        on = read_day(text, sheet.how.order)
    except NoDayError as error:
        raise NotReadError(str(error).replace(text, echo(text))) from None
    if on > sheet.known.today:
        raise NotReadError(f"{echo(text)}: that day is still to come.")
    if on < horse.foaled.first:
        raise NotReadError(
            f"{echo(text)}: on that day {horse.name} was not foaled yet."
        )
    return on


def _yes_or_no(text: str) -> bool:
    said = text.casefold()
    if said not in _YES | _NO:
        raise NotReadError(f"{echo(text)} is neither yes nor no.")
    return said in _YES


def _sizes(line: Line, sheet: Sheet) -> Iterator[_Size]:
    """Yield every measure that a line has readings of.

    Raises:
        NotReadError: a reading stands beside no measure that there is.
    """
    unit = sheet.cell(line, "unit")
    if text := sheet.cell(line, "reading"):
        measure = _measure(sheet.cell(line, "measure"), sheet)
        said = unit or unit_in(sheet.table.headings[sheet.at["reading"]])
        texts = _texts(text, "" if measure.dimension == "score" else said)
        yield _Size(measure=measure, texts=texts, is_wide=False)
    for key in dict.fromkeys(sheet.how.roles):
        try:
            measure = measure_by_key(key)
        except UnknownMeasureError:
            continue
        if wide := tuple(_wide_texts(line, sheet, measure, unit)):
            yield _Size(measure=measure, texts=wide, is_wide=True)


def _measure(text: str, sheet: Sheet) -> Measure:
    if not text:
        raise NotReadError("No measure is named beside the reading.")
    if key := measure_named(text):
        return measure_by_key(key)
    close = sheet.nearest(bare(text), [measure.name for measure in MEASURES])
    meant = f" {close.capitalize()} may be meant." if close else ""
    raise NotReadError(f"There is no measure called {echo(text)}.{meant}")


def _wide_texts(line: Line, sheet: Sheet, measure: Measure, unit: str) -> Iterator[str]:
    """Yield what the columns of one measure say."""
    for heading, role, cell in zip(
        sheet.table.headings, sheet.how.roles, line.cells, strict=False
    ):
        if role == measure.key and cell:
            said = "" if measure.dimension == "score" else unit or unit_in(heading)
            yield from _texts(cell, said)


def _texts(cell: str, unit: str) -> tuple[str, ...]:
    """Return the readings of a cell, each with the unit beside it if it has none."""
    texts = [text.strip() for text in _PARTS_READINGS.split(cell)]
    if len(texts) > MOST_READINGS:
        raise NotReadError(f"A cell holds at most {MOST_READINGS} readings.")
    return tuple(
        f"{text} {unit}" if unit and _is_bare(text) else text for text in texts if text
    )


def _is_bare(text: str) -> bool:
    return text[-1] in FRACTIONS or text[-1].isdigit()


def _method(size: _Size, written: str, sheet: Sheet) -> str:
    """Return the key of the method; one of another measure counts for that alone.

    Raises:
        NotReadError: there is no such method, or none is written.
    """
    methods = {method.key: method for method in size.measure.methods}
    key = _METHODS.get(bare(written), "")
    if key in methods:
        return key
    if written and not (key and size.is_wide):
        there_are = ", ".join(m.name.split(",")[0] for m in methods.values())
        raise NotReadError(f"{echo(written)} is not how it is taken: {there_are}.")
    if len(methods) == 1:
        return next(iter(methods))
    sheet.asked.add(size.measure.key)
    chosen = dict(sheet.how.methods).get(size.measure.key, "")
    if chosen in methods:
        return chosen
    raise NotReadError("No method is written. Say how it was taken.")


def _reading(measure: Measure, text: str, sheet: Sheet) -> Reading:
    try:
        return read_reading(
            text[: LONGEST_TEXT + 1], measure.dimension, sheet.how.units
        )
    except UnreadableReadingError as error:
        meant = " or ".join(meant.label for meant in error.meant)
        more = f" It may mean {meant}." if meant else ""
        raise NotReadError(f"{error}{more}") from None
