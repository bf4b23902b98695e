from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from math import sqrt
from statistics import median

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from fitting.body import HorseType, Taken
from fitting.croup import (
    _MEDIAN_SDS,
    APART_DAYS,
    HOLD_DAYS,
    Croup,
    Judged,
    croup_on,
    judge,
    pairs_of,
    same_person,
)
from tests.fitting.making_croup import WITHERS_MM, both, day, several

# One stick reading each by the usual person errs by 7 mm, so the difference by 9.9.
ONE_MM = 7 * sqrt(2)
SURELY = float(norm.ppf(0.8))


def seen(
    *pairs: tuple[int, float], on: int, horse_type: HorseType = "light", **more: str
) -> Croup:
    return croup_on(judge(several(*pairs, **more), horse_type), day(on))


def judged(
    *pairs: tuple[int, float], horse_type: HorseType = "light"
) -> tuple[Judged, ...]:
    return judge(several(*pairs), horse_type)


def test_croup_and_withers_of_one_day_are_a_pair_with_its_error() -> None:
    (pair,) = pairs_of(both(0, 31), "light")
    assert (pair.on, pair.over_mm, pair.who) == (day(0), 31, "jo")
    assert pair.error_mm == pytest.approx(ONE_MM)


def test_three_readings_narrow_the_error_by_what_is_not_the_day() -> None:
    withers, croup = both(0, 31)
    three = (WITHERS_MM - 5, WITHERS_MM, WITHERS_MM + 5)
    more = replace(withers, readings=three)
    (pair,) = pairs_of((more, croup), "light")
    assert pair.error_mm == pytest.approx(sqrt(49 * 2 / 3 + 49))
    assert pair.over_mm == 31


def test_somebody_else_reads_less_surely() -> None:
    (pair,) = pairs_of(both(0, 31, same_person=False), "light")
    assert pair.error_mm == pytest.approx(12 * sqrt(2))


def test_croup_alone_and_another_days_withers_are_no_pair() -> None:
    withers, croup = both(0, 31)
    assert pairs_of((croup,), "light") == ()
    assert pairs_of((croup, replace(withers, on=day(1))), "light") == ()


def test_tape_and_stick_never_mix() -> None:
    withers, croup = both(0, 31)
    tape = replace(withers, method="tape", readings=(WITHERS_MM + 80,))
    assert pairs_of((tape, croup), "light") == ()
    (pair,) = pairs_of((tape, croup, withers), "light")
    assert (pair.family, pair.over_mm) == ("level", 31)
    # Neither does what is usual: a stick says nothing of how a tape reads.
    taped = judge((*several((0, 20), (60, 20)), *both(90, 48, method="tape")), "light")
    assert taped[-1].usual is None
    assert croup_on(taped, day(100)).newest == taped[-1]


def test_a_laser_and_a_stick_go_together_less_what_the_laser_reads_over() -> None:
    withers, _ = both(0, 0)
    _, croup = both(0, 40, method="laser")
    (pair,) = pairs_of((withers, croup), "light")
    assert pair.over_mm == 30  # 1 cm over: Curtis and others 2010


def test_shoes_on_one_day_only_change_nothing() -> None:
    shod = both(0, 31, shod=True)
    (pair,) = pairs_of(shod, "light")
    assert pair.over_mm == 31


def test_stick_and_tape_of_one_day_are_two_pairs_and_the_stick_speaks() -> None:
    taken = (*both(0, 30), *both(0, 70, method="tape"))
    newest = croup_on(judge(taken, "light"), day(0)).newest
    assert newest is not None
    assert (newest.pair.family, newest.high) == ("level", False)


@pytest.mark.parametrize(
    ("horse_type", "edge"), [("light", 50), ("warmblood", 50), ("heavy", 60)]
)
def test_a_croup_is_high_by_itself_when_the_chance_is_four_in_five(
    horse_type: HorseType, edge: float
) -> None:
    at = edge + SURELY * ONE_MM
    (under,) = judged((0, at - 0.1), horse_type=horse_type)
    (over,) = judged((0, at + 0.1), horse_type=horse_type)
    assert (under.high, over.high) == (False, True)
    assert over.chance == pytest.approx(norm.cdf((at + 0.1 - edge) / ONE_MM))
    assert over.rule == "over_withers"


