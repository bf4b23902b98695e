"""What the gates look at, and what they answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Literal

from fitting.age import Foaled
from fitting.body import Standing
from fitting.condition import Scored
from fitting.croup import Judged
from fitting.fit import Finding
from fitting.weight import BestWeight, Trend
from starting.programme import Programme
from starting.progress import Progress, SessionDone

GateKind = Literal["dated", "to_do", "on_the_day"]


class GateAnswer(StrEnum):
    """Unknown is never met."""

    MET = "met"
    CAUTION = "caution"
    SHUT = "shut"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True, kw_only=True)
class CareDone:
    """One visit; ``clear``: nothing open was found."""

    kind: str  # vet, teeth, farrier, saddle_fitter, vaccination, worming, back, ...
    on: date
    clear: bool = True
    wolf_teeth: Literal["none", "left", "out"] | None = None
    healing_until: date | None = None
    next_due: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Off:
    """Off work from a day: until a day, or until cleared by somebody."""

    start: date
    why: str
    until: date | None = None
    cleared_by: str = ""
    cleared_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RestSpan:
    """Turned away, both days inside; ``end`` None: not yet known."""

    start: date
    end: date | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Somebody:
    """A rider or a trainer; the weight (kg) is theirs dressed to ride."""

    name: str
    weight_kg: float | None = None
    has_backed_horses: bool = False
    child: bool = False
    trains: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A caution passed with a written reason."""

    stage: str
    gate: str
    reason: str
    who: str
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureStands:
    """A measure's standing on the day asked."""

    measure: str
    name: str
    standing: Standing
    last_on: date | None = None
    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GateFacts:
    """All that the gates look at, for one horse on one day."""

    name: str
    she: str  # she, he
    foaled: Foaled
    programme: Programme
    progress: Progress
    sessions: tuple[SessionDone, ...] = ()
    measures: tuple[MeasureStands, ...] = ()
    croup: tuple[Judged, ...] = ()  # over the withers, in order of the day
    findings: tuple[Finding, ...] = ()
    set_names: tuple[str, ...] = ()  # made-up sets, by name
    care: tuple[CareDone, ...] = ()
    off: tuple[Off, ...] = ()
    rests: tuple[RestSpan, ...] = ()
    passed: tuple[Passed, ...] = ()
    trend: Trend | None = None  # of the weight, on the day of these facts
    scored: Scored | None = None  # the newest condition score
    weight: BestWeight | None = None  # to go by on the day of these facts
    rider: Somebody | None = None  # whom the plan names
    trainer: Somebody | None = None
    tack_kg: float | None = None  # all of it
    hemisphere: str = "north"  # north, south
    covered: bool = False  # the yard has a covered place to work


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """One gate of one step on one day.

    ``opens_on``: for a dated gate that is shut, the day it opens by itself; None if
    it is open, or nobody can say. ``rests_on``: the day of the record it rests on; a
    reason written before that day no longer counts.
    """

    stage: str
    gate: str
    kind: GateKind
    answer: GateAnswer
    why: str
    would_meet: str = ""
    opens_on: date | None = None
    record: str = ""  # "measure:mouth_width", "care:teeth", "item:...", "set:...", ...
    rests_on: date | None = None
    sources: tuple[str, ...] = ()
    caution: str = ""
    may_pass: bool = False
    went_ahead: bool = False
    went_ahead_because: str = ""
