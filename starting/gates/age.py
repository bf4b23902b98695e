"""The age gate: by true age, never before a step's floor."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from fitting.age import completed_months, reaches_months
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_AGE, say_day, say_days
from starting.programme import Stage, mounted

# Source: the floor 24 (tack) is ours, as is a rider's 36; tack's earliest 30 rests on
# the 2020 guideline.
TACK_FLOOR_MONTHS: Final = 24


def age(ask: Asked) -> Gate:
    """Return whether the horse is old enough, by true age from its last possible day.

    Source: BML 2020; FN; SI 2018/486; Haussler 1997; floors ours.
    """
    floor, earliest = _floor_day(ask), _earliest_day(ask)
    opens = max(floor or earliest, earliest)
    if ask.on >= opens:
        answer = GateAnswer.MET
    elif floor is not None and ask.on < floor:
        answer = GateAnswer.SHUT
    else:
        answer = GateAnswer.CAUTION
    met = answer is GateAnswer.MET
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="dated",
        answer=answer,
        why=_age_why(ask, answer, opens),
        would_meet=""
        if met
        else f"{_asked_age(ask).capitalize()}, on {say_day(opens)}.",
        opens_on=None if met else opens,
        record="horse:foaled",
        sources=_age_sources(ask.stage),
        caution=CAUTION_AGE,
    )


def _earliest_day(ask: Asked) -> date:
    if ask.stage.earliest_days is not None:
        return ask.facts.foaled.last + timedelta(days=ask.stage.earliest_days)
    return reaches_months(ask.facts.foaled, ask.stage.earliest_months)


def _floor_day(ask: Asked) -> date | None:
    if ask.stage.floor_months is None:
        return None
    return reaches_months(ask.facts.foaled, ask.stage.floor_months)


def _asked_age(ask: Asked) -> str:
    if ask.stage.earliest_days is not None:
        return say_days(ask.stage.earliest_days)
    months = max(ask.stage.earliest_months, ask.stage.floor_months or 0)
    return f"{months:g} month{'' if months == 1 else 's'}" if months else "any age"


def _age_said(ask: Asked) -> str:
    foaled = ask.facts.foaled
    if ask.on < foaled.last:
        return f"{ask.name} may have been foaled as late as {say_day(foaled.last)}"
    months = completed_months(foaled, ask.on)
    if months < 1:
        old = say_days((ask.on - foaled.last).days)
    else:
        old = f"{months} month{'' if months == 1 else 's'}"
    least = "" if foaled.first == foaled.last else "at least "
    return f"{ask.name} is {least}{old} old"


def _age_why(ask: Asked, answer: GateAnswer, opens: date) -> str:
    said, asked = _age_said(ask), _asked_age(ask)
    if answer is GateAnswer.MET:
        return f"{said}; this step asks for {asked}."
    if answer is GateAnswer.SHUT:
        said = f"{said}, under the floor of {ask.stage.floor_months:g} months (ours)"
    return f"{said}; this step is for {asked}, which is on {say_day(opens)}."


def _age_sources(stage: Stage) -> tuple[str, ...]:
    if mounted(stage):
        return ("fn_backing", "hire_2018", "strand_2007", "haussler_1997", "ours")
    if (stage.floor_months or 0) >= TACK_FLOOR_MONTHS:
        return ("bml_2020", "ours")
    return ("ours",)
