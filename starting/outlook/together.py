"""Croup and withers, due on one day: for the steps that a growth spurt would hold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from fitting.croup import APART_DAYS, CROUP, WITHERS, Croup, croup_on
from starting.gates import GateFacts
from starting.measuring import Due
from starting.outlook.due import BEFORE_A_STAGE_DAYS, Need
from starting.schedule import PlannedStage

BOTH: Final = (CROUP, WITHERS)
GATE: Final = "growth_pause"
ASKED_AHEAD_DAYS: Final = 60  # ours: as long as a height stands from six months on


def needs_together(
    facts: GateFacts | None, planned: Mapping[str, PlannedStage]
) -> tuple[Need, ...]:
    """Return both measures for each dated step that asks for no growth spurt."""
    if facts is None:
        return ()
    asking = (s for s in facts.programme.stages if GATE in s.gates_dated)
    return tuple(
        Need(measure=measure, stage_name=stage.name, start=plan.start)
        for stage in asking
        if (plan := planned.get(stage.key)) is not None and plan.start is not None
        for measure in BOTH
    )


def due_together(
    due: Sequence[Due], facts: GateFacts | None, needs: Sequence[Need], on: date
) -> tuple[Due, ...]:
    """Return what is due, croup and withers on one day where one alone tells nothing.

    So after a pause, after a high reading, and where they were never taken together
    and a step is near that asks for it. Elsewhere each goes by its own standing.
    """
    if facts is None:
        return tuple(due)
    asked = _asked(croup_on(facts.croup, on), needs, on)
    if asked is None:
        return tuple(due)
    others = [one for one in due if one.measure not in BOTH]
    return (*others, *(replace(asked, measure=measure) for measure in BOTH))


def _asked(croup: Croup, needs: Sequence[Need], on: date) -> Due | None:
    """Return when both are due, under the name of the croup; None: not together."""
    again = croup.again_from
    if croup.pause is not None and again is not None:
        return _due(again, again, "with the withers, as the growth pause ends")
    if croup.newest is None:
        return _first_time(needs, on)
    if again is None:
        return None
    because = "with the withers once more, for the croup was high"
    return _due(again, again + timedelta(days=APART_DAYS), because)


def _first_time(needs: Sequence[Need], on: date) -> Due | None:
    first = min(
        (need for need in needs if need.measure == CROUP),
        key=lambda need: need.start,
        default=None,
    )
    if first is None:
        return None
    wanted = first.start - timedelta(days=BEFORE_A_STAGE_DAYS)
    if (wanted - on).days > ASKED_AHEAD_DAYS:
        return None
    because = f"with the withers on one day, for {first.stage_name}"
    return replace(_due(on, max(wanted, on), because), at_once=wanted < on)


def _due(useful_from: date, by: date, because: str) -> Due:
    return Due(measure=CROUP, useful_from=useful_from, due_by=by, because=because)
