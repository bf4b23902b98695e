"""The time of year: no step that asks for it begins in winter, but under cover.

Dark, wet and frozen ground are asked about on the day; this holds the date.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache
from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_SEASON, say_day

# Source: ours; trainers who start in spring are told of, no study. Months of the
# north: the south is six months on.
SPRING: Final = 3
NOVEMBER: Final = 11
MIDWINTER: Final = (12, 1)
AT_THE_EDGE: Final = (11, 2)
YEAR: Final = 12
HALF: Final = 6
MONTHS_SAID: Final = {"north": "March to October", "south": "September to April"}


def season(ask: Asked) -> Gate:
    """Return whether it is the time of year for it; a covered place lifts it.

    Source: ours.
    """
    answer = answer_in(ask.on, _side(ask))
    if answer is GateAnswer.MET:
        months = MONTHS_SAID[_side(ask)]
        return _gate(ask, answer, f"{say_month(ask.on)} lies in {months} (ours).")
    if ask.facts.covered:
        why = "There is a covered place to work: the time of year holds nothing (ours)."
        return _gate(ask, GateAnswer.MET, why)
    opens = opens_on(ask.on, _side(ask))
    why = f"{said_for(_side(ask))}, not {say_month(ask.on)}."
    return _gate(ask, answer, why, opens)


def answer_in(on: date, hemisphere: str) -> GateAnswer:
    """Return the answer of a day's month, without a covered place."""
    month = _northern(on.month, hemisphere)
    if month in MIDWINTER:
        return GateAnswer.SHUT
    return GateAnswer.CAUTION if month in AT_THE_EDGE else GateAnswer.MET


def opens_on(on: date, hemisphere: str) -> date:
    """Return the first day of the next spring, after a day."""
    month = SPRING if hemisphere == "north" else SPRING + HALF
    spring = date(on.year, month, 1)
    return spring if spring > on else date(on.year + 1, month, 1)


@lru_cache(maxsize=64)
def winters_ahead(
    on: date, until: date, hemisphere: str
) -> tuple[tuple[date, date], ...]:
    """Return the spans after a day on which the gate will not be met, both inside.

    A reason written by then counts for none of them: it is asked for again in each
    part of each winter.
    """
    begins = NOVEMBER if hemisphere == "north" else NOVEMBER - HALF
    firsts: list[tuple[date, date]] = []
    for year in range(on.year, until.year + 1):
        edge, midwinter = date(year, begins, 1), date(year, begins + 1, 1)
        firsts.append((edge, midwinter))
        firsts.append((midwinter, opens_on(midwinter, hemisphere)))
    return tuple(
        (first, after - timedelta(days=1))
        for first, after in firsts
        if on < first <= until
    )


def said_for(hemisphere: str) -> str:
    """Return for which months a step is that asks for the season, in words."""
    months = MONTHS_SAID["south" if hemisphere == "south" else "north"]
    return f"Out of doors this step is for {months} (ours)"


def closed_since(on: date, hemisphere: str) -> date:
    """Return the first day on which a reason given for a winter day may be written.

    One for November says nothing of midwinter; one for midwinter holds to its end.
    """
    back = NOVEMBER if _northern(on.month, hemisphere) == NOVEMBER else MIDWINTER[0]
    month = back if hemisphere == "north" else back - HALF
    return date(on.year if month <= on.month else on.year - 1, month, 1)


def say_month(on: date) -> str:
    """Return a day's month in words: ``November``."""
    return f"{on:%B}"


def _northern(month: int, hemisphere: str) -> int:
    """Return the month of the north that a month of the hemisphere is like."""
    return month if hemisphere == "north" else (month + HALF - 1) % YEAR + 1


def _side(ask: Asked) -> str:
    return "south" if ask.facts.hemisphere == "south" else "north"


def _gate(ask: Asked, answer: GateAnswer, why: str, opens: date | None = None) -> Gate:
    told = "or a covered place to work, written down for the yard."
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="dated",
        answer=answer,
        why=why,
        would_meet=f"Spring, from {say_day(opens)}, {told}" if opens else "",
        opens_on=opens,
        record="yard:covered",
        rests_on=closed_since(ask.on, _side(ask)) if opens else None,
        sources=("ours",),
        caution=CAUTION_SEASON if opens else "",
    )
