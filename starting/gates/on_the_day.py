"""Gates asked when the session begins; they never hold a date."""

from __future__ import annotations

from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_SAFETY, gate_name
from starting.programme import mounted

# Source: ours.
SECOND_PERSON_GOOD_SESSIONS: Final = 2
QUESTIONS: Final = {
    "ground": "Is the ground level and dry: not frozen, deep, greasy or rock-hard?",
    "daylight": "Is an hour of daylight left?",
    "enclosed": "Is the place fenced and safe underfoot, with the gate shut?",
    "calm_day": "Is it calm: no wind or heat, usual companions in sight, no strangers?",
    "second_person": "Is somebody at {her} head who knows horses?",
    "second_person_first": "Is somebody at {her} head who knows horses?",
    "safety_gear": "Are hat, gloves and boots on?",
    "company": "Is another horse in the field with {name}?",
    "mouth_watch": "Is {her} mouth looked into: no loose cap, sore gum or rubbed lip?",
}
MOUNTED_GEAR: Final = "Are hat, body protector, gloves and boots on?"
WITH_SAFETY: Final = frozenset({"second_person", "second_person_first", "safety_gear"})


def on_the_day(ask: Asked) -> Gate:
    """Return the question to ask when the session begins."""
    met = ask.gate == "second_person_first" and _good(ask) >= (
        SECOND_PERSON_GOOD_SESSIONS
    )
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="on_the_day",
        answer=GateAnswer.MET if met else GateAnswer.NOT_KNOWN,
        why=_no_longer(ask) if met else _question(ask),
        would_meet="" if met else "Asked when the session begins.",
        record=f"stage:{ask.stage.key}",
        sources=("ours",),
        caution=CAUTION_SAFETY if ask.gate in WITH_SAFETY else "",
    )


def _good(ask: Asked) -> int:
    at = (one for one in ask.facts.progress.stages if one.stage == ask.stage.key)
    found = next(at, None)
    return found.good_sessions if found else 0


def _no_longer(ask: Asked) -> str:
    return f"{ask.name} has {_good(ask)} good sessions of this step: no longer asked."


def _question(ask: Asked) -> str:
    if ask.gate == "safety_gear" and mounted(ask.stage):
        return MOUNTED_GEAR
    asked = QUESTIONS.get(ask.gate, f"Is it as it should be: {gate_name(ask.gate)}?")
    return asked.format(her=ask.hers, name=ask.name)
