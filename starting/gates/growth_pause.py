"""Whether the croup has not shot up over the withers, twice running."""

from __future__ import annotations

from datetime import date

from fitting.croup import (
    APART_DAYS,
    CROUP,
    HOLD_DAYS,
    SOURCES,
    Judged,
    Pause,
    croup_on,
)
from fitting.units import show_length
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer, GateKind
from starting.gates.words import CAUTION_CROUP, say_day


def growth_pause(ask: Asked) -> Gate:
    """Return whether no growth spurt holds the step; one high reading is a caution.

    Source: ours; what is normal by Thompson 1995 and a thesis on Ardennes foals.
    """
    croup = croup_on(ask.facts.croup, ask.on)
    if croup.newest is None:
        why = (
            f"Can't say: {ask.name}'s croup and withers were never taken on one day by"
            " one method."
        )
        told = f"Measure {ask.hers} withers and croup on one day, by one method."
        return _gate(ask, GateAnswer.NOT_KNOWN, why, told)
    if croup.pause is not None:
        return _paused(ask, croup.pause, croup.newest.pair.on)
    on = croup.newest.pair.on
    stood = f"{over_withers(croup.newest)} on {say_day(on)}{_usual(ask, croup.newest)}"
    if not croup.newest.high:
        why = f"{ask.name}'s croup stood {stood}: not high."
        return _gate(ask, GateAnswer.MET, why, last=on)
    why = f"{ask.name}'s croup is high by the last reading: {stood}."
    told = (
        "Croup and withers taken once more, by the same person,"
        f" {APART_DAYS} days or more after {say_day(on)}, and not high."
    )
    return _gate(ask, GateAnswer.CAUTION, why, told, last=on)


def over_withers(one: Judged) -> str:
    """Return how far a croup stands over the withers: ``3.1 cm over the withers``."""
    over = one.pair.over_mm
    side = "over" if over >= 0 else "under"
    return f"{show_length(abs(over), 'cm')} {side} the withers"


def _usual(ask: Asked, one: Judged) -> str:
    if one.usual is None:
        return ""
    return f" (usual for {ask.her} {show_length(one.usual.over_mm, 'cm')})"


def _paused(ask: Asked, pause: Pause, last: date) -> Gate:
    first, second = pause.first, pause.second
    why = (
        f"{ask.name}'s croup was high twice running: {over_withers(first)} on"
        f" {say_day(first.pair.on)}, {over_withers(second)} on"
        f" {say_day(second.pair.on)}. A pause of {HOLD_DAYS} days, until"
        f" {say_day(pause.ends)}."
    )
    told = f"Croup and withers taken again on {say_day(pause.ends)}, and not high."
    return _gate(ask, GateAnswer.SHUT, why, told, last, pause.ends)


def _gate(
    ask: Asked,
    answer: GateAnswer,
    why: str,
    would_meet: str = "",
    last: date | None = None,
    opens_on: date | None = None,
) -> Gate:
    """Return the gate: only time opens it where a pause holds, else somebody measures.

    Once measured it is dated, as the programme lists it.
    """
    measure = answer in {GateAnswer.NOT_KNOWN, GateAnswer.CAUTION}
    kind: GateKind = "to_do" if measure else "dated"
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind=kind,
        answer=answer,
        why=why,
        would_meet=would_meet,
        opens_on=opens_on,
        record=f"measure:{CROUP}" if measure else "croup",
        rests_on=last,
        sources=SOURCES,
        caution=CAUTION_CROUP,
    )
