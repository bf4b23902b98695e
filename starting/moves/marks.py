"""What of an outlook may move: the end of each step, how long each item is good."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.fit import Answer
from fitting.who_fits import ItemLook, item_looks
from starting.outlook.values import Outlook, StageLook

Kind = Literal["step", "item"]
AHEAD: Final = "ahead"  # the state of a step neither established nor left out
DONE: Final = ("established", "left_out")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One step, or one item or set, as an outlook has it.

    ``day``: of a step its likely last day; of an item the first day it is no longer
    good; None: there is none, or it lies further off than is looked. ``left``: the
    sessions still to come; ``waits_for``: the step before; ``free``: nothing holds
    it, it can start or go on today.
    """

    subject: str  # a step's key, an item's name
    name: str
    state: str  # ahead, established, left_out; of an item its answer
    day: date | None = None
    because: str = ""
    waits_for: str = ""
    left: int = 0
    free: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """All that may move of one horse, on one day."""

    on: date
    steps: tuple[Mark, ...] = ()
    items: tuple[Mark, ...] = ()

    def of(self, kind: Kind) -> dict[str, Mark]:
        """Return the marks of one kind by their subject, in order."""
        found = self.steps if kind == "step" else self.items
        return {mark.subject: mark for mark in found}


def marks_of(outlook: Outlook) -> Marks:
    """Return the marks of an outlook; measuring days do not count."""
    return Marks(
        on=outlook.on,
        steps=tuple(map(_step, outlook.stages)),
        items=tuple(map(_item, item_looks(outlook.fits))),
    )


def _step(look: StageLook) -> Mark:
    done = look.state in DONE
    return Mark(
        subject=look.stage,
        name=look.name,
        state=look.state if done else AHEAD,
        day=None if done else look.finish,
        because="" if done else look.because,
        waits_for="" if done else look.held_by,
        left=0 if done else look.sessions_left,
        free=not done and look.because_kind == "now",
    )


def _item(look: ItemLook) -> Mark:
    good = look.answer is Answer.GOOD
    day = look.until if good else None
    return Mark(subject=look.item, name=look.item, state=str(look.answer), day=day)
