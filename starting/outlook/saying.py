"""An outlook as plain text, sized in the yard's units."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from fitting.fit import Finding
from fitting.looks import Band, MeasureLook
from fitting.readings import Units, show, show_between
from fitting.wanted import things_of
from fitting.wanted.telling import size_lines
from starting.diary import NOTEBOOK
from starting.gates import GateAnswer, gate_name, holding
from starting.outlook.values import Outlook, StageLook
from starting.pace import pace_words

ENTRIES_SHOWN: Final = 12
ANSWERS: Final = {
    "good": "good",
    "watch": "only just",
    "no": "no",
    "not_known": "can't say",
}
STANDINGS: Final = {
    "stands": "still stands",
    "stale": "too old, measure again",
    "never": "never measured",
}
STATES: Final = {
    "waiting": "not yet",
    "open": "open",
    "under_way": "under way",
    "established": "established",
    "left_out": "left out",
}


def say_outlook(outlook: Outlook, units: Units) -> str:
    """Return everything computed for one horse on one day, as text."""
    months = outlook.age_months
    lines = [
        f"{outlook.horse}, {outlook.yard}, {_day(outlook.on)}: {months} months old",
        *(line for line in (outlook.off_work, outlook.resting) if line),
        *_now(outlook),
        *_part("Aim", _aim(outlook)),
        *_part("Measures", _measures(outlook, units)),
        *_part("Tack", (_fit(finding) for finding in outlook.fits)),
        *_part("Steps", (_stage(stage) for stage in outlook.stages)),
        *_part("To buy or borrow", _wanted(outlook, units)),
        *_part("Measuring days", _measuring(outlook)),
        *_part("Diary", _diary(outlook)),
        *_part("Mind", _cautions(outlook)),
        "",
        NOTEBOOK,
    ]
    return "\n".join(lines)


def _aim(outlook: Outlook) -> Iterator[str]:
    if outlook.aim is not None:
        yield outlook.aim.text
        yield from outlook.aim.wins
    if pace := pace_words(outlook.horse, outlook.pace):
        yield pace


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _part(title: str, lines: Iterator[str]) -> list[str]:
    found = [f"  {line}" for line in lines]
    return ["", title, *found] if found else []


def _now(outlook: Outlook) -> list[str]:
    can = [f"  {one.name}. {one.why}" for one in outlook.can_do_now]
    if not outlook.stages:
        return []
    held = [f"  {outlook.why_not_more}"] if outlook.why_not_more else ["  nothing"]
    return ["", "Can do now", *(can or ["  nothing today"]), "", "In the way", *held]


def _measures(outlook: Outlook, units: Units) -> Iterator[str]:
    for look in outlook.measures:
        if look.last is None and look.now is None:
            continue
        yield f"{look.name}: {'; '.join(_of_measure(look, units))}"


def _of_measure(look: MeasureLook, units: Units) -> Iterator[str]:
    if look.last:
        yield f"{show(look.last.value, look.dimension, units)} on {_day(look.last.on)}"
    if look.now:
        yield f"now {_range(look, look.now, units)}"
    if look.grown:
        yield f"grown {_range(look, look.grown, units)}"
    yield STANDINGS[look.standing]
    if look.measure_by:
        yield f"measure by {_day(look.measure_by)}"


def _range(look: MeasureLook, band: Band, units: Units) -> str:
    return show_between(band.p5, band.p95, look.dimension, units)


def _fit(finding: Finding) -> str:
    part = finding.part.replace("_", " ")
    until = f", until {_day(finding.good_until)}" if finding.good_until else ""
    old = " What that rests on is too old: measure again." if finding.stale else ""
    answer = f"{ANSWERS[finding.answer]}{until}"
    return f"{finding.item}, {part}: {answer}. {finding.why}{old}"


def _stage(stage: StageLook) -> str:
    if stage.state in {"established", "left_out"}:
        again = ", go over it again" if stage.go_over_again else ""
        return f"{stage.name}: {STATES[stage.state]}{again}"
    start = f", planned start {_day(stage.start)}" if stage.start else ""
    finish = f" to {_day(stage.finish)}" if stage.start and stage.finish else ""
    because = f". {stage.because}" if stage.because else ""
    return f"{stage.name}: {STATES[stage.state]}{start}{finish}{because}{_held(stage)}"


def _held(stage: StageLook) -> str:
    """Return what is in the way, with what cannot be said."""
    held = holding(stage.gates)
    if not held:
        return ""
    names = (
        f"{gate_name(gate.gate)}"
        f"{' (not known)' if gate.answer is GateAnswer.NOT_KNOWN else ''}"
        for gate in held
    )
    return f" In the way: {', '.join(names)}."


def _cautions(outlook: Outlook) -> Iterator[str]:
    """Return the cautions of the numbers above, each once."""
    of_tack = (caution for finding in outlook.fits for caution in finding.cautions)
    held = (gate for stage in outlook.stages for gate in holding(stage.gates))
    yield from dict.fromkeys((*of_tack, *(g.caution for g in held if g.caution)))


def _measuring(outlook: Outlook) -> Iterator[str]:
    for day in outlook.measuring_days:
        names = (outlook.measure(key) for key in day.measures)
        what = ", ".join(look.name for look in names if look)
        yield f"{_day(day.on)}: {what}"


def _wanted(outlook: Outlook, units: Units) -> Iterator[str]:
    for thing in things_of(outlook.wants.wanted):
        if thing.got_on is None:
            lines = (line for one in thing.wanted for line in size_lines(one, units))
            sizes = "; ".join(f"{name} {size}" for name, size in lines)
            yield f"by {_day(thing.by)}: {thing.with_article}. {sizes}"
    yield from (first.ask for first in outlook.wants.first)


def _diary(outlook: Outlook) -> Iterator[str]:
    for entry in outlook.entries[:ENTRIES_SHOWN]:
        forecast = " (forecast)" if entry.forecast else ""
        yield f"{_day(entry.on)}: {entry.title}{forecast}"
    more = len(outlook.entries) - ENTRIES_SHOWN
    if more > 0:
        yield f"and {more} more"
