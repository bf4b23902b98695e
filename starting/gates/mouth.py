"""The gates of the mouth: teeth looked at, wolf teeth decided, healing over."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import CareDone, Gate, GateAnswer
from starting.gates.words import CAUTION_TEETH, say_day, say_days
from starting.programme import Stage

# Source: 90 days from a practice's "about three months before"; 180 from the six
# months several practices ask for under five years; 365 from yearly for all. Ours.
FIRST_BIT_DAYS: Final = (90, 180)
LATER_BIT_DAYS: Final = (180, 365)
# Source: ours; no good published figure. The professional's own day goes before it.
HEALING_DAYS: Final = 14
FIRST_BIT_STEPS: Final = frozenset({"body_check", "mouthing"})
SOURCES: Final = ("teeth_three_months", "teeth_six_months", "caps_30_48", "ours")
WOLF_SAID: Final = {
    "none": "has no wolf teeth",
    "left": "keeps the wolf teeth, left on advice",
    "out": "has had the wolf teeth out",
}


def is_first_bit(stage: Stage) -> bool:
    """Return whether a step stands at the first bit: the stricter teeth rule."""
    return stage.key in FIRST_BIT_STEPS or "wolf_teeth" in stage.gates_to_do


def healing_until(care: tuple[CareDone, ...], on: date) -> date | None:
    """Return the last healing day of the mouth, by all visits up to a day.

    Source: the day the professional gave; else 14 days after an extraction, ours.
    """
    return max(
        (end for visit in care if visit.on <= on and (end := _heals(visit))),
        default=None,
    )


def _heals(visit: CareDone) -> date | None:
    if visit.kind != "teeth" and visit.wolf_teeth is None:
        return None
    if visit.healing_until is not None:
        return visit.healing_until
    if visit.wolf_teeth == "out":
        return visit.on + timedelta(days=HEALING_DAYS)
    return None


def teeth(ask: Asked) -> Gate:
    """Return whether the teeth were looked at lately enough, with nothing open."""
    end = healing_until(ask.facts.care, ask.on)
    if end is not None and ask.on <= end:
        return _healing(ask, end)
    visits = [v for v in ask.facts.care if v.kind == "teeth" and v.on <= ask.on]
    if not visits:
        why = f"Can't say: no look at {ask.name}'s teeth is written down."
        return _gate(ask, GateAnswer.NOT_KNOWN, why, _see(ask))
    last = max(visit.on for visit in visits)
    if not all(visit.clear for visit in visits if visit.on == last):
        why = f"The look at {ask.name}'s teeth on {say_day(last)} left a finding open."
        told = "The finding dealt with, and a visit written down with nothing open."
        return _gate(ask, GateAnswer.SHUT, why, told, last)
    return _by_days(ask, last)


def _by_days(ask: Asked, last: date) -> Gate:
    good, passable = FIRST_BIT_DAYS if is_first_bit(ask.stage) else LATER_BIT_DAYS
    days = (ask.on - last).days
    bit = "before a first bit" if is_first_bit(ask.stage) else "while bitted"
    seen = f"{ask.name}'s teeth were looked at {say_days(days)} ago, on {say_day(last)}"
    if days <= good:
        why = f"{seen}, with nothing open."
        return _gate(ask, GateAnswer.MET, why, last=last)
    answer = GateAnswer.CAUTION if days <= passable else GateAnswer.SHUT
    why = f"{seen}; {bit} {good} days is the most (ours)."
    return _gate(ask, answer, why, _see(ask), last)


def wolf_teeth(ask: Asked) -> Gate:
    """Return whether a decision on the wolf teeth is recorded, and healed."""
    end = healing_until(ask.facts.care, ask.on)
    decided = [
        (visit.on, visit.wolf_teeth == "out", visit.wolf_teeth)
        for visit in ask.facts.care
        if visit.wolf_teeth is not None and visit.on <= ask.on
    ]
    if not decided:
        why = f"Can't say: nothing is written down about {ask.name}'s wolf teeth."
        told = "Ask at the teeth visit: none, left on advice, or out."
        return _gate(ask, GateAnswer.NOT_KNOWN, why, told)
    on, out, decision = max(decided)
    if out and end is not None and ask.on <= end:
        return _healing(ask, end)
    why = f"{ask.name} {WOLF_SAID[str(decision)]}, as written on {say_day(on)}."
    return _gate(ask, GateAnswer.MET, why, last=on)


def _see(ask: Asked) -> str:
    return f"{ask.name}'s teeth looked at by your vet or a qualified dental technician."


def _healing(ask: Asked, end: date) -> Gate:
    opens = end + timedelta(days=1)
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="dated",
        answer=GateAnswer.SHUT,
        why=f"{ask.name}'s mouth is healing until {say_day(end)}.",
        would_meet=f"Healing over on {say_day(opens)}, and nothing open or overdue.",
        opens_on=opens,
        record="care:teeth",
        sources=SOURCES,
        caution=CAUTION_TEETH,
    )


def _gate(
    ask: Asked,
    answer: GateAnswer,
    why: str,
    would_meet: str = "",
    last: date | None = None,
) -> Gate:
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=why,
        would_meet=would_meet,
        record="care:teeth",
        rests_on=last,
        sources=SOURCES,
        caution=CAUTION_TEETH,
    )
