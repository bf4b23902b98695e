"""What the months of one youngster are made from, and one line of a month."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Final

from starting.schedule.days import say_day

DONE: Final = ("established", "left_out")
ALIKE_FROM: Final = 3  # steps; so many that came to the same are told as one


def say_in(on: date, month: date) -> str:
    """Return a day as it is said under a month: without its year if that is the same.

    ``12 Mar``, ``12 Mar 2027``.
    """
    return say_day(on) if on.year != month.year else say_day(on)[:-5]


@dataclass(frozen=True, slots=True, kw_only=True)
class GateSeen:
    """What of a gate is shown here: the day it opens by itself."""

    gate: str
    kind: str
    answer: str
    opens_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSeen:
    """What of a step is shown here."""

    stage: str
    name: str
    kind: str
    state: str
    start: date | None
    finish: date | None
    finish_early: date | None
    finish_late: date | None
    because: str
    may_start: bool = False
    go_over_again: bool = False
    sessions_left: int = 0
    established_on: date | None = None
    because_kind: str = ""
    held_by: str = ""
    gates: tuple[GateSeen, ...] = ()

    @property
    def ahead(self) -> bool:
        """Whether it still has to be done."""
        return self.state not in DONE

    @property
    def shown_state(self) -> str:
        """Its state as its sign is named."""
        return "go_over_again" if self.go_over_again else self.state


@dataclass(frozen=True, slots=True, kw_only=True)
class EntrySeen:
    """What of an entry of the diary is shown here."""

    on: date
    kind: str
    title: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What of an outlook is shown here."""

    horse: str
    key: str
    on: date
    stages: tuple[StepSeen, ...]
    entries: tuple[EntrySeen, ...] = ()

    @property
    def dated(self) -> tuple[StepSeen, ...]:
        """The steps with a first day ahead, in order; some once more."""
        return tuple(s for s in self.stages if s.start)

    @property
    def drawn(self) -> bool:
        """Whether early and late ends are known; true where there is nothing to draw.

        A yard of many youngsters has the likely days alone.
        """
        ends = [s for s in self.dated if s.finish]
        return not ends or any(s.finish_early for s in ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A record of one day: what it is, and what more is said."""

    on: date
    what: str
    said: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spell:
    """A rest, or time off work: both days inside; ``last`` None: no end is named."""

    first: date
    last: date | None
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """What is written down of one horse.

    ``sessions``: how many of each step in each month, by the month's first day;
    ``begun``: the first session ever of each step; ``measured``: day and measure.
    """

    sessions: Mapping[tuple[date, str], int] = field(default_factory=dict)
    begun: Mapping[str, date] = field(default_factory=dict)
    measured: tuple[tuple[date, str], ...] = ()
    first_worn: tuple[Dated, ...] = ()
    care: tuple[Dated, ...] = ()
    spells: tuple[Spell, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a month: a word that leads, what is said, the sign of a state.

    ``stage``: the step it is of, to lead there; ``ahead``: it is planned, not written.
    """

    on: date
    lead: str
    said: str
    sign: str = ""
    stage: str = ""
    ahead: bool = False
