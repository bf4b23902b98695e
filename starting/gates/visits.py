"""The gates of a visit: cleared by the vet, feet done."""

from __future__ import annotations

from datetime import date
from typing import Final

from fitting.age import completed_months
from starting.gates.asked import Asked
from starting.gates.facts import CareDone, Gate, GateAnswer
from starting.gates.words import CAUTION_LAME, say_day, say_days

# Source: ours.
VET_DAYS: Final = 90
# Source: farriers' advice is 4 weeks for a foal and 4 to 8 later; the cuts ours.
FOAL_DAYS: Final = 28
FEET_DAYS: Final = 56
FOAL_MONTHS: Final = 12


def vet(ask: Asked) -> Gate:
    """Return whether the vet cleared the horse lately; told to wait, it waits.

    Source: the 90 days ours.
    """
    seen = f"{ask.name} looked over by your vet, who finds nothing to wait for."
    last, clear = _last(ask, "vet")
    if last is None:
        why = f"No visit of the vet to {ask.name} is written down."
        return _gate(ask, GateAnswer.CAUTION, why, seen)
    days = f"{say_days((ask.on - last).days)} ago, on {say_day(last)}"
    if not clear:
        why = f"Your vet left something open {days}: {ask.name} waits."
        told = "That seen to, and a vet's visit written down with nothing open."
        return _gate(ask, GateAnswer.SHUT, why, told, last)
    if (ask.on - last).days > VET_DAYS:
        why = f"Your vet cleared {ask.name} {days}; {VET_DAYS} days is the most (ours)."
        return _gate(ask, GateAnswer.CAUTION, why, seen, last)
    why = f"Your vet cleared {ask.name} {days}."
    return _gate(ask, GateAnswer.MET, why, last=last)


def farrier(ask: Asked) -> Gate:
    """Return whether the feet were done lately; a foal's sooner. Never is no yes.

    Source: the 28 and 56 days ours, after farriers' advice.
    """
    done = f"{ask.name}'s feet seen to by your farrier."
    last, clear = _last(ask, "farrier")
    if last is None:
        why = f"Can't say: no visit of the farrier to {ask.name} is written down."
        return _gate(ask, GateAnswer.NOT_KNOWN, why, done)
    days = (ask.on - last).days
    said = f"{ask.name}'s feet were done {say_days(days)} ago, on {say_day(last)}"
    if not clear:
        why = f"{said}, and something was left open."
        return _gate(ask, GateAnswer.CAUTION, why, done, last)
    foal = completed_months(ask.facts.foaled, ask.on) < FOAL_MONTHS
    most = FOAL_DAYS if foal else FEET_DAYS
    if days <= most:
        return _gate(ask, GateAnswer.MET, f"{said}.", last=last)
    of_whom = "for a foal " if foal else ""
    why = f"{said}; {of_whom}{most} days is the most (ours)."
    return _gate(ask, GateAnswer.CAUTION, why, done, last)


def _last(ask: Asked, kind: str) -> tuple[date | None, bool]:
    """Return the last visit of a kind up to the day, and whether all was clear."""
    visits: list[CareDone] = [
        visit for visit in ask.facts.care if visit.kind == kind and visit.on <= ask.on
    ]
    last = max((visit.on for visit in visits), default=None)
    return last, all(visit.clear for visit in visits if visit.on == last)


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
        record=f"care:{ask.gate}",
        rests_on=last,
        sources=("ours",),
        caution=CAUTION_LAME,
    )
