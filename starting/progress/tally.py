"""What the log says of one step by itself, counted day by day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import Final

from starting.programme import Stage
from starting.progress.log import Log, is_good, tried
from starting.progress.values import CheckAnswer, SessionDone

YES_DAYS: Final = 2  # ours: a check is yes on its last two tried days
CLEAN_SESSIONS: Final = 2  # ours: no stop sign in the last two sessions
_WORST_FIRST: Final = ("no", "nearly", "yes")


@dataclass(slots=True, kw_only=True)
class Tally:
    """One step's sessions, counted; ``yes_days``: per check, its last ones running."""

    good: int = 0
    sessions: int = 0
    clean: int = CLEAN_SESSIONS  # sessions since the last stop sign
    yes_days: dict[str, int]  # per check, its last tried days running that were yes
    last_checks: dict[str, CheckAnswer] = field(default_factory=dict)
    first_on: date | None = None
    last_on: date | None = None
    last_good: date | None = None
    established_on: date | None = None
    left_out: bool = False
    clean_days: int = 0  # its first days running, each clean
    missed: bool = False  # one of its days was not clean

    def add_day(self, stage: Stage, day: Sequence[SessionDone]) -> None:
        """Count the sessions of one day, which have no order among themselves."""
        good = sum(is_good(stage, session) for session in day)
        self.good += good
        self.sessions += len(day)
        stopped = any(session.stop is not None for session in day)
        self.clean = 0 if stopped else self.clean + len(day)
        answers: dict[str, CheckAnswer] = {}
        for key, answer in (pair for session in day for pair in tried(stage, session)):
            worse = answers.get(key, answer)
            answers[key] = min(answer, worse, key=_WORST_FIRST.index)
        for key, answer in answers.items():
            self.yes_days[key] = self.yes_days[key] + 1 if answer == "yes" else 0
        self.missed = self.missed or stopped or not _all_yes(stage, answers)
        self.clean_days += not self.missed
        self.last_checks |= answers
        self.first_on = self.first_on or day[0].on
        self.last_on = day[0].on
        self.last_good = day[0].on if good else self.last_good

    def clean_left(self, stage: Stage) -> int:
        """Return the clean days until established so; 0: there is no such way now."""
        lost = self.missed and self.clean_days < stage.clean_days
        return 0 if lost else max(stage.clean_days - self.clean_days, 0)

    def still_required(self, stage: Stage) -> int:
        """Return the fewest sessions, on days of their own, until established."""
        if stage.clean_days and self.clean_days >= stage.clean_days:
            return 0
        if left := self.clean_left(stage):
            return left
        return max(
            stage.min_good_sessions - self.good,
            YES_DAYS - min(self.yes_days.values(), default=YES_DAYS),
            CLEAN_SESSIONS - self.clean,
            0,
        )


def _all_yes(stage: Stage, answers: Mapping[str, CheckAnswer]) -> bool:
    """Whether every check of a step was tried, and answered yes."""
    return all(answers.get(check.key) == "yes" for check in stage.checks)


def tally_of(stage: Stage, log: Log) -> Tally:
    """Return what the log says of one step by itself."""
    tally = Tally(yes_days={check.key: 0 for check in stage.checks})
    by_log: date | None = None
    for on, day in groupby(log.sessions[stage.key], key=lambda done: done.on):
        tally.add_day(stage, tuple(day))
        met = stage.kind == "sessions" and tally.still_required(stage) == 0
        by_log = by_log or (on if met else None)
    by_hand = log.by_hand(stage.key)
    tally.established_on = min(filter(None, (by_log, by_hand)), default=None)
    record = log.records.get(stage.key)
    if record and record.state == "left_out":
        tally.left_out = tally.last_on is None or tally.last_on <= record.on
    return tally
