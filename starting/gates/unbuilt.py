"""Gates whose rule is not there yet: they say so, and hold no date."""

from __future__ import annotations

from typing import Final

from fitting.fit.answers import Answer, Finding
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
    "fit:roller": ("how a roller fits", "your saddle fitter"),
    "fit:saddle": ("how a saddle fits", "a qualified saddle fitter"),
}


def unbuilt(ask: Asked) -> Gate:
    """Return that nothing can be said, whom to judge with, and no hold."""
    rule, whom = RULES.get(ask.gate, (gate_name(ask.gate), VET))
    said = rule.format(name=ask.name)
    seen = _seen(ask)
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=GateAnswer.NOT_KNOWN,
        why=f"Can't say yet: Longrein has no rule for {said}; "
        f"judge it yourself, with {whom}.{_said(seen)}",
        would_meet="Judged by you before the first session.",
        record=f"item:{seen.item}" if seen else "",
        caution=CAUTION_LAME if whom == VET else "",
        built=False,
    )


def _seen(ask: Asked) -> Finding | None:
    """Return what was seen to fit when it was put on: to judge by, not an answer."""
    if not ask.gate.startswith("fit:"):
        return None
    of_kind = (one for one in ask.facts.findings if one.kind == ask.what)
    return next((one for one in of_kind if one.answer is Answer.GOOD), None)


def _said(seen: Finding | None) -> str:
    return f" {seen.item}: {seen.why[:1].lower()}{seen.why[1:]}" if seen else ""
