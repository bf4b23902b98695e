"""How many sessions a horse takes beside the usual number, from its own log."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil
from typing import Final

from starting.programme import Programme, Stage
from starting.progress import Progress, SessionDone, StageProgress

USUAL_WEIGHS: Final = 20  # sessions: the usual number against the log; ours
QUICKEST: Final = 0.5  # ours
SLOWEST: Final = 2.0  # ours
TOLD_FROM: Final = 0.1


def own_pace(
    programme: Programme, progress: Progress, sessions: Sequence[SessionDone]
) -> float:
    """Return the sessions a horse takes for each usual one: 1 as usual, 2 twice.

    Steps that the log established count with all their sessions up to that day, and
    steps under way once they took more than usual. Steps set by hand say nothing.
    """
    taken, usual = 0.0, 0.0
    for of_step, middle in _told(programme, progress, sessions):
        taken, usual = taken + of_step, usual + middle
    pace = (taken + USUAL_WEIGHS) / (usual + USUAL_WEIGHS)
    return min(max(pace, QUICKEST), SLOWEST)


def _told(
    programme: Programme, progress: Progress, sessions: Sequence[SessionDone]
) -> Iterator[tuple[int, float]]:
    """Yield the sessions a step took, beside its usual number."""
    until = {step.stage: step.established_on for step in progress.stages}
    taken = Counter(
        done.stage
        for done in sessions
        if done.stage in until and done.on <= (until[done.stage] or done.on)
    )
    for stage, step in zip(programme.stages, progress.stages, strict=True):
        middle = sum(stage.typical_sessions) / 2
        by_log = step.established_on and taken[stage.key] >= stage.min_good_sessions
        slow = step.state == "under_way" and taken[stage.key] > middle
        if stage.kind == "sessions" and middle and (by_log or slow):
            yield taken[stage.key], middle


def at_own_pace(programme: Programme, progress: Progress, pace: float) -> Progress:
    """Return the progress with the sessions still needed as the horse takes them.

    Never fewer than the rules still ask for.
    """
    return replace(
        progress,
        stages=tuple(
            replace(step, sessions_left=_left(stage, step, pace))
            for stage, step in zip(programme.stages, progress.stages, strict=True)
        ),
    )


def _left(stage: Stage, step: StageProgress, pace: float) -> int:
    if not step.required_left:
        return step.sessions_left
    return _still(sum(stage.typical_sessions) / 2, step, pace)


def fewest_and_most(stage: Stage, step: StageProgress, pace: float) -> tuple[int, int]:
    """Return the fewest and the most sessions still needed, at a pace."""
    low, high = stage.typical_sessions
    return _still(low, step, pace), _still(high, step, pace)


def _still(usual: float, step: StageProgress, pace: float) -> int:
    if step.clean_left:
        return step.clean_left
    return max(ceil(usual * pace) - step.good_sessions, step.required_left)


def pace_words(name: str, pace: float) -> str:
    """Return how a horse's pace differs from the usual; empty: hardly at all."""
    if abs(pace - 1) < TOLD_FROM:
        return ""
    return (
        f"By the log {name} takes {pace:.1f} sessions where one is usual"
        " (ours): the plan reckons with it."
    )
