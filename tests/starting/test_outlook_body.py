"""The body in an outlook: what stands on a day, and how far the curves reach."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from starting.gates import CareDone, MeasureStands
from starting.outlook.body import CURVE_AHEAD_DAYS, curves, growth_of, standings
from starting.outlook.compute import look_at_yard
from starting.outlook.values import Outlook
from starting.progress import Recorded
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    TODAY,
    established,
    good_session,
    horse_facts,
    measured,
    yard_facts,
)

OLD = TODAY - timedelta(days=42)


def standing(measure: str, on_ahead: int = 0, **horse: Any) -> MeasureStands:
    found = standings(horse_facts(**horse), TODAY + timedelta(days=on_ahead))
    return next(one for one in found if one.measure == measure)


def outlook(**horse: Any) -> Outlook:
    return look_at_yard(yard_facts(horse_facts(**horse)), TODAY)[0]


def test_a_measurement_stands_on_its_last_day_and_not_the_day_after() -> None:
    girth = (measured("heart_girth", OLD, 1500, "tape"),)  # 42 days at 31 months
    assert standing("heart_girth", measured=girth).standing == "stands"
    assert standing("heart_girth", 1, measured=girth).standing == "stale"


def test_a_girth_stands_shorter_once_a_rider_is_named() -> None:
    girth = (measured("heart_girth", OLD, 1500, "tape"),)
    named = standing("heart_girth", measured=girth, rider_named=True)
    assert named.until == OLD + timedelta(days=30)
    assert named.standing == "stale"


@pytest.mark.parametrize(("ago", "state"), [(41, "stale"), (42, "stands")])
def test_a_tooth_change_noted_since_ends_a_mouth_width(ago: int, state: str) -> None:
    change = CareDone(kind="tooth_change", on=TODAY - timedelta(days=ago))
    width = (measured("mouth_width", OLD, 105, "dowel"),)
    assert standing("mouth_width", measured=width, care=(change,)).standing == state


def test_what_is_measured_later_is_not_the_last_of_a_day_before() -> None:
    later = (measured("heart_girth", TODAY + timedelta(days=1), 1500, "tape"),)
    assert standing("heart_girth", measured=later).standing == "never"
    look = outlook(measured=later).measure("heart_girth")
    assert look is not None
    assert look.last is None


def test_a_stick_outranks_a_tape_of_the_same_day() -> None:
    both = (
        measured("withers_height", OLD, 1300, "tape"),
        measured("withers_height", OLD, 1290, "stick"),
        measured("withers_height", OLD, 1301, "tape"),
    )
    look = outlook(measured=both).measure("withers_height")
    assert look is not None
    assert look.last is not None
    assert (look.last.value, look.last.method) == (1290, "stick")


def test_a_curve_reaches_two_years_ahead_and_has_today_on_it() -> None:
    horse = horse_facts(measured=(measured("withers_height", OLD, 1290),))
    growth = growth_of(yard_facts(horse), horse)
    height = curves(horse, growth, TODAY)[0]
    days = [point.on for point in height.points]
    assert days[0] == OLD - timedelta(days=30)
    assert TODAY in days
    assert days[-1] == TODAY + timedelta(days=CURVE_AHEAD_DAYS)


def test_an_optional_step_left_out_holds_no_date() -> None:
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    out = Recorded(stage="big_circle", state="left_out", on=TODAY)
    after = outlook(records=(*done, out)).stage("side_reins")
    assert after is not None
    assert after.start is not None


def test_no_session_is_planned_for_the_day_of_a_named_visit() -> None:
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    visit = CareDone(kind="farrier", on=OLD, next_due=TODAY)
    free, kept = (outlook(records=done, care=care) for care in ((), (visit,)))
    starts = [look.stage("bridle") for look in (free, kept)]
    assert [s.start if s else None for s in starts] == [
        TODAY,
        TODAY + timedelta(days=1),
    ]


def test_a_session_done_today_leaves_no_other_for_today() -> None:
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    fresh = outlook(records=done).stage("bridle")
    worked = outlook(
        records=done, sessions=(good_session("cloth_and_ropes", TODAY),)
    ).stage("bridle")
    assert fresh is not None
    assert worked is not None
    assert fresh.start == TODAY
    assert worked.start == TODAY + timedelta(days=1)


def test_as_early_as_allowed_goes_before_the_usual_age() -> None:
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    usual = outlook(records=done).stage("long_reins")
    early = outlook(records=done, as_early_as_allowed=True).stage("long_reins")
    assert usual is not None
    assert early is not None
    assert usual.start is not None
    assert early.start is not None
    assert early.start < usual.start


def test_what_is_established_is_not_to_be_started() -> None:
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    stages = outlook(records=done).stages
    assert not any(s.may_start for s in stages if s.state == "established")
    waiting = [s for s in stages if s.state == "waiting"]
    assert waiting
    assert not any(s.may_start for s in waiting)


def test_a_step_that_asks_for_two_keeps_to_the_helpers_days() -> None:
    facts = yard_facts(horse_facts(), helper_days=frozenset({5}))
    (found,) = look_at_yard(facts, TODAY)
    company = found.stage("company")
    assert company is not None
    assert company.start is not None
    assert company.start.weekday() == 5
