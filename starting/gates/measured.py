"""Whether a measure still stands."""

from __future__ import annotations

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer, MeasureStands
from starting.gates.words import say_day


def fresh(ask: Asked) -> Gate:
    """Return whether a measurement still stands; never measured is not known."""
    found = (at for at in ask.facts.measures if at.measure == ask.what)
    stands = next(found, None)
    answer = _answer(ask, stands)
    name = _name(ask, stands)
    met = answer is GateAnswer.MET
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=_why(ask, stands, answer),
        would_meet="" if met else f"Measure {ask.hers} {name}.",
        record=f"measure:{ask.what}",
        rests_on=stands.last_on if stands else None,
        sources=("ours",),
    )


def _name(ask: Asked, stands: MeasureStands | None) -> str:
    name = stands.name if stands and stands.name else ask.what.replace("_", " ")
    return name[:1].lower() + name[1:]


def _answer(ask: Asked, stands: MeasureStands | None) -> GateAnswer:
    if stands is None or stands.standing == "never":
        return GateAnswer.NOT_KNOWN
    past = stands.until is not None and ask.on > stands.until
    if stands.standing == "stale" or past:
        return GateAnswer.CAUTION
    return GateAnswer.MET


def _why(ask: Asked, stands: MeasureStands | None, answer: GateAnswer) -> str:
    whose = f"{ask.name}'s {_name(ask, stands)}"
    if stands is None or answer is GateAnswer.NOT_KNOWN:
        return f"Can't say: {whose} was never measured, nor anything tried on."
    taken = f" of {say_day(stands.last_on)}" if stands.last_on else ""
    if answer is GateAnswer.CAUTION:
        stood = f" after {say_day(stands.until)}" if stands.until else " now"
        return f"{whose}{taken} does not stand{stood}: {ask.she} is still changing."
    until = f" until {say_day(stands.until)}" if stands.until else ""
    return f"{whose}{taken} stands{until}."
