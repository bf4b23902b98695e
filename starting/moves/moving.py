"""The moves from one set of marks to another: small ones are none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, Literal

from starting.moves.marks import AHEAD, Kind, Mark, Marks

STEP_MOVES_FROM_DAYS: Final = 3  # ours: as in the calendar, less is noise
ITEM_MOVES_FROM_DAYS: Final = 7  # ours: a week
GOOD: Final = "good"
KINDS: Final[tuple[Kind, ...]] = ("step", "item")

What = Literal[
    "later", "sooner", "dated", "undated", "established", "reopened", "left_out",
    "taken_up", "appears", "vanishes", "good", "not_good",
]  # fmt: skip
MIRROR: Final[dict[What, What]] = {
    "later": "sooner",
    "sooner": "later",
    "dated": "undated",
    "undated": "dated",
    "established": "reopened",
    "reopened": "established",
    "left_out": "taken_up",
    "taken_up": "left_out",
    "appears": "vanishes",
    "vanishes": "appears",
    "good": "not_good",
    "not_good": "good",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One step or item that moved; ``before`` or ``after`` None: not there then."""

    kind: Kind
    what: What
    before: Mark | None
    after: Mark | None

    @property
    def mark(self) -> Mark:
        """The newest mark there is of it."""
        found = self.after or self.before
        if found is None:
            raise ValueError("a move is of something")
        return found

    @property
    def days(self) -> int | None:
        """By how many days it moved, later above nought; None: not by days."""
        was = self.before.day if self.before else None
        now = self.after.day if self.after else None
        return (now - was).days if was and now else None


def moves(before: Marks, after: Marks) -> tuple[Move, ...]:
    """Return what moved, steps in the programme's order, then items.

    A step counts from 3 days on, an item from 7. A step that is in the programme of
    one side only appears or vanishes, unless that side has no way up at all.
    """
    late = max(before.on, after.on)
    return tuple(
        found
        for kind in KINDS
        for was, now in _pairs(before, after, kind)
        if (found := move(kind, was, now, late)) is not None
    )


def _pairs(
    before: Marks, after: Marks, kind: Kind
) -> Iterator[tuple[Mark | None, Mark | None]]:
    was, now = before.of(kind), after.of(kind)
    if not was or not now:
        return
    both = kind == "item"  # what is put up or taken down has not moved
    for subject in dict.fromkeys((*now, *was)):
        if not both or (subject in was and subject in now):
            yield was.get(subject), now.get(subject)


def move(kind: Kind, was: Mark | None, now: Mark | None, on: date) -> Move | None:
    """Return the move of one subject; None: it has not moved."""
    what: What | None
    if was is None or now is None:
        what = "appears" if was is None else "vanishes"
    elif kind == "step":
        what = _of_step(was, now)
    else:
        what = _of_item(was, now, on)
    return Move(kind=kind, what=what, before=was, after=now) if what else None


def _of_step(was: Mark, now: Mark) -> What | None:
    if was.state != now.state:
        return _of_state(was.state, now.state)
    if was.state != AHEAD or was.day == now.day:
        return None
    if was.day is None or now.day is None:
        return "dated" if was.day is None else "undated"
    return _by(was.day, now.day, STEP_MOVES_FROM_DAYS)


def _of_state(was: str, now: str) -> What:
    if now == "left_out":
        return "left_out"
    if was == "left_out":
        return "taken_up"
    return "established" if now == "established" else "reopened"


def _of_item(was: Mark, now: Mark, on: date) -> What | None:
    """Return how an item moved; one not good counts as ending on the day itself."""
    what = _by(_end(was, on), _end(now, on), ITEM_MOVES_FROM_DAYS)
    if what is None or was.state == now.state:
        return what
    return "good" if now.state == GOOD else "not_good"


def _end(mark: Mark, on: date) -> date:
    if mark.state != GOOD:
        return on
    return mark.day or date.max


def _by(was: date, now: date, least: int) -> What | None:
    moved = (now - was).days
    if abs(moved) < least:
        return None
    return "later" if moved > 0 else "sooner"


def carried(before: Marks, after: Marks) -> Marks:
    """Return what the next day's moves are measured from.

    What moved is told, and counts from where it is now; what moved too little to be
    told keeps its old place, so that small moves cannot add up unseen.
    """
    told = {(one.kind, one.mark.subject) for one in moves(before, after)}
    return replace(
        after,
        on=max(before.on, after.on),  # as they were compared
        steps=tuple(_kept(before, after, "step", told)),
        items=tuple(_kept(before, after, "item", told)),
    )


def _kept(
    before: Marks, after: Marks, kind: Kind, told: set[tuple[Kind, str]]
) -> Iterator[Mark]:
    was = before.of(kind)
    for subject, now in after.of(kind).items():
        yield now if (kind, subject) in told else was.get(subject, now)


def net(found: Iterable[Move]) -> tuple[Move, ...]:
    """Return what moves of several days come to, given in the order of their days.

    What went to and fro, or came to less than counts, is left away.
    """
    first: dict[tuple[Kind, str], Mark | None] = {}
    last: dict[tuple[Kind, str], Mark | None] = {}
    for one in found:
        key = one.kind, one.mark.subject
        first.setdefault(key, one.before)
        last[key] = one.after
    come_to = (
        move(kind, first[kind, subject], now, date.min)
        for (kind, subject), now in last.items()
        if first[kind, subject] or now
    )
    return tuple(one for one in come_to if one)
