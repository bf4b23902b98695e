"""The vet's word and the farrier's visit, as gates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from starting.gates import CareDone, Gate, GateAnswer, Passed, may_start
from tests.starting.making_gates import CHECK, ON, born, gate

DAY = timedelta(days=1)
MET, CAUTION, SHUT, NOT_KNOWN = (
    GateAnswer.MET, GateAnswer.CAUTION, GateAnswer.SHUT, GateAnswer.NOT_KNOWN,
)  # fmt: skip
YEARLING = born(date(2025, 3, 2))  # 12 months on ON
FOAL = born(date(2025, 3, 3))  # 11 months on ON


def visit(kind: str, days_ago: int, *, clear: bool = True) -> CareDone:
    return CareDone(kind=kind, on=ON - days_ago * DAY, clear=clear)


def asked(key: str, *care: CareDone, **changes: Any) -> Gate:
    return gate(key, CHECK, care=care, **changes)


def why(key: str) -> Passed:
    return Passed(stage="body_check", gate=key, reason="Booked.", who="Jo", on=ON)


@pytest.mark.parametrize(("days", "answer"), [(0, MET), (90, MET), (91, CAUTION)])
def test_the_vets_word_holds_for_90_days(days: int, answer: GateAnswer) -> None:
    found = asked("vet", visit("vet", days))
    assert found.answer is answer
    assert found.rests_on == ON - days * DAY
    assert may_start([found]) is (answer is MET)


def test_no_word_of_the_vet_is_a_caution_that_holds_until_a_reason_is_written() -> None:
    found = asked("vet")
    assert found.answer is CAUTION
    assert not may_start([found])
    assert found.would_meet == (
        "Bracken looked over by your vet, who finds nothing to wait for."
    )
    passed = asked("vet", passed=(why("vet"),))
    assert passed.went_ahead
    assert may_start([passed])


def test_told_to_wait_by_the_vet_is_shut_and_no_reason_passes_it() -> None:
    found = asked("vet", visit("vet", 3, clear=False), passed=(why("vet"),))
    assert found.answer is SHUT
    assert not found.may_pass
    assert not may_start([found])
    assert "3 days ago, on 27 February 2026: Bracken waits" in found.why


def test_a_later_clear_visit_ends_the_wait_and_one_of_the_same_day_does_not() -> None:
    wait = visit("vet", 5, clear=False)
    assert asked("vet", wait, visit("vet", 2)).answer is MET
    assert asked("vet", wait, visit("vet", 5)).answer is SHUT


def test_a_visit_to_come_or_by_another_says_nothing() -> None:
    others = (visit("vet", -1), visit("farrier", 1), visit("teeth", 1))
    assert asked("vet", *others).answer is CAUTION


@pytest.mark.parametrize(
    ("days", "of_a_foal", "later"),
    [(28, MET, MET), (29, CAUTION, MET), (56, CAUTION, MET), (57, CAUTION, CAUTION)],
)
def test_feet_stand_56_days_and_a_foals_28(
    days: int, of_a_foal: GateAnswer, later: GateAnswer
) -> None:
    done = visit("farrier", days)
    assert asked("farrier", done, foaled=FOAL).answer is of_a_foal
    assert asked("farrier", done, foaled=YEARLING).answer is later


def test_feet_never_written_down_are_not_known_and_hold_unless_passed() -> None:
    found = asked("farrier", visit("vet", 1))
    assert found.answer is NOT_KNOWN
    assert not may_start([found])
    assert found.record == "care:farrier"
    passed = asked("farrier", passed=(why("farrier"),))
    assert (passed.answer, passed.went_ahead) == (NOT_KNOWN, True)


def test_feet_with_something_left_open_are_a_caution() -> None:
    found = asked("farrier", visit("farrier", 1, clear=False))
    assert found.answer is CAUTION
    assert found.may_pass


def test_a_reason_from_before_the_last_visit_no_longer_counts() -> None:
    early = replace(why("farrier"), on=ON - 60 * DAY)
    done = visit("farrier", 57)
    assert not asked("farrier", done, passed=(early,)).went_ahead
    assert asked("farrier", done, passed=(why("farrier"),)).went_ahead
