"""The measures of a horse: how each is taken, how well, how long it stands."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.body import (
    MEASURES,
    HorseType,
    Taken,
    UnknownMeasureError,
    due_window,
    measure_by_key,
    middle,
    plausible,
    standing_on,
    stands_days,
    stands_until,
)
from fitting.curves import grown_prior

TYPES: tuple[HorseType, ...] = get_args(HorseType)
BORN = date(2023, 5, 1)
KEYS = [measure.key for measure in MEASURES]
YARD_FILE_MEASURES = (
    "withers_height croup_height heart_girth body_length cannon_round head_length brow "
    "nose_round throat_round mouth_width jaw_gap tongue_thickness back_length "
    "back_width_front back_width_last_rib girth_path rug_length nose_gap weight "
    "condition_score"
)
YARD_FILE_METHODS = (
    "stick laser tape string dowel calliper trial_bit gauge weighbridge weigh_tape "
    "formula eye"
)


def taken(measure: str, months: float, method: str = "tape") -> Taken:
    on = BORN + timedelta(days=round(months * 30.4375))
    return Taken(measure=measure, on=on, readings=(100.0,), method=method)


def test_every_measure_and_method_of_the_yard_file_is_here_and_no_other() -> None:
    methods = {method.key for measure in MEASURES for method in measure.methods}
    assert sorted(KEYS) == sorted(YARD_FILE_MEASURES.split())
    assert methods == set(YARD_FILE_METHODS.split())


@pytest.mark.parametrize("key", KEYS)
def test_how_a_measure_is_taken_is_three_short_sentences(key: str) -> None:
    sentences = re.split(r"(?<=\.) ", measure_by_key(key).how)
    assert len(sentences) == 3
    assert all(len(sentence) <= 160 for sentence in sentences)


@pytest.mark.parametrize(
    ("measure", "method", "error", "unknown"),
    [
        # Lamas et al. (2007) Vet Record 160:691; the judgement from it is ours.
        ("withers_height", "stick", 7, 12),
        ("croup_height", "laser", 7, 12),
        # Ours.
        ("head_length", "tape", 7, 7),
        ("heart_girth", "tape", 20, 20),
        ("cannon_round", "tape", 3, 3),
        ("mouth_width", "dowel", 3, 3),
        ("mouth_width", "string", 3, 3),
        ("mouth_width", "trial_bit", 3, 3),
        ("mouth_width", "calliper", 2, 2),
        # Ellis, Hollands (1998) Vet Record 143:335.
        ("weight", "weigh_tape", 0.06, 0.06),
        ("weight", "formula", 0.10, 0.10),
        ("weight", "eye", 0.20, 0.20),
        ("weight", "weighbridge", 0.01, 0.01),
    ],
)
def test_each_method_has_its_error(
    measure: str, method: str, error: float, unknown: float
) -> None:
    found = measure_by_key(measure).method(method)
    assert (found.error, found.error_unknown_person) == (error, unknown)
    assert found.relative == (measure == "weight")


def test_an_unknown_measure_is_refused_and_says_which_there_are() -> None:
    with pytest.raises(UnknownMeasureError, match="withers_height") as told:
        measure_by_key("ears")
    assert told.value.asked == "ears"
    with pytest.raises(UnknownMeasureError):
        plausible("ears", "pony", 20)


def test_the_middle_of_readings_is_their_median() -> None:
    assert middle((3.0, 1.0, 200.0)) == 3.0
    assert middle((3.0, 1.0)) == 2.0
    with pytest.raises(ValueError, match="at least one"):
        middle(())


# Ours, all of it: days by age in months, then by group.
@pytest.mark.parametrize(
    ("months", "head", "girth", "back", "height"),
    [
        (5.9, None, 28, None, 30),
        (6, 56, 56, None, 60),
        (23.9, 56, 56, None, 60),
        (24, 84, 42, 56, 60),
        (48, 84, 42, 56, 60),
        (48.1, 182, 90, 90, 182),
        (200, 182, 90, 90, 182),
    ],
)
def test_how_long_a_measurement_stands_depends_on_age_and_group(
    months: float,
    head: int | None,
    girth: int,
    back: int | None,
    height: int,
) -> None:
    groups = [
        (head, "head_length mouth_width nose_round brow throat_round jaw_gap"),
        (head, "tongue_thickness"),
        (girth, "heart_girth girth_path weight condition_score"),
        (back, "back_length back_width_front back_width_last_rib"),
        (back, "body_length rug_length"),
        (height, "withers_height croup_height cannon_round"),
    ]
    for days, measures in groups:
        for measure in measures.split():
            assert stands_days(measure, months, ridden=False) == days


@pytest.mark.parametrize(("months", "days"), [(12, 56), (30, 30), (60, 30)])
def test_with_a_rider_girth_and_weight_stand_thirty_days(
    months: float, days: int
) -> None:
    assert stands_days("heart_girth", months, ridden=True) == days
    assert stands_days("weight", months, ridden=True) == days
    plain = stands_days("head_length", months, ridden=False)
    assert stands_days("head_length", months, ridden=True) == plain


def test_a_measurement_stands_from_its_day_by_the_age_on_that_day() -> None:
    mouth = taken("mouth_width", 30, "dowel")
    assert stands_until(mouth, BORN) == mouth.on + timedelta(days=84)
    girth = taken("heart_girth", 30)
    assert stands_until(girth, BORN, ridden=True) == girth.on + timedelta(days=30)


def test_a_tooth_change_ends_what_was_measured_of_head_and_mouth_before_it() -> None:
    mouth = taken("mouth_width", 30, "dowel")
    change = mouth.on + timedelta(days=20)
    until = stands_until(mouth, BORN, tooth_change=change)
    assert until == change - timedelta(days=1)
    plain = stands_until(mouth, BORN)
    assert stands_until(mouth, BORN, tooth_change=mouth.on) == plain
    assert stands_until(mouth, BORN, tooth_change=plain + timedelta(days=9)) == plain
    girth = taken("heart_girth", 30)
    assert stands_until(girth, BORN, tooth_change=change) == stands_until(girth, BORN)


def test_a_foal_head_taped_all_the_same_stands_a_week() -> None:
    head = taken("head_length", 4)
    assert stands_until(head, BORN) == head.on + timedelta(days=7)


def test_a_measurement_stands_to_its_last_day_and_is_stale_the_day_after() -> None:
    until = stands_until(taken("brow", 30), BORN)
    assert standing_on(until, until) == "stands"
    assert standing_on(until, until + timedelta(days=1)) == "stale"
    assert standing_on(None, until) == "never"


def test_a_measure_is_useful_again_from_half_its_standing_and_due_by_its_end() -> None:
    mouth = taken("mouth_width", 30, "dowel")
    window = (mouth.on + timedelta(days=42), mouth.on + timedelta(days=84))
    assert due_window(mouth, BORN) == window


@given(
    st.sampled_from(KEYS),
    st.integers(min_value=0, max_value=3000),
    st.one_of(st.none(), st.integers(min_value=-400, max_value=400)),
    st.booleans(),
)
def test_no_measurement_ends_before_its_own_day(
    measure: str, age_days: int, change: int | None, ridden: bool
) -> None:
    one = replace(taken(measure, 0), on=BORN + timedelta(days=age_days))
    noted = None if change is None else one.on + timedelta(days=change)
    start, end = due_window(one, BORN, ridden=ridden, tooth_change=noted)
    assert one.on <= start <= end


@pytest.mark.parametrize("horse_type", TYPES)
@pytest.mark.parametrize("key", KEYS)
def test_the_plausible_range_is_wide_and_positive_at_every_age(
    key: str, horse_type: HorseType
) -> None:
    for months in (0, 3, 12, 24, 36, 72, 240):
        least, most = plausible(key, horse_type, months)
        assert 0 <= least < most
        prior = grown_prior(key, horse_type)
        if prior and months >= 72:
            assert least < prior[0] - 3 * prior[1]
            assert most > prior[0] + 3 * prior[1]


def test_a_range_doubts_a_slip_and_keeps_a_real_size() -> None:
    least, most = plausible("withers_height", "pony", 30)
    assert least < 1321 < most
    assert not least < 132 < most
    assert not least < 13210 < most
    low, high = plausible("mouth_width", "pony", 30)
    assert low < 118 < high
    assert not low < 11.8 < high
    assert plausible("jaw_gap", "pony", 30) == (15, 90)
    assert plausible("condition_score", "pony", 30) == (1, 9)


# Sveinsson (1993, 1994) Rit Buvisindadeildar: least and most stick height, mm, of a
# crop of Icelandic youngsters.
@pytest.mark.parametrize(
    ("months", "least", "most"),
    [(12, 1140, 1270), (24, 1230, 1340), (36, 1280, 1410), (48, 1290, 1400)],
)
def test_no_icelandic_youngster_would_have_been_doubted(
    months: float, least: float, most: float
) -> None:
    low, high = plausible("withers_height", "pony", months)
    assert low < least
    assert most < high
