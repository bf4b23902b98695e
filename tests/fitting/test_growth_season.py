"""Girth and weight of a horse that lives out go with the season."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from fitting.curves import season
from fitting.growth import Growth, fit_growth
from tests.fitting.light_horse import BORN, light_height, subject, taken

NOVEMBER, MAY = date(2025, 11, 1), date(2026, 5, 2)
GROWN_UP = date(2031, 11, 1)


def mean_on(growth: Growth, measure: str, on: date) -> float:
    spread = growth.at(measure, on)
    assert spread is not None
    return spread.mean


@pytest.mark.parametrize(
    ("measure", "swing"),
    [("weight", 0.035), ("heart_girth", 0.025), ("girth_path", 0.025)],
)
def test_the_top_is_the_first_of_november_in_the_north(
    measure: str, swing: float
) -> None:
    year = [NOVEMBER + timedelta(days=n - 180) for n in range(366)]
    north = season(measure, year, "north")
    south = season(measure, year, "south")
    assert year[int(north.argmax())] in (NOVEMBER, NOVEMBER - timedelta(days=1))
    assert [north.max(), north.min()] == pytest.approx([1 + swing, 1 - swing], abs=1e-4)
    assert year[int(south.argmin())].month in (10, 11)
    assert north.mean() == pytest.approx(1, abs=1e-3)
    assert north + south == pytest.approx(np.full(366, 2.0), abs=2e-3)


@pytest.mark.parametrize("measure", ["withers_height", "head_length", "mouth_width"])
def test_no_other_measure_knows_a_season(measure: str) -> None:
    assert (season(measure, [NOVEMBER, MAY], "north") == 1).all()


def test_a_hemisphere_is_north_or_south() -> None:
    with pytest.raises(KeyError):
        season("weight", [MAY], "east")


def test_a_winter_dip_is_expected_of_a_grown_horse_that_lives_out() -> None:
    out = fit_growth(subject(lives_out=True), [])
    inside = fit_growth(subject(), [])
    spring = GROWN_UP + timedelta(days=183)
    fall = mean_on(out, "weight", spring) / mean_on(out, "weight", GROWN_UP) - 1
    assert fall == pytest.approx(0.965 / 1.035 - 1, abs=0.003)
    assert mean_on(inside, "weight", spring) >= mean_on(inside, "weight", GROWN_UP)


def test_in_the_south_the_dip_is_half_a_year_away() -> None:
    south = fit_growth(subject(lives_out=True, hemisphere="south"), [])
    spring = GROWN_UP + timedelta(days=183)
    assert mean_on(south, "weight", spring) > mean_on(south, "weight", GROWN_UP)


def test_the_grown_size_is_the_year_s_mean() -> None:
    for lives_out in (False, True):
        size = fit_growth(subject(lives_out=lives_out), []).grown_size("heart_girth")
        assert size is not None
        assert size.mean == pytest.approx(1860)


def test_a_spring_girth_of_a_horse_that_lives_out_promises_more() -> None:
    spring = taken("heart_girth", (MAY - BORN).days / 30.4375, 1800, method="tape")
    out, inside = (
        fit_growth(subject(lives_out=lives), [spring]).grown_size("heart_girth")
        for lives in (True, False)
    )
    assert out is not None
    assert inside is not None
    assert out.mean > inside.mean + 15


def test_a_first_girth_path_is_put_back_to_the_year_s_mean() -> None:
    first = taken("girth_path", (MAY - BORN).days / 30.4375, 1300, method="tape")
    out, inside = (
        fit_growth(subject(lives_out=lives), [first]) for lives in (True, False)
    )
    sizes = [growth.grown_size("girth_path") for growth in (out, inside)]
    means = [size.mean for size in sizes if size is not None]
    assert means[0] == pytest.approx(means[1] / 0.975, rel=5e-4)
    assert mean_on(out, "girth_path", MAY) == pytest.approx(1300, abs=1)


def test_a_month_of_winter_takes_weight_off_where_little_is_left_to_grow() -> None:
    growth = fit_growth(subject(lives_out=True), [])
    month = growth.gains("weight", date(2031, 1, 15), 30)
    assert month is not None
    assert month.mean < -4
    height = growth.gains("withers_height", date(2031, 1, 15), 30)
    assert height is not None
    assert 0 <= height.mean < 1570 * (1 - light_height(np.array(104.0), 0.0))
