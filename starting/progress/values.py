"""What the log holds, and what it says of each step."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from starting.programme import StopLevel

CheckAnswer = Literal["yes", "nearly", "no", "not_tried"]
State = Literal["waiting", "open", "under_way", "established", "left_out"]
Rule = Literal[
    "go_back", "lost_yes", "stuck", "incident", "long_off", "new_tack", "outgrown",
]  # fmt: skip
Look = Literal["vet", "teeth", "back", "feet", "saddle", "tack"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionDone:
    """One session in the log; ``worn``: the names of items known to be worn."""

    on: date
    stage: str
    minutes: int | None = None
    checks: tuple[tuple[str, CheckAnswer], ...] = ()
    stop: StopLevel | None = None
    worn: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """A step set by hand: established by its record, or left out."""

    stage: str
    state: Literal["established", "left_out"]
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Incident:
    """Something that went wrong: ``fall``, ``bolt``, ``line_dragged`` ..."""

    on: date
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """Somebody looked at a part of the horse or its tack; ``clear``: nothing open."""

    what: Look
    on: date
    clear: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class NewTack:
    """The kind of tack of which all that fits is new to the horse, or was altered.

    ``items``: any of these will do; ``since``: the day the last of them was altered,
    so that only a later session tells; None: new, any session in it tells.
    """

    kind: str
    items: tuple[str, ...]
    since: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outgrown:
    """A kind of tack that the horse has worn, and of which nothing fits any more.

    ``items``: what it wore; ``since``: the last day on which all was well in one.
    """

    kind: str
    items: tuple[str, ...]
    since: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What is written down beside sessions and records, and holds steps back."""

    incidents: tuple[Incident, ...] = ()
    looked: tuple[Looked, ...] = ()
    new_tack: tuple[NewTack, ...] = ()
    outgrown: tuple[Outgrown, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A rule that holds a step: since when, what is done meanwhile, what it waits for.

    ``to``: the step to do instead, until it has ``needed`` good sessions or, of a
    check, its record. ``opens_on``: the first day on which it may open, if only time
    holds it until then. ``waits_for``: who has to look first.
    """

    rule: Rule
    stage: str
    since: date
    to: str = ""
    needed: int = 0
    good: int = 0
    opens_on: date | None = None
    waits_for: tuple[Look, ...] = ()
    what: str = ""  # the kind of incident, or of tack
    items: tuple[str, ...] = ()  # the tack that was outgrown


@dataclass(frozen=True, slots=True, kw_only=True)
class StageProgress:
    """How far one step has got, and the rules that hold it."""

    stage: str
    state: State
    go_over_again: bool = False
    good_sessions: int = 0
    sessions: int = 0
    sessions_left: int = 0
    required_left: int = 0  # the fewest that the rules still ask for
    established_on: date | None = None
    last_on: date | None = None
    last_checks: tuple[tuple[str, CheckAnswer], ...] = ()  # on its last tried day
    fresh_on: date | None = None  # last day that kept it fresh, once established
    fresh_until: date | None = None  # last day before it needs going over again
    held: tuple[Held, ...] = ()
    again_since: date | None = None  # the incident since which it is climbed again
    clean_left: int = 0  # clean days until established so; 0: by its full count


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Every step's state, in the programme's order, and the last true level."""

    stages: tuple[StageProgress, ...]
    last_true_level: str | None

    def of(self, stage: str) -> StageProgress:
        """Return how far ``stage`` has got.

        Raises:
            KeyError: the programme has no such step.
        """
        for of in self.stages:
            if of.stage == stage:
                return of
        raise KeyError(stage)
