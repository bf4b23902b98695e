"""A rider who has backed horses, and a trainer there, as gates."""

from __future__ import annotations

from dataclasses import replace

import pytest

from starting.gates import Gate, GateAnswer, Passed, Somebody, may_start
from tests.starting.making_gates import ASTRIDE, ON, gate

SAM = Somebody(name="Sam")
JO = Somebody(name="Jo", has_backed_horses=True)
INES = Somebody(name="Ines", trains=True)
PIP = Somebody(name="Pip", child=True)
MET, SHUT, NOT_KNOWN = GateAnswer.MET, GateAnswer.SHUT, GateAnswer.NOT_KNOWN


def experience(rider: Somebody | None, trainer: Somebody | None = None) -> Gate:
    why = Passed(
        stage="astride", gate="rider_experience", reason="Light.", who="Jo", on=ON
    )
    return gate(
        "rider_experience", ASTRIDE, rider=rider, trainer=trainer, passed=(why,)
    )


@pytest.mark.parametrize(
    ("rider", "trainer", "answer"),
    [
        (JO, None, MET),
        (SAM, INES, MET),
        (SAM, JO, MET),
        (SAM, None, SHUT),
        (SAM, Somebody(name="Ash"), SHUT),  # named, but neither trains nor has backed
        (SAM, replace(INES, child=True), SHUT),
        (replace(SAM, trains=True), replace(SAM, trains=True), SHUT),  # nobody beside
        (PIP, INES, SHUT),
        (replace(PIP, has_backed_horses=True), INES, SHUT),
        (None, INES, NOT_KNOWN),
        (None, None, NOT_KNOWN),
    ],
)
def test_who_sits_on_has_backed_horses_or_has_a_trainer_there(
    rider: Somebody | None, trainer: Somebody | None, answer: GateAnswer
) -> None:
    found = experience(rider, trainer)
    assert found.answer is answer
    assert not found.may_pass
    assert may_start([found]) is (answer is MET)
    assert bool(found.would_meet) is (answer is not MET)
    assert "never alone" in found.caution


def test_a_novice_with_a_trainer_is_told_who_has_to_be_there() -> None:
    assert (
        experience(SAM, INES).why == "Sam has not backed horses: Ines has to be there."
    )
    assert "cannot ride and be the trainer" in experience(INES, INES).why


def trainer(named: Somebody | None, *passed: Passed) -> Gate:
    return gate("trainer", ASTRIDE, trainer=named, passed=passed)


@pytest.mark.parametrize("named", [None, PIP, SAM])
def test_no_trainer_named_is_a_caution_that_holds_until_a_reason_is_written(
    named: Somebody | None,
) -> None:
    found = trainer(named)
    assert found.answer is GateAnswer.CAUTION
    assert not may_start([found])
    why = Passed(stage="astride", gate="trainer", reason="By phone.", who="Jo", on=ON)
    passed = trainer(named, why)
    assert passed.went_ahead_because == f"By phone. (Jo, {ON.isoformat()})"
    assert may_start([passed])


@pytest.mark.parametrize("named", [INES, JO])
def test_a_trainer_named_has_to_be_there(named: Somebody) -> None:
    found = trainer(named)
    assert found.answer is MET
    assert found.why == f"{named.name} is named as the trainer, and has to be there."
