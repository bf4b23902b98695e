"""Croup over withers: pairs of one day, their error, and what is high."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from statistics import median

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from fitting.body import HorseType
from fitting.croup import _MEDIAN_SDS, Judged, croup_on, judge, pairs_of
from tests.fitting.making_croup import OVERS, WITHERS_MM, both, day, several

# One stick reading each by the usual person errs by 7 mm, so the difference by 9.9.
ONE_MM = 7 * sqrt(2)
SURELY = float(norm.ppf(0.8))


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


@given(overs=st.lists(OVERS, min_size=1, max_size=5))
def test_the_usual_is_the_middle_of_the_earlier_ones(overs: list[float]) -> None:
    low = [min(over, 40.0) for over in overs]
    near = [low[0] + (one - low[0]) % 10 for one in low]  # none of them is high
    pairs = [(at * 30, over) for at, over in enumerate(near)]
    last = judged(*pairs, (300, 0.0))[-1]
    assert last.usual is not None
    assert last.usual.over_mm == pytest.approx(median(near))
