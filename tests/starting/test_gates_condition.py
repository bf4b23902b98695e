from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.body import Taken
from fitting.condition import Scored
from fitting.weight import Trend, Whom, trend
from starting.gates import Gate, GateAnswer, Passed, may_start
from starting.outlook import look_at_yard
from tests.starting.making_gates import BORN, BRIDLE, ON, born, gate
from tests.starting.making_outlook import TODAY, horse_facts, measured, yard_facts

MET, CAUTION = GateAnswer.MET, GateAnswer.CAUTION
SHUT, NOT_KNOWN = GateAnswer.SHUT, GateAnswer.NOT_KNOWN


def weighed(kg: float, days: int) -> Taken:
    day = ON - timedelta(days=days)
    return Taken(measure="weight", on=day, readings=(kg,), method="weigh_tape")


def moved(to_kg: float, days: int = 30, *, lives_out: bool = False) -> Trend:
    horse = Whom(horse_type="pony", foaled=born(BORN), lives_out=lives_out)
    found = trend((weighed(300, days + 1), weighed(to_kg, 1)), horse, ON)
    assert found is not None
    return found


def scored(score: float, days: int = 3, stands: int = 42) -> Scored:
    day = ON - timedelta(days=days)
    return Scored(score=score, on=day, until=day + timedelta(days=stands))


@pytest.mark.parametrize(
    ("kg", "answer"),
    [(320, MET), (300, MET), (286, MET), (285, CAUTION), (271, CAUTION), (270, SHUT)],
)
def test_weight_is_a_caution_down_5_and_shut_down_10_in_100(
    kg: float, answer: GateAnswer
) -> None:
    asked = gate("weight_trend", BRIDLE, trend=moved(kg))
    assert asked.answer is answer
    assert may_start([asked]) is (answer is MET)
    assert (asked.would_meet == "") is (answer is MET)


def test_a_falling_weight_says_how_much_by_what_and_whom_to_ask() -> None:
    asked = gate("weight_trend", BRIDLE, trend=moved(282))
    assert asked.why == (
        "Bracken's weight is down 6 % in 30 days by the same weigh tape, from 30"
        " January 2026 to 1 March 2026: ask your vet."
    )
    assert asked.rests_on == date(2026, 3, 1)
    assert "ring your vet" in asked.caution
    assert "Never use this figure to dose medicine" in asked.caution


def test_the_winter_dip_is_said_and_does_not_open_the_gate() -> None:
    asked = gate("weight_trend", BRIDLE, trend=moved(282, lives_out=True))
    assert asked.answer is CAUTION
    assert asked.why.endswith("Living out in winter explains 2 % (ours).")


@pytest.mark.parametrize("known", [False, True])
def test_a_weight_that_tells_no_trend_or_stands_no_more_is_not_known(
    *, known: bool
) -> None:
    old = moved(300)
    facts = {"trend": old} if known else {}
    on = old.until + timedelta(days=1)
    asked = gate("weight_trend", BRIDLE, on, **facts)
    assert asked.answer is NOT_KNOWN
    assert asked.would_meet.startswith("Two weights by the same method")
    assert not may_start([asked])
    assert not asked.may_pass
    if known:
        assert gate("weight_trend", BRIDLE, old.until, **facts).answer is MET


@pytest.mark.parametrize(
    ("score", "answer"),
    [(1, SHUT), (2, SHUT), (3, CAUTION), (4, MET), (5.5, MET), (6, MET),
     (7, CAUTION), (8, SHUT), (9, SHUT)],
)  # fmt: skip
def test_condition_is_met_from_4_to_6_and_shut_at_the_ends(
    score: float, answer: GateAnswer
) -> None:
    asked = gate("condition_score", BRIDLE, scored=scored(score))
    assert asked.answer is answer
    assert asked.may_pass is (answer is CAUTION)
    assert "in daylight" in asked.caution
    assert "henneke_1983" in asked.sources


def test_condition_never_scored_is_a_caution_to_be_passed_with_a_reason() -> None:
    asked = gate("condition_score", BRIDLE)
    assert asked.answer is CAUTION
    assert asked.why == "Bracken's condition was never scored."
    assert asked.would_meet.startswith("Score her condition")
    assert not may_start([asked])
    reason = Passed(
        stage="bridle", gate="condition_score", reason="Seen", who="Jo", on=ON
    )
    assert may_start([gate("condition_score", BRIDLE, passed=(reason,))])


@pytest.mark.parametrize(("score", "answer"), [(5, CAUTION), (8, SHUT)])
def test_an_old_score_is_a_caution_and_never_opens_what_was_shut(
    score: float, answer: GateAnswer
) -> None:
    asked = gate("condition_score", BRIDLE, scored=scored(score, days=43))
    assert asked.answer is answer
    if score == 5:
        assert "too long ago" in asked.why
        last = scored(5, days=42)
        assert gate("condition_score", BRIDLE, scored=last).answer is MET


def gates_today(*taken: tuple[str, int, float, str]) -> dict[str, Gate]:
    """Return the gates of one horse of which this was measured, days ago."""
    of_it = tuple(
        measured(measure, TODAY - timedelta(days=days), value, method)
        for measure, days, value, method in taken
    )
    (seen,) = look_at_yard(yard_facts(horse_facts(measured=of_it)), TODAY)
    wanted = ("weight_trend", "condition_score")
    return {g.gate: g for s in seen.stages for g in s.gates if g.gate in wanted}


def test_what_was_measured_reaches_the_gates() -> None:
    known = gates_today(
        ("weight", 30, 300, "weighbridge"),
        ("weight", 0, 270, "weighbridge"),
        ("condition_score", 2, 5, "eye"),
    )
    assert known["weight_trend"].answer is SHUT
    assert "on the weighbridge" in known["weight_trend"].why
    assert known["condition_score"].answer is MET
    unknown = gates_today()
    assert unknown["weight_trend"].answer is NOT_KNOWN
    assert unknown["condition_score"].answer is CAUTION


def test_a_step_that_asks_for_condition_has_it_scored_beforehand() -> None:
    (seen,) = look_at_yard(yard_facts(horse_facts()), TODAY)
    asking = [
        s.start
        for s in seen.stages
        if s.start and any(g.gate == "condition_score" for g in s.gates)
    ]
    asked = next(m for m in seen.measures if m.measure == "condition_score")
    assert asked.measure_by == min(asking) - timedelta(days=7)