def test_a_croup_is_high_over_what_is_usual_for_this_horse() -> None:
    usual = ((0, 10.0), (60, 12.0), (120, 8.0))
    error = ONE_MM * sqrt(1 + 0.6698**2)
    at = 10 + 20 + SURELY * error
    *_, under = judged(*usual, (180, at - 0.1))
    *_, over = judged(*usual, (180, at + 0.1))
    assert (under.high, over.high) == (False, True)
    assert over.rule == "over_usual"
    assert over.usual is not None
    assert (over.usual.over_mm, over.usual.pairs) == (10, 3)
    assert at < 50  # by itself it would not be


def test_a_first_pair_has_no_usual() -> None:
    assert judged((0, 49))[0].usual is None


def test_a_youngster_a_few_centimetres_croup_high_is_no_alarm() -> None:
    # Thompson 1995: 2 to 3 cm over the withers from 14 to 588 days.
    assert not any(one.high for one in judged(*((at * 60, 25) for at in range(10))))


def test_what_is_high_does_not_become_usual_within_twelve_weeks() -> None:
    first = ((0, 20.0), (60, 20.0))
    *_, one, two = judged(*first, (100, 70.0), (130, 70.0))
    assert one.usual is not None
    assert two.usual is not None
    assert (two.usual.over_mm, two.usual.pairs) == (20, 2)
    *_, late = judged(*first, (100, 70.0), (185, 70.0))
    assert late.usual is not None
    assert late.usual.pairs == 3


def test_only_the_five_last_earlier_pairs_are_usual() -> None:
    early = ((0, 40.0), (10, 40.0))
    late = tuple((20 + at * 10, 20.0 + at) for at in range(5))
    *_, last = judged(*early, *late, (100, 22.0))
    assert last.usual is not None
    assert (last.usual.pairs, last.usual.over_mm) == (5, 22)


def test_the_middle_of_a_few_readings_is_as_sure_as_it_says() -> None:
    drawn = np.random.default_rng(3).normal(size=(200_000, 5))
    for count, sd in enumerate(_MEDIAN_SDS, start=1):
        middles = np.median(drawn[:, :count], axis=1)
        assert middles.std() == pytest.approx(sd, rel=0.01)


def test_two_high_readings_a_week_apart_begin_a_pause_of_four_weeks() -> None:
    found = seen((0, 70), (7, 70), on=7)
    assert found.pause is not None
    assert found.pause.first.pair.on == day(0)
    assert found.pause.ends == day(7 + 28)
    assert seen((0, 70), (7, 70), on=34).pause is not None
    assert seen((0, 70), (7, 70), on=35).pause is None


def test_six_days_apart_are_not_twice_running() -> None:
    assert seen((0, 70), (6, 70), on=6).pause is None
    # A third one may be a week from the first.
    assert seen((0, 70), (3, 70), (8, 70), on=8).pause is not None


def test_one_that_is_not_high_in_between_breaks_the_run() -> None:
    assert seen((0, 70), (4, 30), (8, 70), on=8).pause is None


def test_a_reading_before_its_day_is_not_known_yet() -> None:
    assert seen((0, 70), (7, 70), on=6).pause is None
    assert seen((3, 70), on=2).newest is None


def test_two_people_are_not_the_same_person() -> None:
    taken = (*both(0, 70), *both(7, 70, who="Sam"))
    assert croup_on(judge(taken, "light"), day(7)).pause is None


def test_the_usual_person_is_the_same_where_no_name_is_written_down() -> None:
    assert seen((0, 70), (7, 70), on=7, who="").pause is not None
    unsure = tuple(replace(t, same_person=False) for t in several((0, 80), (7, 80)))
    assert croup_on(judge(unsure, "light"), day(7)).pause is not None  # by name
    nobody = tuple(replace(t, who="") for t in unsure)
    assert all(one.high for one in judge(nobody, "light"))
    assert croup_on(judge(nobody, "light"), day(7)).pause is None


def test_a_pair_that_two_people_took_has_no_name() -> None:
    withers, croup = both(0, 31)
    (pair,) = pairs_of((withers, replace(croup, who="Sam")), "light")
    assert pair.who == ""
    (spelt,) = pairs_of((withers, replace(croup, who=" JO ")), "light")
    assert spelt.who == "jo"
    assert same_person(spelt, replace(spelt, on=day(9)))


def test_a_low_reading_within_the_pause_does_not_end_it() -> None:
    found = seen((0, 70), (7, 70), (14, 20), on=20)
    assert found.pause is not None
    assert found.newest is not None
    assert not found.newest.high


