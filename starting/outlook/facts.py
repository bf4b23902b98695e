"""The facts an outlook is computed from, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.age import Foaled
from fitting.body import HorseType, Taken
from fitting.fit import MadeUp, Tack
from fitting.fit.edges import OURS, Edges
from fitting.lending import Lent
from fitting.tryons import TryOn
from fitting.wanted import Got, Peg
from starting.dated.ticks import Ticked
from starting.gates import CareDone, Off, Passed, RestSpan, Somebody
from starting.programme import Programme
from starting.progress import Incident, Recorded, SessionDone


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredText:
    """One measurement, and its readings as they were typed."""

    taken: Taken
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """The step hoped for, by a day if one is named. It moves no date."""

    stage: str
    by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseFacts:
    """Everything written down about one horse that the outlook rests on.

    ``programme`` None: a grown horse, kept for comparison. ``key`` stays when the
    horse is renamed: entries of the diary are named by it.
    """

    key: str
    name: str
    she: str
    horse_type: HorseType
    foaled: Foaled
    grown: bool = False
    lives_out: bool = False
    dam_height_mm: float | None = None
    sire_height_mm: float | None = None
    clearances: tuple[tuple[str, float], ...] = ()
    edges: Edges = OURS
    measured: tuple[MeasuredText, ...] = ()
    tryons: tuple[TryOn, ...] = ()
    programme: Programme | None = None
    may_ask: bool = False  # nobody has chosen the programme yet: another may suit
    as_early_as_allowed: bool = False
    aim: Aim | None = None
    rider: Somebody | None = None
    trainer: Somebody | None = None
    tack_kg: float | None = None
    sessions: tuple[SessionDone, ...] = ()
    records: tuple[Recorded, ...] = ()
    care: tuple[CareDone, ...] = ()
    incidents: tuple[Incident, ...] = ()
    off: tuple[Off, ...] = ()
    rests: tuple[RestSpan, ...] = ()
    passed: tuple[Passed, ...] = ()
    borrowed: tuple[Lent, ...] = ()
    got: tuple[Got, ...] = ()
    first_worn: tuple[tuple[str, date], ...] = ()  # items, with the day
    ticked: tuple[Ticked, ...] = ()  # plain tasks of the diary

    @property
    def rider_named(self) -> bool:
        """Whether the plan names somebody to ride."""
        return self.rider is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class YardFacts:
    """One yard: its days, its tack and its horses; weekdays 0 (Monday) to 6."""

    name: str
    slug: str
    hemisphere: str
    free_days: frozenset[int]
    helper_days: frozenset[int]
    sessions_a_day: int
    tack: tuple[Tack, ...]
    made_up: tuple[MadeUp, ...]
    horses: tuple[HorseFacts, ...]
    pegs: tuple[Peg, ...] = ()  # whose each item is
    altered: tuple[tuple[str, date], ...] = ()  # items, the last day sizes changed
    covered: bool = False  # there is a covered place to work
