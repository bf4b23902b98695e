"""Gates whose rule is not there yet: they say so, and hold no date."""

from __future__ import annotations

from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_LAME, gate_name

VET: Final = "your vet"
TRAINER: Final = "an experienced trainer"
RULES: Final = {
    "vet": ("when the vet last saw {name}", VET),
    "farrier": ("when feet were last done", "your farrier"),
    "rider_load": ("what a rider with tack may weigh", VET),
    "rider_experience": ("who may sit on {name} first", TRAINER),
    "season": ("the time of year", "somebody who knows your ground"),
    "trainer": ("who must be there", TRAINER),
    "recent_sessions": ("how many good sessions lately", TRAINER),
}


def unbuilt(ask: Asked) -> Gate:
    """Return that nothing can be said, whom to judge with, and no hold."""
    rule, whom = RULES.get(ask.gate, (gate_name(ask.gate), VET))
    said = rule.format(name=ask.name)
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=GateAnswer.NOT_KNOWN,
        why=f"Can't say yet: Longrein has no rule for {said}; "
        f"judge it yourself, with {whom}.",
        would_meet="Judged by you before the first session.",
        caution=CAUTION_LAME if whom == VET else "",
        built=False,
    )
