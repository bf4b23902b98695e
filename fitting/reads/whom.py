"""Whom an item or a made-up set fits, youngster by youngster, as a list tells it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from fitting.by_name import in_order
from fitting.fit.answers import Answer
from fitting.looks import Seen
from fitting.models import Yard
from fitting.reads.lent import LoanRow
from fitting.reads.outlook import seen
from fitting.told import Verdict, verdicts

MOST_COLUMNS: Final = 6  # youngsters beside each other; more: only those it fits
SHOWN_NAMES: Final = 6
FITS: Final = (Answer.GOOD, Answer.WATCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A youngster at the head of a column, or in a run of names.

    ``stale``: how old the size is that an answer on it goes by, if too old.
    """

    name: str
    key: str
    stale: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What an item is on one youngster."""

    name: str
    key: str
    answer: Answer
    more: str
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Youngsters that an item is alike on, as a run of names."""

    answer: Answer
    names: tuple[Column, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemRow:
    """One item, or one made-up set: a cell each, or of many youngsters the runs."""

    name: str
    key: str
    size: str
    about: str
    lent: tuple[LoanRow, ...] = ()
    cells: tuple[Cell, ...] = ()
    runs: tuple[Run, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """The youngsters with their verdicts by item."""

    columns: tuple[Column, ...]
    told: Mapping[str, Mapping[str, Verdict]]
    many: bool

    def row(self, item: ItemRow) -> ItemRow:
        """Return a row with what it is on each youngster."""
        cells = [self._cell(column, item.name) for column in self.columns]
        if self.many:
            return replace(item, runs=_runs(cells))
        return replace(item, cells=tuple(cells))

    def _cell(self, column: Column, item: str) -> Cell:
        return cell_of(column, self.told[column.key].get(item))


def _runs(cells: Sequence[Cell]) -> tuple[Run, ...]:
    """Return those it fits: good first, then only just."""
    found = []
    for answer in FITS:
        names = [
            Column(name=cell.name, key=cell.key, stale=cell.stale)
            for cell in cells
            if cell.answer is answer
        ]
        more = len(names) - SHOWN_NAMES
        if more <= 1:  # to say "and 1 more" takes as much room as the name
            more = 0
        if names:
            shown = tuple(names[: len(names) - more])
            found.append(Run(answer=answer, names=shown, more=more))
    return tuple(found)


def sight_of(yard: Yard) -> Sight:
    """Return the youngsters with what all tack is on each (2 queries)."""
    young = yard.horses.filter(grown=False).values_list("name", "key")
    looks: Mapping[str, Seen] = seen(yard)
    columns = tuple(Column(name=name, key=key) for name, key in in_order(young))
    told = {
        column.key: verdicts(looks[column.key].fits) if column.key in looks else {}
        for column in columns
    }
    return Sight(columns=columns, told=told, many=len(columns) > MOST_COLUMNS)


def cell_of(column: Column, told: Verdict | None) -> Cell:
    """Return what an item is on a youngster: its hole, why not, or what would tell."""
    if told is None:
        answer, more = Answer.NOT_KNOWN, ""
    elif told.answer is Answer.NOT_KNOWN:
        answer, more = told.answer, told.known or told.ask
    else:
        answer = told.answer
        hung = told.hole and answer is not Answer.NO
        hole = f"hole {told.hole}" if hung else ""
        more = ", ".join(filter(None, (hole, told.short)))
    return Cell(
        name=column.name,
        key=column.key,
        answer=answer,
        more=more,
        stale=told.stale if told else "",
    )
