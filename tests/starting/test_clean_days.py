"""Steps established by their first clean days, and more sessions from four on."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import read_foaled
from starting.minutes import minutes_for
from starting.pace import fewest_and_most
from starting.programme import Programme, shipped
from starting.progress import SessionDone, StageProgress, progress
from starting.progress.of_its_age import of_its_age
from tests.starting.making_progress import DAY, SMALL, done

FOALED = read_foaled("2027-03-03")  # 48 months old on DAY


def clean(days: int) -> Programme:
    low, *rest = SMALL.stages
    return replace(SMALL, stages=(replace(low, clean_days=days), *rest))


def low(programme: Programme, *sessions: SessionDone) -> StageProgress:
    return progress(programme, sessions, (), DAY + timedelta(days=30)).of("low")


def test_two_clean_days_from_the_first_establish_a_step() -> None:
    assert low(clean(2), done(0)).state == "under_way"
    at = low(clean(2), done(0), done(1))
    assert at.state == "established"
    assert at.established_on == DAY + timedelta(days=1)


def test_two_clean_sessions_of_one_day_are_one_clean_day() -> None:
    at = low(clean(2), done(0), done(0))
    assert (at.state, at.clean_left) == ("under_way", 1)


@pytest.mark.parametrize("miss", [{"a": "nearly"}, {"b": "not_tried"}, {"a": "no"},
                                  {"stop": "end_today"}])  # fmt: skip
def test_any_miss_asks_for_the_full_count(miss: dict[str, Any]) -> None:
    assert low(clean(2), done(0, **miss), done(1)).state == "under_way"
    assert low(clean(2), done(0), done(1, **miss)).state == "under_way"
    at = low(clean(2), done(0, **miss), done(1))
    assert at.clean_left == 0
    full = low(SMALL, done(0, **miss), done(1))
    assert (at.sessions_left, at.required_left) == (
        full.sessions_left,
        full.required_left,
    )


def test_the_full_count_still_establishes_after_a_miss() -> None:
    days = [done(0, a="nearly"), done(1), done(2), done(3)]
    assert low(clean(2), *days).established_on == low(SMALL, *days).established_on


def test_one_clean_day_is_enough_where_one_is_asked() -> None:
    assert low(clean(1), done(0)).state == "established"
    assert low(clean(1), done(0, a="nearly"), done(1)).state == "under_way"


def test_the_plan_reckons_with_the_clean_days_until_a_miss() -> None:
    stage = clean(2).stages[0]
    new = low(clean(2))
    assert (new.sessions_left, new.required_left) == (2, 2)
    assert fewest_and_most(stage, new, 1.5) == (2, 2)
    missed = low(clean(2), done(0, a="nearly"))
    assert fewest_and_most(stage, missed, 1.0) == fewest_and_most(
        stage, low(SMALL, done(0, a="nearly")), 1.0
    )


@given(st.lists(st.sampled_from(["yes", "nearly", "no"]), max_size=8))
def test_clean_days_never_establish_later_than_the_full_count(
    answers: list[Any],
) -> None:
    days = [done(at, a=answer) for at, answer in enumerate(answers)]
    slow, quick = low(SMALL, *days), low(clean(2), *days)
    if slow.established_on:
        assert quick.established_on
        assert quick.established_on <= slow.established_on
    by_hand = answers[:2] == ["yes", "yes"]
    if quick.established_on and not by_hand:
        assert quick.established_on == slow.established_on


# From four years on


def more(*sessions: SessionDone, on: int = 0) -> Programme:
    asked = replace(SMALL, more_sessions=1.5)
    return of_its_age(asked, FOALED, sessions, DAY + timedelta(days=on))


def test_from_four_years_on_half_as_many_good_sessions_again() -> None:
    stage = more().stage("low")
    assert (stage.min_good_sessions, stage.typical_sessions) == (5, (6, 11))
    young = more(on=-1).stage("low")
    assert (young.min_good_sessions, young.typical_sessions) == (3, (4, 7))


def test_a_step_begun_before_keeps_the_count_it_was_begun_with() -> None:
    begun = more(done(-1), on=300)
    assert begun.stage("low").min_good_sessions == 3
    assert begun.stage("high").min_good_sessions == 5


def test_a_programme_that_asks_for_no_more_stays_the_same() -> None:
    assert of_its_age(SMALL, FOALED, (), DAY) is SMALL


# The first rides


def test_the_first_eight_rides_of_a_big_horse_are_short() -> None:
    riding = shipped("late_big_heavy").stage("riding_away")
    usual = shipped().stage("riding_away")
    assert max(minutes_for(riding, good, None).minutes for good in range(8)) == 20
    assert minutes_for(usual, 7, None).minutes > 20
    assert minutes_for(riding, 8, None) == minutes_for(usual, 8, None)
