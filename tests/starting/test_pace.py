"""The horse's own pace: from the log, shrunk to the usual, never under the rules."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.pace import at_own_pace, fewest_and_most, own_pace, pace_words
from starting.programme import Programme, shipped
from starting.progress import Recorded, SessionDone, progress

FIRST = date(2026, 1, 5)
TODAY = date(2026, 6, 1)
COMPANY = shipped().stage("company")  # 6 to 14 sessions, 3 good ones at least


def _only(*keys: str) -> Programme:
    stages = tuple(replace(s, prerequisites=()) for s in shipped().stages)
    return replace(shipped(), stages=tuple(s for s in stages if s.key in keys))


def _session(stage: str, day: int, answer: Any = "yes") -> SessionDone:
    checks = tuple((check.key, answer) for check in shipped().stage(stage).checks)
    return SessionDone(on=FIRST + timedelta(days=day), stage=stage, checks=checks)


def _log(bad: int, good: int = 3) -> list[SessionDone]:
    """Return so many sessions with a no, and then good ones, of first handling."""
    answers = ["no"] * bad + ["yes"] * good
    return [_session("company", day, answer) for day, answer in enumerate(answers)]


def _pace(log: list[SessionDone], *records: Recorded) -> float:
    both = _only("company", "feet")
    return own_pace(both, progress(both, log, records, TODAY), log)


def test_a_horse_without_a_log_keeps_the_usual_pace() -> None:
    both = _only("company", "feet")
    usual = progress(both, [], [], TODAY)
    assert own_pace(both, usual, []) == 1
    assert at_own_pace(both, usual, 1) == usual


def test_the_log_is_shrunk_to_the_usual_number() -> None:
    # Usual 10. Taken 3 and 17; the usual number weighs 20 sessions (ours).
    assert _pace(_log(0)) == pytest.approx((3 + 20) / (10 + 20))
    assert _pace(_log(14)) == pytest.approx((17 + 20) / (10 + 20))


def test_a_step_set_by_hand_says_nothing_of_the_pace() -> None:
    record = Recorded(stage="company", state="established", on=FIRST)
    assert _pace(_log(0, 1), record) == 1


def test_a_step_under_way_speaks_once_it_took_more_than_usual() -> None:
    assert _pace(_log(9, 0)) == 1
    assert _pace(_log(16, 0)) == pytest.approx((16 + 20) / (10 + 20))


def test_however_slow_the_pace_has_its_ends() -> None:
    assert _pace(_log(140)) == 2


def test_a_slow_horse_needs_more_of_its_next_step_and_a_quick_one_fewer() -> None:
    feet = shipped().stage("feet")
    middle = sum(feet.typical_sessions) / 2
    both = _only("company", "feet")
    left = {}
    for bad in (0, 14):
        done = progress(both, _log(bad), [], TODAY)
        pace = own_pace(both, done, _log(bad))
        left[bad] = at_own_pace(both, done, pace).of("feet").sessions_left
        assert left[bad] == pytest.approx(middle * pace, abs=1)
    assert left[0] < middle < left[14]


@given(st.floats(0.5, 2), st.integers(0, 30), st.booleans())
def test_the_rules_are_never_undercut(pace: float, good: int, last_bad: bool) -> None:
    log = [_session("company", day) for day in range(min(good, 2))]
    log += [_session("company", 40, "no")] if last_bad else []
    only = _only("company")
    done = progress(only, log, [], TODAY)
    paced = at_own_pace(only, done, pace).of("company")
    fewest, most = fewest_and_most(COMPANY, done.of("company"), pace)
    assert done.of("company").required_left <= fewest <= paced.sessions_left <= most
    assert done.of("company").required_left >= 1


def test_an_established_step_needs_no_more() -> None:
    only = _only("company")
    done = progress(only, _log(0), [], TODAY)
    assert done.of("company").state == "established"
    assert at_own_pace(only, done, 2).of("company").sessions_left == 0


def test_a_pace_is_told_only_where_it_differs() -> None:
    assert pace_words("Tansy", 1.05) == ""
    assert pace_words("Tansy", 1.23) == (
        "By the log Tansy takes 1.2 sessions where one is usual (ours): the plan"
        " reckons with it."
    )
