"""The log becomes each step's state.

A session is *good* when no stop sign was seen, at least one of its step's checks was
tried and none was answered no (ours). Sessions of one day have no order among
themselves: a check is yes on a day only if every answer of that day is yes. Sessions,
records and checks that the programme does not know are passed over, and so is all
that lies after the day asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import groupby
from typing import Final, Literal

from starting.programme import Programme, Stage, StopLevel

YES_DAYS: Final = 2  # ours: a check is yes on its last two tried days
CLEAN_SESSIONS: Final = 2  # ours: no stop sign in the last two sessions
_WORST_FIRST: Final = ("no", "nearly", "yes")

CheckAnswer = Literal["yes", "nearly", "no", "not_tried"]
State = Literal["waiting", "open", "under_way", "established", "left_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionDone:
    """One session in the log."""

    on: date
    stage: str
    minutes: int | None = None
    checks: tuple[tuple[str, CheckAnswer], ...] = ()
    stop: StopLevel | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """A step set by hand: established by its record, or left out."""

    stage: str
    state: Literal["established", "left_out"]
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class StageProgress:
    """How far one step has got."""

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


def is_good(stage: Stage, session: SessionDone) -> bool:
    """Whether a session was good: no stop sign, something tried, nothing no."""
    answers = {answer for _, answer in _tried(stage, session)}
    return session.stop is None and bool(answers) and "no" not in answers


def progress(
    programme: Programme,
    sessions: Sequence[SessionDone],
    records: Sequence[Recorded],
    today: date,
) -> Progress:
    """Return every step's state from the log on a day.

    ``waiting`` and ``open`` are told apart here by ``stages_before`` alone; the
    outlook turns ``open`` into ``waiting`` where another gate is shut. A step waits
    while a step before it is missing or needs going over again.
    """
    logged = _logged(programme, sessions, today)
    recorded = _recorded(records, today)
    tallies = {
        stage.key: _tally(stage, logged[stage.key], recorded.get(stage.key))
        for stage in programme.stages
    }
    kept = _fresh_on(programme, tallies)
    found: dict[str, StageProgress] = {}
    for stage in programme.stages:
        tally = tallies[stage.key]
        fresh = kept[stage.key] if tally.established_on else None
        ready = all(
            _passed(programme, stage, key, found) for key in stage.prerequisites
        )
        found[stage.key] = _progress_of(stage, tally, fresh, today, ready=ready)
    stages = tuple(found.values())
    true = [s.stage for s in stages if _holds(s)]
    return Progress(stages=stages, last_true_level=true[-1] if true else None)


@dataclass(slots=True, kw_only=True)
class _Tally:
    """What the log says of one step by itself, counted day by day."""

    good: int = 0
    sessions: int = 0
    clean: int = CLEAN_SESSIONS  # sessions since the last stop sign
    yes_days: dict[str, int]  # per check, its last tried days running that were yes
    last_checks: dict[str, CheckAnswer] = field(default_factory=dict)
    last_on: date | None = None
    established_on: date | None = None
    left_out: bool = False

    def add_day(self, stage: Stage, day: Sequence[SessionDone]) -> None:
        self.good += sum(is_good(stage, session) for session in day)
        self.sessions += len(day)
        stopped = any(session.stop is not None for session in day)
        self.clean = 0 if stopped else self.clean + len(day)
        answers: dict[str, CheckAnswer] = {}
        for key, answer in (pair for session in day for pair in _tried(stage, session)):
            worse = answers.get(key, answer)
            answers[key] = min(answer, worse, key=_WORST_FIRST.index)
        for key, answer in answers.items():
            self.yes_days[key] = self.yes_days[key] + 1 if answer == "yes" else 0
        self.last_checks |= answers
        self.last_on = day[0].on

    def still_required(self, stage: Stage) -> int:
        """Return the fewest sessions, on days of their own, until established."""
        return max(
            stage.min_good_sessions - self.good,
            YES_DAYS - min(self.yes_days.values(), default=YES_DAYS),
            CLEAN_SESSIONS - self.clean,
            0,
        )


def _tried(stage: Stage, session: SessionDone) -> list[tuple[str, CheckAnswer]]:
    known = {check.key for check in stage.checks}
    return [
        (key, answer)
        for key, answer in session.checks
        if key in known and answer != "not_tried"
    ]


def _logged(
    programme: Programme, sessions: Iterable[SessionDone], today: date
) -> dict[str, list[SessionDone]]:
    logged: dict[str, list[SessionDone]] = {s.key: [] for s in programme.stages}
    for session in sorted(sessions, key=lambda done: done.on):
        if session.stage in logged and session.on <= today:
            logged[session.stage].append(session)
    return logged


def _recorded(records: Iterable[Recorded], today: date) -> dict[str, Recorded]:
    """Return each step's last record; on one day *left out* outranks *established*."""
    known = (record for record in records if record.on <= today)
    return {
        record.stage: record
        for record in sorted(known, key=lambda r: (r.on, r.state == "left_out"))
    }


