"""The body in an outlook: what stands on a day, and what waits for a day."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from fitting.fit import Part, Tack
from fitting.looks import Band, MeasureLook
from fitting.tryons import Tried, TryOn
from starting.gates import CareDone, MeasureStands, Somebody
from starting.outlook import MeasuredText
from starting.outlook.body import standings
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


def outlook(*, covered: bool = False, **horse: Any) -> Outlook:
    return look_at_yard(yard_facts(horse_facts(**horse), covered=covered), TODAY)[0]


def test_a_measurement_stands_on_its_last_day_and_not_the_day_after() -> None:
    girth = (measured("heart_girth", OLD, 1500, "tape"),)  # 42 days at 31 months
    assert standing("heart_girth", measured=girth).standing == "stands"
    assert standing("heart_girth", 1, measured=girth).standing == "stale"


def test_a_girth_stands_shorter_once_a_rider_is_named() -> None:
    girth = (measured("heart_girth", OLD, 1500, "tape"),)
    named = standing("heart_girth", measured=girth, rider=Somebody(name="Sam"))
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
    usual = outlook(records=done, covered=True).stage("long_reins")
    early = outlook(records=done, covered=True, as_early_as_allowed=True).stage(
        "long_reins"
    )
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


def look_of(measure: str, **facts: Any) -> MeasureLook:
    tack = facts.pop("tack", ())
    yard = yard_facts(horse_facts(**facts), tack=tack)
    found = look_at_yard(yard, TODAY)[0].measure(measure)
    assert found is not None
    return found


def width_of(band: Band | None) -> float:
    assert band is not None
    return band.p95 - band.p5


BIT = Tack(
    name="Steel snaffle",
    kind="bit",
    parts=(
        Part(part="mouthpiece", length_mm=115.0, cheek="eggbutt", thickness_mm=14.0),
    ),
)
SAT_RIGHT = TryOn(
    on=OLD,
    item="Steel snaffle",
    how="held",
    parts=(Tried(part="mouthpiece", seen="sits_right"),),
)
MOUTH = measured("mouth_width", OLD, 107, "dowel")


@pytest.mark.parametrize(
    ("rows", "tryons", "rests_on"),
    [
        ((), (), "type"),
        ((MOUTH,), (), "readings"),
        ((), (SAT_RIGHT,), "tryons"),
        ((MOUTH,), (SAT_RIGHT,), "both"),
    ],
)
def test_a_size_says_what_it_rests_on(
    rows: tuple[MeasuredText, ...], tryons: tuple[TryOn, ...], rests_on: str
) -> None:
    look = look_of("mouth_width", measured=rows, tryons=tryons, tack=(BIT,))
    assert look.rests_on == rests_on
    height = look_of("withers_height", measured=rows, tryons=tryons, tack=(BIT,))
    assert height.rests_on == "type"


def test_a_try_on_alone_narrows_a_size_that_was_never_measured() -> None:
    bare = look_of("mouth_width", tack=(BIT,))
    tried = look_of("mouth_width", tryons=(SAT_RIGHT,), tack=(BIT,))
    assert tried.last is None
    assert width_of(tried.now) < 0.6 * width_of(bare.now)
    assert tried.now is not None
    assert tried.now.p5 < 115 - 6.5 < tried.now.p95


def test_a_try_on_of_tack_that_is_gone_teaches_nothing() -> None:
    gone = look_of("mouth_width", tryons=(SAT_RIGHT,))
    assert gone.rests_on == "type"
    assert gone.now == look_of("mouth_width").now


def test_a_look_tells_the_share_done_and_a_month_s_growth() -> None:
    rows = (measured("withers_height", OLD, 1290),)
    look = look_of("withers_height", measured=rows)
    assert look.done is not None
    assert 0.93 < look.done.p5 < look.done.p50 < look.done.p95 <= 1
    assert look.now is not None
    assert look.grown is not None
    assert look.done.p50 == pytest.approx(look.now.p50 / look.grown.p50, abs=0.004)
    assert look.a_month is not None
    assert 1 < look.a_month.p50 < 8
    assert width_of(look.a_month) < width_of(look.now)


def test_nothing_is_done_of_what_does_not_grow_or_nobody_knows() -> None:
    for measure in ("condition_score", "jaw_gap"):
        look = look_of(measure)
        assert (look.done, look.a_month, look.rests_on) == (None, None, "type")


def test_the_weight_of_a_horse_that_lives_out_falls_after_november() -> None:
    rows = (measured("weight", OLD, 280, "weighbridge"),)
    inside, out = (
        look_of("weight", measured=rows, lives_out=lives) for lives in (False, True)
    )
    assert inside.a_month is not None
    assert out.a_month is not None
    assert out.a_month.p50 < inside.a_month.p50 - 1
