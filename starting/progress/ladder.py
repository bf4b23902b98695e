"""After 60 days without a rider: brought back, before anything with one goes on.

All numbers here are ours.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from itertools import pairwise
from typing import Final

from starting.programme import Stage, mounted
from starting.progress.log import Log
from starting.progress.tally import Tally
from starting.progress.values import Held

OFF_DAYS: Final = 60  # ours
# One good session of each, in order, of those it knew: ours.
RUNGS: Final = ("roller", "long_reins", "saddle", "leaned_over", "led_walk")


def long_off(log: Log, tallies: Mapping[str, Tally]) -> dict[str, Held]:
    """Return each mounted step that waits until the horse is brought back.

    Where the programme has a step for that and the horse had come so far, it is that
    step; else one good session of each rung that the horse knew, from below.
    """
    ridden = [s for s in log.programme.stages if mounted(s) and s.kind == "sessions"]
    last = _last_before_a_gap(log, tallies, ridden)
    if last is None:
        return {}
    opened = last + timedelta(days=OFF_DAYS)
    step = _step_back(ridden, tallies, last)
    if step is not None:
        good, needed = log.good(step, opened), step.min_good_sessions
        by_hand = log.by_hand(step.key)
        to = "" if good >= needed or (by_hand and by_hand > opened) else step.key
    else:
        good, needed = 0, 1
        to = _next_rung(log, tallies, ridden, last) or ""
    if not to:
        return {}
    held = {
        stage.key: Held(
            rule="long_off",
            stage=stage.key,
            since=last,
            to=to,
            needed=needed,
            good=good,
        )
        for stage in ridden
    }
    held.pop(to, None)
    return held


def _last_before_a_gap(
    log: Log, tallies: Mapping[str, Tally], ridden: list[Stage]
) -> date | None:
    """Return the last day with a rider before the latest 60 days without one."""
    days = {one.on for stage in ridden for one in log.sessions[stage.key]}
    by_hand = (log.by_hand(stage.key) for stage in ridden)
    days |= {on for on in by_hand if on is not None}
    gaps = [a for a, b in pairwise(sorted({*days, log.today})) if _too_long(a, b)]
    return gaps[-1] if gaps else None


def _too_long(last: date, then: date) -> bool:
    return (then - last).days > OFF_DAYS


def _step_back(
    ridden: list[Stage], tallies: Mapping[str, Tally], last: date
) -> Stage | None:
    """Return the programme's own step of bringing back, if the horse came so far."""
    for stage in ridden:
        once = stage.prerequisites_once
        if once and all(_knew(tallies[key], last) for key in once):
            return stage
    return None


def _knew(tally: Tally, by: date) -> bool:
    return tally.established_on is not None and tally.established_on <= by


def _next_rung(
    log: Log, tallies: Mapping[str, Tally], ridden: list[Stage], last: date
) -> str | None:
    """Return the first rung without a good session since; None: all are done."""
    known = [s for s in log.programme.stages if _knew(tallies[s.key], last)]
    rungs = [s for s in known if s.key in RUNGS and s.kind == "sessions"]
    if not any(stage in ridden for stage in rungs):
        rungs += [stage for stage in ridden if stage in known]
    opened = last + timedelta(days=OFF_DAYS)
    left = (stage.key for stage in rungs if not log.good(stage, opened))
    return next(left, None)
