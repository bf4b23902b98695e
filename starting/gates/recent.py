"""Whether there was enough good practice just before a step up."""

from __future__ import annotations

from datetime import date
from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_LAME, say_day, say_days
from starting.progress import is_good

# Source: ours; a programme may name others for a step.
RECENT_GOOD: Final = (4, 14)  # good sessions, days


def recent_sessions(ask: Asked) -> Gate:
    """Return whether there were good sessions enough lately; one fewer is a caution.

    Source: ours.
    """
    needed, days = ask.stage.recent_good or RECENT_GOOD
    good = good_days(ask, days)
    answer = _answer(len(good), needed)
    met = answer is GateAnswer.MET
    last = f", the last on {say_day(good[-1])}" if good else ""
    asked = "" if met else f"; this step asks for {needed} (ours)"
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=f"{ask.name} has had {_sessions(len(good))} in the last {say_days(days)}"
        f"{last}{asked}.",
        would_meet="" if met else f"{_sessions(needed)} within {say_days(days)}.",
        record="sessions",
        rests_on=good[-1] if good else None,
        sources=("ours",),
        caution=CAUTION_LAME,
    )


def good_days(ask: Asked, days: int) -> tuple[date, ...]:
    """Return the day of each good session of the last days, in order.

    A session of a step that the programme does not know counts for nothing.
    """
    stages = {stage.key: stage for stage in ask.facts.programme.stages}
    good = (
        done.on
        for done in ask.facts.sessions
        if 0 <= (ask.on - done.on).days <= days
        and done.stage in stages
        and is_good(stages[done.stage], done)
    )
    return tuple(sorted(good))


def _answer(good: int, needed: int) -> GateAnswer:
    if good >= needed:
        return GateAnswer.MET
    nearly = good == needed - 1 and good > 0
    return GateAnswer.CAUTION if nearly else GateAnswer.SHUT


def _sessions(count: int) -> str:
    return f"{count or 'no'} good session{'' if count == 1 else 's'}"
