"""What each step needs first: facts become answers with reasons and opening days."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Final

from starting.gates.age import age
from starting.gates.asked import Asked
from starting.gates.before import stages_before
from starting.gates.condition import condition_score, weight_trend
from starting.gates.facts import (
    CareDone,
    Gate,
    GateAnswer,
    GateFacts,
    GateKind,
    MeasureStands,
    Off,
    Passed,
    RestSpan,
    Somebody,
)
from starting.gates.fit import fit
from starting.gates.growth_pause import growth_pause
from starting.gates.held import held_gates
from starting.gates.measured import fresh
from starting.gates.mouth import healing_until, teeth, wolf_teeth
from starting.gates.on_the_day import QUESTIONS, on_the_day
from starting.gates.passing import holding, holds, may_be_passed, may_start, with_reason
from starting.gates.people import rider_experience, trainer
from starting.gates.recent import recent_sessions
from starting.gates.rider_load import rider_load
from starting.gates.season import season
from starting.gates.time_off import back_on, off_work, rest
from starting.gates.visits import farrier, vet
from starting.gates.words import gate_name
from starting.programme import Stage, mounted
from starting.programme_fields import FIT_KINDS

__all__ = [
    "CareDone", "Gate", "GateAnswer", "GateFacts", "GateKind", "MeasureStands", "Off",
    "Passed", "RestSpan", "Somebody", "back_on", "gate_name", "gates_of",
    "healing_until", "holding", "holds", "may_be_passed", "may_start", "mounted",
]  # fmt: skip

ASKED_EVERYWHERE: Final = ("off_work", "rest", "age", "stages_before")
RULES: Final[dict[str, Callable[[Asked], Gate]]] = {
    "age": age,
    "stages_before": stages_before,
    "rest": rest,
    "off_work": off_work,
    "fresh": fresh,
    **dict.fromkeys((f"fit:{kind}" for kind in FIT_KINDS), fit),
    "teeth": teeth,
    "wolf_teeth": wolf_teeth,
    "weight_trend": weight_trend,
    "condition_score": condition_score,
    "growth_pause": growth_pause,
    "season": season,
    "vet": vet,
    "farrier": farrier,
    "rider_load": rider_load,
    "rider_experience": rider_experience,
    "trainer": trainer,
    "recent_sessions": recent_sessions,
    **dict.fromkeys(QUESTIONS, on_the_day),
}


def gates_of(stage: Stage, facts: GateFacts, on: date) -> tuple[Gate, ...]:
    """Return every gate of a step, in the order they are shown.

    A rule that holds it by what the log says comes first; none where none does.
    """
    keys = dict.fromkeys(
        (
            *ASKED_EVERYWHERE,
            *stage.gates_dated,
            *stage.gates_to_do,
            *stage.gates_on_the_day,
        )
    )
    asked = (Asked(gate=key, stage=stage, facts=facts, on=on) for key in keys)
    gates = (with_reason(_rule(ask)(ask), facts, on) for ask in asked)
    return (*held_gates(stage, facts, on), *gates)


def _rule(ask: Asked) -> Callable[[Asked], Gate]:
    """Return the rule of a gate, by its key or by what stands before the colon."""
    return RULES.get(ask.gate) or RULES[ask.gate.partition(":")[0]]
