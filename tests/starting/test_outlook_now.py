"""What a horse can do now, and the one reason why not more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from starting.gates import GateAnswer, Off, RestSpan
from starting.outlook import Outlook, look_at_yard
from starting.outlook.values import StageLook
from tests.starting.making_first_bit import look, ready_for_a_bit
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    LAST_WEEK,
    TODAY,
    established,
    good_session,
    horse_facts,
    yard_facts,
)

LONG_AGO = TODAY - timedelta(days=120)


def outlook(on: date = TODAY, **horse: Any) -> Outlook:
    horse.setdefault("records", established(BEFORE_THE_BRIDLE, LONG_AGO))
    return look_at_yard(yard_facts(horse_facts(**horse)), on)[0]


def stage(found: Outlook, key: str) -> StageLook:
    look = found.stage(key)
    assert look is not None
    return look


@pytest.mark.parametrize(
    "stop",
    [
        {"rests": (RestSpan(start=LAST_WEEK, end=None),)},
        {"off": (Off(start=LAST_WEEK, why="lame", cleared_by="the vet"),)},
    ],
)
def test_nothing_is_gone_over_again_at_rest_or_off_work(stop: dict[str, Any]) -> None:
    assert any(s.state == "go_over_again" for s in outlook().can_do_now)
    stopped = outlook(**stop)
    assert any(s.go_over_again for s in stopped.stages)
    assert stopped.can_do_now == ()
    assert stopped.why_not_more == ""


def test_only_what_a_step_ahead_rests_on_is_gone_over_again() -> None:
    found = outlook()
    programme = horse_facts().programme
    assert programme is not None
    done = set(BEFORE_THE_BRIDLE)
    needed = {
        before
        for one in programme.stages
        if one.key not in done
        for before in one.prerequisites
    }
    again = {s.stage for s in found.can_do_now if s.state == "go_over_again"}
    assert again
    assert again <= needed
    assert any(s.go_over_again and s.stage not in needed for s in found.stages)


def test_a_step_a_gate_holds_is_not_called_open() -> None:
    young = read_foaled((TODAY - timedelta(days=700)).isoformat())
    bridle = stage(outlook(foaled=young), "bridle")
    gates = {gate.gate: gate.answer for gate in bridle.gates}
    assert gates["age"] is GateAnswer.SHUT
    assert (bridle.state, bridle.may_start) == ("waiting", False)


def test_what_two_good_sessions_have_answered_is_asked_no_more() -> None:
    asked = "Is somebody at her head who knows horses?"
    ready = ready_for_a_bit()
    days = [TODAY - timedelta(days=days) for days in (3, 2)]
    for count, still in ((0, True), (1, True), (2, False)):
        done = tuple(good_session("mouthing", day) for day in days[:count])
        found = look(replace(ready, sessions=(*ready.sessions, *done)))
        mouthing = next(one for one in found.can_do_now if one.stage == "mouthing")
        assert (asked in mouthing.asks) is still
