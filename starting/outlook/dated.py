"""What only time opens: which days keep a step shut, now and again later."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from starting.gates import Gate, GateFacts, holds
from starting.gates.season import said_for, winters_ahead
from starting.outlook.again import of_step
from starting.schedule import HORIZON_MONTHS, Closed, Hold, StageAhead
from starting.schedule.days import reaches

# The schedule knows of these by itself.
BY_ITSELF: Final = frozenset({"age", "rest", "off_work", "stages_before"})
SEASON: Final = "season"


def with_dated_gates(
    ahead: Sequence[StageAhead],
    gates: Mapping[str, Sequence[Gate]],
    facts: GateFacts,
    on: date,
) -> tuple[StageAhead, ...]:
    """Return the steps with what holds each now, and what will shut it again.

    A step done again is held as the step itself is.
    """
    until = reaches(on, HORIZON_MONTHS)
    winters = () if facts.covered else winters_ahead(on, until, facts.hemisphere)
    why = said_for(facts.hemisphere)
    closed = tuple(
        Closed(gate=SEASON, first=first, last=last, why=why) for first, last in winters
    )
    return tuple(_dated(one, gates[of_step(one.stage.key)], closed) for one in ahead)


def _dated(
    one: StageAhead, gates: Sequence[Gate], winters: Sequence[Closed]
) -> StageAhead:
    held = _holds(gates)
    asked = any(gate.gate == SEASON for gate in gates)
    past = next((h.until for h in held if h.gate == SEASON and h.until), date.min)
    return replace(
        one,
        holds=(*held, *one.holds),
        closed=tuple(winter for winter in winters if asked and winter.first >= past),
    )


def _holds(gates: Sequence[Gate]) -> list[Hold]:
    """Return the dated reasons that keep a step shut.

    Age, rests and off work go apart: the schedule knows of them by itself.
    """
    return [
        Hold(gate=gate.gate, until=gate.opens_on, why=gate.why)
        for gate in gates
        if gate.gate not in BY_ITSELF
        and holds(gate)
        and (gate.opens_on is not None or gate.kind == "dated")
    ]
