"""What a plan is made from, and what it says."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from starting.programme import Stage

HORIZON_MONTHS: Final = 60

Binding = Literal[
    "done", "now", "age", "typical_age", "stage_before", "gate", "rest", "care",
    "days_a_week", "days_in_a_row", "free_day", "capacity", "second_person",
    "vaccination", "gelding", "off_work", "beyond_horizon", "cannot_say",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """Something dated that keeps a step shut until a day (first open day)."""

    gate: str
    until: date | None  # None: nobody can say when it opens
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """Days ahead on which a dated gate will shut a step again, both ends inside."""

    gate: str
    first: date
    last: date
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StageAhead:
    """One step of one horse that is neither established nor left out.

    A step of sessions that is not established needs one session at least. A rest
    under way counts from its first recent day.
    """

    stage: Stage
    sessions_left: int
    fewest_left: int | None = None  # for the draws; None: as many as sessions_left
    most_left: int | None = None
    good_sessions: int = 0  # so far; the first ask for a helper who later need not come
    under_way: bool = False
    holds: tuple[Hold, ...] = ()
    closed: tuple[Closed, ...] = ()
    to_dos: tuple[str, ...] = ()  # taken as done on the first possible day
    recent_days: tuple[date, ...] = ()  # session days already done, for the limits


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseAhead:
    """One horse to plan for."""

    horse: str
    born: date  # the last possible foaling day
    stages: tuple[StageAhead, ...]  # in the programme's order
    done: tuple[str, ...] = ()  # established or left out
    rests: tuple[tuple[date, date | None], ...] = ()  # both inside; None: no end
    reckoned_ends: tuple[date, ...] = ()  # ends of rests that nobody wrote down
    off_work: tuple[tuple[date, date | None], ...] = ()  # both inside; None: no end
    care_days: tuple[date, ...] = ()
    vaccinated: tuple[date, ...] = ()
    gelded: tuple[tuple[date, date | None], ...] = ()  # nothing new; None: no end
    recent_days: tuple[date, ...] = ()  # of all its steps; today's count as taken
    as_early_as_allowed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class YardDays:
    """The days the people have; weekdays 0 (Monday) to 6."""

    free: frozenset[int]
    helper: frozenset[int] = frozenset()
    sessions_a_day: int = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Because:
    """The one constraint that, relaxed by a day, would move the date."""

    kind: Binding
    text: str
    subject: str = ""  # a step's key, a gate's key ...


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedStage:
    """A step with its days; ``start`` None: cannot be dated, ``because`` says why.

    ``days`` has one entry a session (a day stands twice when it takes two), the day
    of a check or an event, and nothing for a rest. ``finish`` None beside a start:
    it ends beyond the horizon. ``finish_because`` says what sets the pace between
    the two; None: nothing does.
    """

    stage: str
    start: date | None
    finish: date | None
    days: tuple[date, ...]
    because: Because
    finish_because: Because | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A step's early and late end; ``late`` None: it may lie beyond the horizon."""

    early: date
    late: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HorsePlan:
    """The dated plan of one horse, in the programme's order."""

    horse: str
    stages: tuple[PlannedStage, ...]
