"""The gates of time off: turned away, or off work."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer, Off, RestSpan
from starting.gates.words import CAUTION_LAME, clause, say_day


def rest(ask: Asked) -> Gate:
    """Return whether the horse is not turned away; a rest step is its own rest."""
    inside = _inside_rest(ask.facts.rests, ask.on)
    if inside is None:
        return _time_off(ask, GateAnswer.MET, f"{ask.name} is not resting.")
    if ask.stage.kind == "rest":
        return _time_off(ask, GateAnswer.MET, "This step is itself a rest.")
    opens = _first_open(ask.on, lambda day: _rest_opens(ask.facts.rests, day))
    because = f" ({clause(inside.why)})" if inside.why else ""
    ends = f"until {say_day(inside.end)}" if inside.end else "with no end day yet"
    why = f"{ask.name} is resting since {say_day(inside.start)}{because}, {ends}."
    end_day = "The end of the rest" if opens else "A day on which the rest ends"
    return _time_off(ask, GateAnswer.SHUT, why, f"{end_day}.", opens)


def _inside_rest(rests: tuple[RestSpan, ...], day: date) -> RestSpan | None:
    inside = [
        span
        for span in rests
        if span.start <= day and (span.end is None or day <= span.end)
    ]
    return max(
        inside, key=lambda span: (span.end or date.max, span.start), default=None
    )


def _rest_opens(rests: tuple[RestSpan, ...], day: date) -> date | None:
    span = _inside_rest(rests, day)
    if span is None:
        return day
    return span.end + timedelta(days=1) if span.end else None


def off_work(ask: Asked) -> Gate:
    """Return whether the horse is not off work; only whom it names clears it."""
    holding = _off_on(ask.facts.off, ask.on)
    if holding is None:
        return _time_off(ask, GateAnswer.MET, f"{ask.name} is not off work.")
    opens = _first_open(ask.on, lambda day: _off_opens(ask.facts.off, day))
    because = f": {clause(holding.why)}" if holding.why else ""
    why = f"{ask.name} is off work since {say_day(holding.start)}{because}."
    return _time_off(ask, GateAnswer.SHUT, why, _off_ends(ask, holding), opens)


def _off_ends(ask: Asked, off: Off) -> str:
    if off.cleared_by and off.cleared_on is None:
        return f"Cleared by {off.cleared_by}."
    back = back_on(off)
    if back is None:
        return f"A day until, or the one who clears {ask.her}."
    return f"Back to work on {say_day(back)}."


def back_on(off: Off) -> date | None:
    """Return the first day back; None: waits for somebody, or nobody can say."""
    if off.cleared_on is not None:
        return off.cleared_on
    return None if off.cleared_by else off.until


def _off_on(offs: tuple[Off, ...], day: date) -> Off | None:
    held = [off for off in offs if off.start <= day < (back_on(off) or date.max)]
    return max(
        held, key=lambda off: (back_on(off) or date.max, off.start), default=None
    )


def _off_opens(offs: tuple[Off, ...], day: date) -> date | None:
    off = _off_on(offs, day)
    return day if off is None else back_on(off)


def _first_open(day: date, opens: Callable[[date], date | None]) -> date | None:
    """Return the first open day, following spans that touch each other."""
    then = opens(day)
    while then is not None and then != day:
        day, then = then, opens(then)
    return then


def _time_off(
    ask: Asked,
    answer: GateAnswer,
    why: str,
    would_meet: str = "",
    opens_on: date | None = None,
) -> Gate:
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="dated",
        answer=answer,
        why=why,
        would_meet=would_meet,
        opens_on=opens_on,
        record="" if answer is GateAnswer.MET else ask.gate,
        sources=("ours",),
        caution=CAUTION_LAME if ask.gate == "off_work" else "",
    )
