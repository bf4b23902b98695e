"""The next session: its step, its minutes, its one new thing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.gates import Gate, GateAnswer
from starting.minutes import minutes_for
from starting.next_session import chosen, one_new_thing, so_far, step_back
from starting.outlook import Outlook, Suggestion, look_at_yard
from starting.programme import shipped
from starting.progress import Recorded, SessionDone
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    TODAY,
    established,
    good_session,
    horse_facts,
    yard_facts,
)

MOUTHING = shipped().stage("mouthing")  # 5 to 20 minutes, six good ones
STEPS = [stage for stage in shipped().stages if stage.kind == "sessions"]
KEYS = [check.key for check in MOUTHING.checks]


def session(answer: str = "yes", **more: Any) -> SessionDone:
    checks = tuple((key, answer) for key in KEYS)
    return SessionDone(on=TODAY, stage="mouthing", checks=checks, **more)  # type: ignore[arg-type]


def may_do(stage: str, days: int) -> Suggestion:
    return Suggestion(
        stage=stage,
        name=stage,
        state="under_way",
        why="Nothing is in the way.",
        asks=(),
        wear=(),
        next_on=TODAY + timedelta(days=days) if days else None,
    )


def looked(*sessions: SessionDone, **fields: Any) -> Outlook:
    records: tuple[Recorded, ...] = established(BEFORE_THE_BRIDLE, TODAY)
    horse = horse_facts(sessions=sessions, records=records, **fields)
    return look_at_yard(yard_facts(horse), TODAY)[0]


@pytest.mark.parametrize(
    ("good", "minutes"), [(0, 5), (1, 8), (2, 11), (3, 14), (4, 17), (5, 20), (9, 20)]
)
def test_minutes_grow_from_the_fewest_to_the_most(good: int, minutes: int) -> None:
    assert minutes_for(MOUTHING, good, None).minutes == minutes


@pytest.mark.parametrize(
    ("done", "minutes"), [(15, 10), (20, 13), (6, 4), (4, 3), (None, 3), (120, 20)]
)
def test_after_one_that_was_not_good_it_is_a_third_shorter(
    done: int | None, minutes: int
) -> None:
    for last in (session("no", minutes=done), session(minutes=done, stop="end_today")):
        found = minutes_for(MOUTHING, 4, last)
        assert found.minutes == minutes
        assert "not good" in found.why


@given(st.sampled_from(STEPS), st.integers(0, 30))
def test_minutes_stay_inside_what_the_step_says_and_never_fall(
    stage: Any, good: int
) -> None:
    low, high = stage.minutes
    one, two = (minutes_for(stage, g, None).minutes for g in (good, good + 1))
    assert low <= one <= two <= high


def test_a_step_without_minutes_suggests_none() -> None:
    assert minutes_for(shipped().stage("body_check"), 0, None).minutes == 0


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        ({}, f"{MOUTHING.checks[0].text}."),
        (dict.fromkeys(KEYS[:2], "yes"), f"{MOUTHING.checks[2].text}."),
        ({KEYS[0]: "yes", KEYS[3]: "nearly"}, MOUTHING.checks[3].text),
        ({KEYS[1]: "nearly", KEYS[4]: "no"}, MOUTHING.checks[4].text),
        (dict.fromkeys(KEYS, "yes"), "the same again"),
    ],
)
def test_one_new_thing_waits_until_nothing_is_weak(answers: Any, said: str) -> None:
    found = one_new_thing(MOUTHING, answers)
    assert said in found
    assert found.startswith("none") == (
        "nearly" in answers.values()
        or "no" in answers.values()
        or len(answers) == len(KEYS)
    )


def test_a_sign_to_go_back_names_the_step_it_falls_back_to() -> None:
    done = replace(good_session("bridle", TODAY), stop="go_back")
    found = chosen(shipped(), looked(done), [done])
    assert found is not None
    assert found.stage == "yields_in_hand"


def test_a_step_gone_back_to_is_short_and_takes_the_plans_next_day() -> None:
    done = replace(good_session("bridle", TODAY), stop="go_back")
    outlook = looked(done)
    back = outlook.stage("yields_in_hand")
    assert back is not None
    assert so_far(replace(back, good_sessions=9)) == 0
    planned = tuple(
        replace(look, next_on=TODAY + timedelta(days=2))
        if look.stage == "bridle"
        else replace(look, next_on=None)
        for look in outlook.stages
    )
    found = chosen(shipped(), replace(outlook, stages=planned), [done])
    assert found is not None
    assert found.on == TODAY + timedelta(days=2)


def test_a_step_back_passes_over_steps_without_sessions() -> None:
    assert step_back(shipped(), "person_above") not in {"ready_check", None}
    assert shipped().stage(step_back(shipped(), "person_above") or "").kind == (
        "sessions"
    )
    assert step_back(shipped(), "company") is None


def test_a_gate_that_sends_back_outranks_what_may_be_done() -> None:
    outlook = looked()
    gate = Gate(
        stage="roller",
        gate="gone_back",
        kind="to_do",
        answer=GateAnswer.SHUT,
        why="It went back.",
        would_meet="",
        record="stage:mouthing",
    )
    stages = tuple(
        replace(look, gates=(gate,)) if look.stage == "roller" else look
        for look in outlook.stages
    )
    able = (may_do("bridle", 0),)
    outlook = replace(outlook, stages=stages, can_do_now=able)
    found = chosen(shipped(), outlook, [])
    assert found is not None
    assert found.stage == "mouthing"


def test_nothing_is_next_while_off_work_or_resting() -> None:
    outlook = looked()
    for stopped in ({"off_work": "Off work: lame."}, {"resting": "Resting."}):
        assert chosen(shipped(), replace(outlook, **stopped), []) is None  # type: ignore[arg-type]


def test_of_what_may_be_done_the_nearest_day_is_next() -> None:
    nearest = may_do("led_out", 1)
    able = (may_do("bridle", 4), nearest, may_do("body_check", 0))
    found = chosen(shipped(), replace(looked(), can_do_now=able), [])
    assert found is not None
    assert (found.stage, found.on) == ("led_out", date(2026, 11, 26))


def test_a_check_is_next_where_no_session_is() -> None:
    able = (may_do("body_check", 0),)
    found = chosen(shipped(), replace(looked(), can_do_now=able), [])
    assert found is not None
    assert found.stage == "body_check"