def test_a_third_high_reading_begins_the_pause_anew() -> None:
    found = seen((0, 70), (7, 70), (35, 70), on=40)
    assert found.pause is not None
    assert found.pause.ends == day(35 + 28)


OVERS = st.floats(-30, 120, allow_nan=False)
PAIRS = st.lists(
    st.tuples(st.integers(0, 200), OVERS), max_size=8, unique_by=lambda p: p[0]
)
PEOPLE = st.sampled_from(["Jo", "Sam", ""])


@st.composite
def histories(draw: st.DrawFn) -> tuple[Taken, ...]:
    taken: list[Taken] = []
    for after, over in draw(PAIRS):
        method = draw(st.sampled_from(["stick", "stick", "stick", "tape", "laser"]))
        who, usual = draw(PEOPLE), draw(st.booleans())
        taken += both(after, over, method=method, who=who, same_person=usual)
    return tuple(taken)


@settings(max_examples=150)
@given(taken=histories(), data=st.data())
def test_the_order_of_what_was_written_never_matters(
    taken: tuple[Taken, ...], data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(taken))
    assert judge(shuffled, "light") == judge(taken, "light")


@settings(max_examples=150)
@given(taken=histories(), on=st.integers(0, 300))
def test_a_pause_rests_on_two_high_readings_and_lasts_four_weeks(
    taken: tuple[Taken, ...], on: int
) -> None:
    pause = croup_on(judge(taken, "light"), day(on)).pause
    if pause is None:
        return
    first, second = pause.first, pause.second
    assert first.high
    assert second.high
    assert (second.pair.on - first.pair.on).days >= APART_DAYS
    assert pause.ends - second.pair.on == timedelta(days=28)
    assert second.pair.on <= day(on) < pause.ends


@settings(max_examples=150)
@given(taken=histories())
def test_once_begun_a_pause_holds_every_day_of_four_weeks_whatever_is_read_then(
    taken: tuple[Taken, ...],
) -> None:
    found = judge(taken, "light")
    for one in found:
        pause = croup_on(found, one.pair.on).pause
        if pause is not None and pause.second.pair.on == one.pair.on:
            for after in range(HOLD_DAYS):
                later = one.pair.on + timedelta(days=after)
                assert croup_on(found, later).pause is not None


@settings(max_examples=150)
@given(
    after=st.integers(0, 100), over=OVERS, heavy=st.booleans(), on=st.integers(0, 200)
)
def test_a_single_reading_never_begins_a_pause(
    after: int, over: float, heavy: bool, on: int
) -> None:
    taken = both(after, over)
    assert croup_on(judge(taken, "heavy" if heavy else "light"), day(on)).pause is None


@settings(max_examples=150)
@given(taken=histories(), on=st.integers(0, 300))
def test_a_pause_is_what_trying_every_two_readings_finds(
    taken: tuple[Taken, ...], on: int
) -> None:
    found = [one for one in judge(taken, "light") if one.pair.on <= day(on)]
    ends = max(
        (
            two.pair.on + timedelta(days=28)
            for one in found
            for two in found
            if _are_twice_running(one, two, found)
        ),
        default=date.min,
    )
    pause = croup_on(found, day(on)).pause
    assert (pause.ends if pause else None) == (ends if ends > day(on) else None)


def _are_twice_running(one: Judged, two: Judged, every: Sequence[Judged]) -> bool:
    between = [
        x
        for x in every
        if x.pair.family == one.pair.family and one.pair.on <= x.pair.on <= two.pair.on
    ]
    named = one.pair.who, two.pair.who
    same = named[0] == named[1] if all(named) else None
    if same is None:
        same = one.pair.usual_person and two.pair.usual_person
    return (
        one.pair.family == two.pair.family
        and (two.pair.on - one.pair.on).days >= 7
        and all(x.high for x in between)
        and same
    )


@given(overs=st.lists(OVERS, min_size=1, max_size=5))
def test_the_usual_is_the_middle_of_the_earlier_ones(overs: list[float]) -> None:
    low = [min(over, 40.0) for over in overs]
    near = [low[0] + (one - low[0]) % 10 for one in low]  # none of them is high
    pairs = [(at * 30, over) for at, over in enumerate(near)]
    last = judged(*pairs, (300, 0.0))[-1]
    assert last.usual is not None
    assert last.usual.over_mm == pytest.approx(median(near))
