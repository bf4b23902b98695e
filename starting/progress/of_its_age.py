"""More good sessions from four years on, where a programme asks for them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from math import ceil
from typing import Final

from fitting.age import Foaled, completed_months
from starting.programme import Programme, Stage
from starting.progress.values import SessionDone

FROM_MONTHS: Final = 48  # ours: strength makes it harder after


def of_its_age(
    programme: Programme, foaled: Foaled, sessions: Iterable[SessionDone], on: date
) -> Programme:
    """Return a programme with the good sessions it asks of a horse as old as this.

    A step that was begun before keeps the count it was begun with, so that nothing
    established is lost on a birthday.
    """
    if programme.more_sessions == 1:
        return programme
    begun: dict[str, date] = {}
    for done in sessions:
        begun[done.stage] = min(done.on, begun.get(done.stage, done.on))
    stages = (
        _more(stage, programme.more_sessions)
        if completed_months(foaled, min(on, begun.get(stage.key, on))) >= FROM_MONTHS
        else stage
        for stage in programme.stages
    )
    return replace(programme, stages=tuple(stages))


def _more(stage: Stage, factor: float) -> Stage:
    low, high = (ceil(factor * count) for count in stage.typical_sessions)
    return replace(
        stage,
        min_good_sessions=ceil(factor * stage.min_good_sessions),
        typical_sessions=(low, high),
    )
