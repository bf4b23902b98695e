"""Cautions passed with a written reason, and what still holds a step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from starting.gates.facts import Gate, GateAnswer, GateFacts, Passed

# Gates of which more than a caution may be passed (ours). A measure never taken, and
# feet never written down, are all that is not known and that a reason may pass.
SHUT_MAY_BE_PASSED: Final = frozenset({"fresh", "farrier", "season"})
UNKNOWN_MAY_BE_PASSED: Final = frozenset({"fresh", "farrier"})
HORSE_FIRST: Final = ("off_work", "rest")
RULED: Final = frozenset({"incident", "stuck", "gone_back", "long_off"})
LAST_DAY: Final = date.max


def with_reason(gate: Gate, facts: GateFacts, on: date) -> Gate:
    """Return the gate with whether it may be passed, and whether it was."""
    if not may_be_passed(gate):
        return gate
    reasons = [one for one in facts.passed if _counts(one, gate, on)]
    if not reasons:
        return replace(gate, may_pass=True)
    last = max(reasons, key=lambda one: (one.on, one.who, one.reason))
    return replace(
        gate,
        may_pass=True,
        went_ahead=True,
        went_ahead_because=f"{last.reason.strip()} ({last.who}, {last.on.isoformat()})",
    )


def may_be_passed(gate: Gate) -> bool:
    """Return whether a written reason may pass a gate as it answers now."""
    subject = gate.gate.partition(":")[0]
    if gate.kind == "on_the_day" or subject == "stages_before":
        return False
    if gate.answer is GateAnswer.SHUT:
        return subject in SHUT_MAY_BE_PASSED
    if gate.answer is GateAnswer.NOT_KNOWN:
        return subject in UNKNOWN_MAY_BE_PASSED
    return gate.answer is GateAnswer.CAUTION


def _counts(one: Passed, gate: Gate, on: date) -> bool:
    same = (one.stage, one.gate) == (gate.stage, gate.gate)
    since = gate.rests_on is None or one.on >= gate.rests_on
    return same and since and one.on <= on and bool(one.reason.strip())


def holds(gate: Gate) -> bool:
    """Return whether a gate holds its step: asked ahead, not met nor passed."""
    if gate.kind == "on_the_day":
        return False
    return gate.answer is not GateAnswer.MET and not gate.went_ahead


def may_start(gates: Sequence[Gate]) -> bool:
    """Return whether nothing holds: every dated and to-do gate met, or passed.

    On-the-day gates are asked on the day.
    """
    return not any(holds(gate) for gate in gates)


def holding(gates: Sequence[Gate]) -> tuple[Gate, ...]:
    """Return the gates that hold; the first is the one reason why not more.

    First what holds the horse, then what only time opens (the latest first), then
    what went wrong, the steps before, what is shut, what is not known, and cautions.
    """
    return tuple(sorted((gate for gate in gates if holds(gate)), key=_weight))


def _weight(gate: Gate) -> tuple[int, int]:
    if gate.gate in HORSE_FIRST:
        return (HORSE_FIRST.index(gate.gate), 0)
    if gate.answer is GateAnswer.SHUT and gate.kind == "dated":
        opens = gate.opens_on or LAST_DAY
        return (2, -opens.toordinal())
    if gate.gate in RULED:
        return (2, 0)
    if gate.gate == "stages_before":
        return (3, 0)
    if gate.kind == "dated":
        return (4, 0)
    order = {GateAnswer.SHUT: 5, GateAnswer.NOT_KNOWN: 6}
    return (order.get(gate.answer, 7), 0)
