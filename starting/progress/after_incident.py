"""After a fall, a bolt or a dragged line: a wait, looks, then up again from below.

All numbers here are ours.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from starting.programme import Programme, Stage, mounted, on_lines
from starting.progress.going_back import still_to_look
from starting.progress.log import Log
from starting.progress.tally import Tally
from starting.progress.values import Beside, Held, Incident, Look

WAIT_DAYS: Final = 14  # ours
GRAVE: Final = frozenset({"fall", "bolt", "bucked_off", "horse_down", "line_dragged"})
OF_A_LINE: Final = "line_dragged"
LINE_ENTRY: Final = "long_reins"
SADDLE_GATE: Final = "fit:saddle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Aftermath:
    """What an incident asks for: holds by step, and the days to climb again from.

    ``again``: each step with the last incident after which it is to be done again.
    """

    held: Mapping[str, Held]
    again: Mapping[str, date]


def aftermath(log: Log, tallies: Mapping[str, Tally], beside: Beside) -> Aftermath:
    """Return what the incidents up to today ask for, step by step.

    Steps with a rider or on lines wait 14 days, and until vet, teeth and, once one
    was worn, the saddle were looked at after the last of them. Those established
    before it are then done once more, from the ready check or the long reins up.
    """
    grave = [one for one in beside.incidents if one.what in GRAVE]
    known = sorted((one for one in grave if one.on <= log.today), key=lambda i: i.on)
    if not known:
        return Aftermath(held={}, again={})
    again: dict[str, date] = {}
    for incident in known:
        again |= dict.fromkeys(_to_climb(log, tallies, incident), incident.on)
    held = _hold(log, tallies, beside, known[-1])
    steps = (s for s in log.programme.stages if held and at_risk(s))
    return Aftermath(
        held={s.key: replace(held, stage=s.key) for s in steps if held}, again=again
    )


def at_risk(stage: Stage) -> bool:
    """Whether a step has a rider, or works on lines; a rest never waits."""
    return stage.kind != "rest" and (mounted(stage) or on_lines(stage))


def _hold(
    log: Log, tallies: Mapping[str, Tally], beside: Beside, last: Incident
) -> Held | None:
    """Return what holds every step at risk; None: the wait and the looks are over."""
    opens = last.on + timedelta(days=WAIT_DAYS)
    wanted: list[Look] = ["vet", "teeth"]
    if any(_done(tallies[s.key], last.on) for s in _saddled(log.programme)):
        wanted.append("saddle")
    missing = still_to_look(wanted, beside.looked, last.on)
    if log.today >= opens and not missing:
        return None
    return Held(
        rule="incident",
        stage="",
        since=last.on,
        opens_on=opens if log.today < opens else None,
        waits_for=missing,
        to=entry_of(log.programme, tallies, last) or "",
        what=last.what,
    )


def _saddled(programme: Programme) -> list[Stage]:
    return [stage for stage in programme.stages if SADDLE_GATE in stage.gates_to_do]


def _done(tally: Tally, by: date) -> bool:
    """Whether a step was begun, or set by hand, by a day."""
    first = tally.first_on
    established = tally.established_on
    return (first is not None and first <= by) or (
        established is not None and established <= by
    )


def entry_of(
    programme: Programme, tallies: Mapping[str, Tally], incident: Incident
) -> str | None:
    """Return the step to begin again from; None: it had not come so far.

    The ready check once that was passed, but after a dragged line, or before it, the
    long reins.
    """
    lines = _first(programme, tallies, incident.on, line=True)
    if incident.what == OF_A_LINE:
        return lines
    return _first(programme, tallies, incident.on, line=False) or lines


def _first(
    programme: Programme, tallies: Mapping[str, Tally], by: date, *, line: bool
) -> str | None:
    found = [
        stage.key
        for stage in programme.stages
        if (on_lines(stage) if line else mounted(stage))
        and not stage.optional
        and stage.kind != "rest"
        and _established(tallies[stage.key], by)
    ]
    if line and LINE_ENTRY in found:
        return LINE_ENTRY
    return found[0] if found else None


def _established(tally: Tally, by: date) -> bool:
    return tally.established_on is not None and tally.established_on <= by


def _to_climb(log: Log, tallies: Mapping[str, Tally], incident: Incident) -> list[str]:
    """Return the entry and what stands on it, where it was established by then."""
    entry = entry_of(log.programme, tallies, incident)
    if entry is None:
        return []
    on_it = _standing_on(log.programme.stages, entry)
    return [
        stage.key
        for stage in log.programme.stages
        if stage.key in on_it
        and at_risk(stage)
        and _established(tallies[stage.key], incident.on)
    ]


def _standing_on(stages: Sequence[Stage], entry: str) -> set[str]:
    found = {entry}
    for stage in stages:
        if found & set(stage.prerequisites):
            found.add(stage.key)
    return found
