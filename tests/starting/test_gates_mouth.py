from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import permutations

import pytest

from starting.gates import CareDone, GateAnswer, may_start
from tests.starting.making_gates import ASTRIDE, CHECK, MOUTHING, ON, gate, seen

DAY = timedelta(days=1)


@pytest.mark.parametrize(
    ("days", "first_bit", "later"),
    [
        (90, GateAnswer.MET, GateAnswer.MET),
        (91, GateAnswer.CAUTION, GateAnswer.MET),
        (180, GateAnswer.CAUTION, GateAnswer.MET),
        (181, GateAnswer.SHUT, GateAnswer.CAUTION),
        (365, GateAnswer.SHUT, GateAnswer.CAUTION),
        (366, GateAnswer.SHUT, GateAnswer.SHUT),
    ],
)
def test_teeth_are_asked_for_sooner_at_the_first_bit(
    days: int, first_bit: GateAnswer, later: GateAnswer
) -> None:
    assert gate("teeth", MOUTHING, care=(seen(days),)).answer is first_bit
    assert gate("teeth", CHECK, care=(seen(days),)).answer is first_bit
    assert gate("teeth", ASTRIDE, care=(seen(days),)).answer is later


def test_a_step_that_asks_for_wolf_teeth_stands_at_the_first_bit() -> None:
    own = replace(MOUTHING, key="our_own_bit_step")
    assert gate("teeth", own, care=(seen(100),)).answer is GateAnswer.CAUTION


@pytest.mark.parametrize("key", ["teeth", "wolf_teeth"])
def test_nothing_written_down_is_not_known_and_holds(key: str) -> None:
    vet = CareDone(kind="vet", on=ON)
    for care in ((), (vet,)):
        asked = gate(key, MOUTHING, care=care)
        assert asked.answer is GateAnswer.NOT_KNOWN
        assert asked.kind == "to_do"
        assert not may_start([asked])


def test_an_open_finding_shuts_until_a_clear_visit() -> None:
    open_one = seen(10, clear=False)
    assert gate("teeth", MOUTHING, care=(open_one,)).answer is GateAnswer.SHUT
    then_clear = (seen(3), open_one)
    assert gate("teeth", MOUTHING, care=then_clear).answer is GateAnswer.MET
    same_day = (seen(10), open_one)
    for care in permutations(same_day):
        assert gate("teeth", MOUTHING, care=care).answer is GateAnswer.SHUT


def test_a_visit_ahead_counts_for_nothing() -> None:
    assert gate("teeth", MOUTHING, care=(seen(-5),)).answer is GateAnswer.NOT_KNOWN
    booked = (seen(5), seen(-5, wolf_teeth="out"))
    assert gate("teeth", MOUTHING, care=booked).answer is GateAnswer.MET
    assert gate("wolf_teeth", MOUTHING, care=booked).answer is GateAnswer.NOT_KNOWN


@pytest.mark.parametrize("key", ["teeth", "wolf_teeth"])
def test_fourteen_days_after_an_extraction_the_bit_waits(key: str) -> None:
    care = (seen(14, wolf_teeth="out"),)
    asked = gate(key, MOUTHING, care=care)
    assert (asked.answer, asked.kind) == (GateAnswer.SHUT, "dated")
    assert asked.opens_on == ON + DAY
    assert not asked.may_pass
    assert gate(key, MOUTHING, ON + DAY, care=care).answer is GateAnswer.MET


def test_the_professionals_day_goes_before_fourteen() -> None:
    longer = (seen(20, wolf_teeth="out", healing_until=ON + 3 * DAY),)
    assert gate("teeth", MOUTHING, care=longer).opens_on == ON + 4 * DAY
    shorter = (seen(5, wolf_teeth="out", healing_until=ON - DAY),)
    assert gate("teeth", MOUTHING, care=shorter).answer is GateAnswer.MET


def test_a_later_look_does_not_end_the_healing() -> None:
    care = (seen(5, wolf_teeth="out"), seen(1))
    assert gate("teeth", MOUTHING, care=care).answer is GateAnswer.SHUT


@pytest.mark.parametrize("decision", ["none", "left", "out"])
def test_a_decision_on_wolf_teeth_is_enough(decision: str) -> None:
    care = (seen(60, wolf_teeth=decision),)
    asked = gate("wolf_teeth", MOUTHING, care=care)
    assert asked.answer is GateAnswer.MET
    assert "1 January 2026" in asked.why


def test_teeth_say_that_a_look_is_no_promise() -> None:
    asked = gate("teeth", MOUTHING, care=(seen(5),))
    assert asked.why == (
        "Bracken's teeth were looked at 5 days ago, on 25 February 2026, "
        "with nothing open."
    )
    assert "does not say the mouth is free of trouble" in asked.caution
    assert "are ours" in asked.caution
    assert asked.record == "care:teeth"
    assert asked.rests_on == date(2026, 2, 25)
