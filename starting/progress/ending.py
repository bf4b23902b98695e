"""Where a way up may end without a rider: a small pony, finished in long reins."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from starting.programme import Programme
from starting.programme.order import below
from starting.progress.values import Progress, StageProgress

AHEAD = frozenset({"waiting", "open"})


def beyond_end(programme: Programme) -> frozenset[str]:
    """Return the steps after the one a way up may end at, that it does not need."""
    end = programme.may_end_at
    if end is None:
        return frozenset()
    keys = [stage.key for stage in programme.stages]
    waits = {stage.key: stage.prerequisites for stage in programme.stages}
    return frozenset(keys[keys.index(end) + 1 :]) - below(waits, end)


def ends_there(programme: Programme, rider: str | None, aim: str | None) -> bool:
    """Whether a way up ends there: nobody is named to ride, and no aim lies beyond."""
    return (
        programme.may_end_at is not None
        and rider is None
        and aim not in beyond_end(programme)
    )


def without_a_rider(programme: Programme, progress: Progress) -> Progress:
    """Return the progress with all that lies beyond the end left out, if not begun."""
    beyond = beyond_end(programme)
    stages = (
        _left_out(step) if step.stage in beyond and step.state in AHEAD else step
        for step in progress.stages
    )
    return replace(progress, stages=tuple(stages))


def _left_out(step: StageProgress) -> StageProgress:
    return replace(
        step, state="left_out", sessions_left=0, required_left=0, clean_left=0
    )


def completed_on(programme: Programme, progress: Progress) -> date | None:
    """Return the day on which the step a way up may end at was established, if any."""
    end = programme.may_end_at
    return progress.of(end).established_on if end else None
