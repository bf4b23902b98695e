from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.weight import percent, series, trend, trends
from fitting.weight.trend import season
from tests.fitting.making_weights import ON, girth, height, length, weighed, whom

SCALE, FORMULA, EYE = "weighbridge", "formula", "eye"


@pytest.mark.parametrize(
    ("kg", "level"),
    [(300, "steady"), (285.5, "steady"), (285, "down"), (271, "down"),
     (270, "far_down"), (200, "far_down"), (330, "steady")],
)  # fmt: skip
def test_five_and_ten_per_cent_in_thirty_days(kg: float, level: str) -> None:
    found = trend((weighed(300, 30), weighed(kg, 0)), whom(), ON)
    assert found is not None
    assert found.level == level
    assert found.change == pytest.approx(kg / 300 - 1)


@pytest.mark.parametrize(("days", "change"), [(15, -0.06), (60, -0.015)])
def test_a_change_is_scaled_to_thirty_days(days: int, change: float) -> None:
    found = trend((weighed(300, days), weighed(291, 0)), whom(), ON)
    assert found is not None
    assert found.change == pytest.approx(change)


@pytest.mark.parametrize(("days", "known"), [(13, 0), (14, 1), (60, 1), (61, 0)])
def test_readings_too_near_or_too_far_apart_tell_nothing(days: int, known: int) -> None:
    found = trend((weighed(300, days), weighed(200, 0)), whom(), ON)
    assert (found is not None) == bool(known)


def test_one_reading_is_not_known() -> None:
    assert trend((weighed(300),), whom(), ON) is None
    assert trend((), whom(), ON) is None


def test_two_methods_are_never_put_against_each_other() -> None:
    assert trend((weighed(300, 30, SCALE), weighed(200, 0)), whom(), ON) is None


def test_the_earlier_reading_is_the_one_nearest_to_thirty_days_before() -> None:
    taken = (weighed(400, 55), weighed(300, 33), weighed(200, 16), weighed(297, 0))
    found = trend(taken, whom(), ON)
    assert found is not None
    assert found.first.kg == 300


def test_a_last_reading_that_no_longer_stands_tells_nothing() -> None:
    assert trend((weighed(300, 120), weighed(200, 90)), whom(), ON) is None


def test_the_eye_tells_no_trend() -> None:
    assert trend((weighed(300, 30, EYE), weighed(200, 0, EYE)), whom(), ON) is None


def test_a_weigh_tape_tells_no_trend_under_100_cm() -> None:
    tape = (weighed(130, 30), weighed(100, 0))
    assert trend((height(95), *tape), whom(), ON) is None
    assert trend((height(105), *tape), whom(), ON) is not None


def test_a_scale_as_new_as_the_tape_is_believed_over_it() -> None:
    tape = (weighed(300, 30), weighed(250, 1))
    scale = (weighed(310, 30, SCALE), weighed(311, 1, SCALE))
    found = trend((*tape, *scale), whom(), ON)
    assert found is not None
    assert (found.method, found.level) == (SCALE, "steady")


def test_a_fall_by_tape_since_the_last_scale_is_not_hidden() -> None:
    tape = (weighed(300, 30), weighed(250, 1))
    scale = (weighed(310, 50, SCALE), weighed(311, 20, SCALE))
    found = trend((*tape, *scale), whom(), ON)
    assert found is not None
    assert (found.method, found.level) == ("weigh_tape", "far_down")
    assert len(trends((*tape, *scale), whom(), ON)) == 2


def test_weights_worked_out_from_the_tape_make_a_trend_of_their_own() -> None:
    taken = (girth(150, 30), length(130, 30), girth(146, 0), length(130, 2))
    found = trend(taken, whom(60), ON)
    assert found is not None
    assert found.method == FORMULA
    assert found.change == pytest.approx((146 / 150) ** 2 - 1)


def test_a_birthday_that_changes_the_formula_changes_no_weight() -> None:
    same = (girth(150, 30), length(130, 30), girth(150, 0), length(130, 0))
    found = trend(same, whom(24.5), ON)  # a yearling 30 days ago
    assert found is not None
    assert found.change == 0


@given(st.floats(0.5, 1.5), st.integers(14, 60))
def test_the_unit_and_the_order_of_readings_do_not_matter(
    times: float, days: int
) -> None:
    kg = [weighed(300, days), weighed(300 * times, 0)]
    lb = [weighed(300 / 0.45359237, days), weighed(300 * times / 0.45359237, 0)]
    first, other = trend(kg, whom(), ON), trend(lb[::-1], whom(), ON)
    assert first is not None
    assert other is not None
    assert first.change == pytest.approx(other.change, abs=1e-8)


def day(text: str) -> date:
    return date.fromisoformat(text)


@pytest.mark.parametrize(
    ("hemisphere", "top", "low"),
    [("north", "2026-11-01", "2027-05-02"), ("south", "2026-05-01", "2026-10-31")],
)
def test_a_horse_out_all_year_is_heaviest_before_winter(
    hemisphere: str, top: str, low: str
) -> None:
    out = whom(lives_out=True, hemisphere=hemisphere)
    assert season(out, day(top)) == pytest.approx(1.035)
    assert season(out, day(low)) == pytest.approx(0.965, abs=1e-4)
    year = [season(out, day(top) + timedelta(days=n)) for n in range(366)]
    assert max(year) == pytest.approx(1.035)
    assert season(whom(hemisphere=hemisphere), day(top)) == 1.0


def test_no_such_hemisphere() -> None:
    with pytest.raises(ValueError, match="north or south"):
        season(whom(hemisphere="east"), ON)


def test_the_winter_dip_is_told_and_never_taken_off() -> None:
    taken = (weighed(300, 30), weighed(280, 0))
    out, stabled = trend_of(taken, lives_out=True), trend_of(taken)
    assert out.change == stabled.change
    assert out.level == stabled.level == "down"
    assert -0.02 < out.expected < 0
    assert stabled.expected == 0


def trend_of(taken: Any, **changes: Any) -> Any:
    found = trend(taken, whom(**changes), ON)
    assert found is not None
    return found


def test_the_series_are_by_method_oldest_first_each_with_its_change() -> None:
    taken = (weighed(303, 0), weighed(300, 30), weighed(310, 5, SCALE))
    scale, tape = series(taken, whom(), ON)
    assert (scale.method, tape.method) == (SCALE, "weigh_tape")
    assert [one.weight.kg for one in tape.readings] == [300, 303]
    assert [one.change for one in tape.readings] == [None, pytest.approx(0.01)]
    assert [one.change for one in scale.readings] == [None]


@pytest.mark.parametrize(
    ("change", "said"),
    [(-0.061, "down 6 %"), (0.02, "up 2 %"), (-0.004, "as before"), (0, "as before")],
)
def test_a_change_in_words(change: float, said: str) -> None:
    assert percent(change) == said
