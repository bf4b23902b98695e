"""The gates of people: who sits on, who is there, and what the rider weighs."""

from __future__ import annotations

from typing import Final

from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer, Somebody
from starting.gates.words import CAUTION_SAFETY

NAME_RIDER: Final = "A rider named in the plan."
NAME_TRAINER: Final = (
    "A trainer named in the plan who brings on youngsters and will be there."
)


def trainer(ask: Asked) -> Gate:
    """Return whether the plan names a trainer who will be there.

    Source: ours.
    """
    named = ask.facts.trainer
    fault = _not_a_trainer(ask, named)
    if named is not None and not fault:
        why = f"{named.name} is named as the trainer, and has to be there."
        return _gate(ask, GateAnswer.MET, why)
    return _gate(ask, GateAnswer.CAUTION, fault, NAME_TRAINER)


def rider_experience(ask: Asked) -> Gate:
    """Return whether the rider has backed horses, or a trainer is there; no child.

    Source: ours.
    """
    rider, named = ask.facts.rider, ask.facts.trainer
    if rider is None:
        why = f"Can't say: the plan names nobody to ride {ask.name}."
        return _gate(ask, GateAnswer.NOT_KNOWN, why, NAME_RIDER)
    if rider.child:
        why = f"{rider.name} is a child: a child is never the first to sit on (ours)."
        return _gate(ask, GateAnswer.SHUT, why, "A grown rider named in the plan.")
    if rider.has_backed_horses:
        why = f"{rider.name} has backed horses before."
        return _gate(ask, GateAnswer.MET, why)
    fault = _not_a_trainer(ask, named)
    if named is not None and not fault and named.name != rider.name:
        why = f"{rider.name} has not backed horses: {named.name} has to be there."
        return _gate(ask, GateAnswer.MET, why)
    if named is not None and named.name == rider.name:
        fault = f"{named.name} cannot ride and be the trainer beside."
    why = f"{rider.name} has not backed horses before. {fault}"
    told = f"A rider who has backed horses, or: {NAME_TRAINER[:1].lower()}"
    return _gate(ask, GateAnswer.SHUT, why, f"{told}{NAME_TRAINER[1:]}")


def _not_a_trainer(ask: Asked, named: Somebody | None) -> str:
    """Return why nobody, or not this one, counts as the trainer; empty: they do."""
    if named is None:
        return f"The plan for {ask.name} names no trainer."
    if named.child:
        return f"{named.name} is named as the trainer, and is a child."
    if not (named.trains or named.has_backed_horses):
        return (
            f"{named.name} is named as the trainer, but is not down as one who brings"
            " on youngsters or has backed horses."
        )
    return ""


def _gate(ask: Asked, answer: GateAnswer, why: str, would_meet: str = "") -> Gate:
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=why,
        would_meet=would_meet,
        record="plan:people",
        sources=("ours",),
        caution=CAUTION_SAFETY,
    )