def _tally(
    stage: Stage, sessions: Iterable[SessionDone], record: Recorded | None
) -> _Tally:
    tally = _Tally(yes_days={check.key: 0 for check in stage.checks})
    by_log: date | None = None
    for on, day in groupby(sessions, key=lambda done: done.on):
        tally.add_day(stage, tuple(day))
        met = stage.kind == "sessions" and tally.still_required(stage) == 0
        by_log = by_log or (on if met else None)
    by_hand = record.on if record and record.state == "established" else None
    tally.established_on = min(filter(None, (by_log, by_hand)), default=None)
    if record and record.state == "left_out":
        tally.left_out = tally.last_on is None or tally.last_on <= record.on
    return tally


def _fresh_on(
    programme: Programme, tallies: Mapping[str, _Tally]
) -> dict[str, date | None]:
    """Return the last day that kept each step fresh: its own, or of a step above it.

    A step set by hand counts as gone over on the day of its record.
    """
    kept: dict[str, date | None] = {}
    for key, tally in tallies.items():
        kept[key] = _later(tally.last_on, tally.established_on)
    worked = {key: tally.last_on for key, tally in tallies.items()}
    for stage in reversed(programme.stages):
        for needed in stage.prerequisites:
            worked[needed] = _later(worked[needed], worked[stage.key])
            kept[needed] = _later(kept[needed], worked[needed])
    return kept


def _later(one: date | None, other: date | None) -> date | None:
    return max(filter(None, (one, other)), default=None)


def _passed(
    programme: Programme, stage: Stage, needed: str, found: Mapping[str, StageProgress]
) -> bool:
    before = found[needed]
    if before.state == "left_out":
        return programme.stage(needed).optional
    once = needed in stage.prerequisites_once
    return _holds(before) or (once and before.state == "established")


def _holds(stage: StageProgress) -> bool:
    return stage.state == "established" and not stage.go_over_again


def _progress_of(
    stage: Stage, tally: _Tally, fresh_on: date | None, today: date, *, ready: bool
) -> StageProgress:
    fresh_until = None
    if fresh_on and stage.refresh_after_days:
        fresh_until = fresh_on + timedelta(days=stage.refresh_after_days)
    return StageProgress(
        stage=stage.key,
        state=_state(tally, ready=ready),
        go_over_again=fresh_until is not None and fresh_until < today,
        good_sessions=tally.good,
        sessions=tally.sessions,
        sessions_left=_sessions_left(stage, tally),
        required_left=_required_left(stage, tally),
        established_on=tally.established_on,
        last_on=tally.last_on,
        last_checks=tuple(
            (check.key, tally.last_checks[check.key])
            for check in stage.checks
            if check.key in tally.last_checks
        ),
        fresh_on=fresh_on,
        fresh_until=fresh_until,
    )


def _state(tally: _Tally, *, ready: bool) -> State:
    if tally.established_on:
        return "established"
    if tally.left_out:
        return "left_out"
    if tally.sessions:
        return "under_way"
    return "open" if ready else "waiting"


def _required_left(stage: Stage, tally: _Tally) -> int:
    if tally.established_on or tally.left_out or stage.kind != "sessions":
        return 0
    return tally.still_required(stage)


def _sessions_left(stage: Stage, tally: _Tally) -> int:
    """Return the typical middle, rounded up, less the good ones; 0 when passed."""
    if tally.established_on or tally.left_out or stage.kind != "sessions":
        return 0
    middle = (sum(stage.typical_sessions) + 1) // 2
    return max(middle - tally.good, tally.still_required(stage))
