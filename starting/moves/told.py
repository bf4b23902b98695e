"""What was last told of a horse, from one day to the next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from starting.moves.marks import Marks, marks_of
from starting.moves.moving import Move, carried, moves
from starting.outlook.values import Outlook


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """The marks that the moves of ``on`` are measured from, and the newest ones."""

    on: date
    since: Marks
    newest: Marks


def tell_today(told: Told | None, outlook: Outlook) -> tuple[Told, tuple[Move, ...]]:
    """Return what is told of a new outlook, and all the moves of its day.

    However often a day is planned, its moves are measured from the day before: what
    goes to and fro within a day leaves nothing. Of the first outlook nothing moved.
    """
    newest = marks_of(outlook)
    if told is None:
        return Told(on=outlook.on, since=newest, newest=newest), ()
    since = told.since
    if told.on != outlook.on:
        since = carried(told.since, told.newest)
    return Told(on=outlook.on, since=since, newest=newest), moves(since, newest)
