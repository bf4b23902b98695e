"""Enough good sessions lately, as a gate."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from starting.gates import Gate, GateAnswer, Passed, may_start
from starting.programme import Check
from starting.progress import CheckAnswer, SessionDone
from tests.starting.making_gates import ASTRIDE, ON, PROGRAMME, YIELDS, gate

DAY = timedelta(days=1)
WITH_TICK = replace(YIELDS, checks=(Check(key="a", text="A"),))
LEARNING = replace(PROGRAMME, stages=(WITH_TICK, *PROGRAMME.stages[1:]))


def done(days_ago: int, answer: CheckAnswer = "yes", **changes: object) -> SessionDone:
    plain = SessionDone(
        on=ON - days_ago * DAY, stage="yields_in_hand", checks=(("a", answer),)
    )
    return replace(plain, **changes)  # type: ignore[arg-type]


def asked(*sessions: SessionDone, **changes: Any) -> Gate:
    changes.setdefault("programme", LEARNING)
    return gate("recent_sessions", ASTRIDE, sessions=sessions, **changes)


@pytest.mark.parametrize(
    ("days", "answer"),
    [
        ((1, 3, 5, 14), GateAnswer.MET),
        ((0, 0, 1, 1, 2), GateAnswer.MET),
        ((1, 3, 5, 15), GateAnswer.CAUTION),  # the fourth is too long ago
        ((1, 3), GateAnswer.SHUT),
        ((), GateAnswer.SHUT),
    ],
)
def test_four_good_sessions_in_fourteen_days_three_are_a_caution(
    days: tuple[int, ...], answer: GateAnswer
) -> None:
    found = asked(*(done(n) for n in days))
    assert found.answer is answer
    assert may_start([found]) is (answer is GateAnswer.MET)
    assert found.may_pass is (answer is GateAnswer.CAUTION)


def test_no_session_at_all_says_how_many_are_asked_for() -> None:
    found = asked()
    assert found.why == (
        "Bracken has had no good sessions in the last 14 days; this step asks for 4"
        " (ours)."
    )
    assert found.would_meet == "4 good sessions within 14 days."
    assert found.rests_on is None


@pytest.mark.parametrize(
    "other",
    [
        done(2, "no"),
        done(2, "not_tried"),
        done(2, stop="end_today"),
        done(2, stage="of_another_programme"),
        done(-1),
    ],
)
def test_a_session_that_was_not_good_or_is_to_come_does_not_count(
    other: SessionDone,
) -> None:
    three = (done(1), done(3), done(5))
    assert asked(*three, done(7)).answer is GateAnswer.MET
    assert asked(*three, other).answer is GateAnswer.CAUTION


def test_a_programme_may_ask_for_others() -> None:
    two_in_a_week = replace(ASTRIDE, recent_good=(2, 7))
    found = gate(
        "recent_sessions", two_in_a_week, sessions=(done(1), done(7)),
        programme=LEARNING,
    )  # fmt: skip
    assert found.answer is GateAnswer.MET
    once = gate(
        "recent_sessions", replace(ASTRIDE, recent_good=(1, 7)), programme=LEARNING
    )
    assert once.answer is GateAnswer.SHUT  # none is never a caution


def test_a_reason_speaks_of_the_sessions_up_to_its_day() -> None:
    why = Passed(
        stage="astride", gate="recent_sessions", reason="Away a week.", who="Jo", on=ON
    )
    three = (done(1), done(3), done(5))
    assert may_start([asked(*three, passed=(why,))])
    early = replace(why, on=ON - 2 * DAY)
    assert not may_start([asked(*three, passed=(early,))])
    assert not may_start([asked(done(1), passed=(why,))])  # shut is never passed
