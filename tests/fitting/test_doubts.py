"""Readings that are asked about once more."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import read_foaled
from fitting.body import measure_by_key
from fitting.doubts import apart, believed, is_growth, repeats_within

GIRTH_TAPE = measure_by_key("heart_girth").method("tape")
STICK = measure_by_key("withers_height").method("stick")
WEIGH_TAPE = measure_by_key("weight").method("weigh_tape")


def test_readings_as_close_as_the_method_repeats_are_not_doubted() -> None:
    assert apart([1524.0, 1530.0, 1527.0], GIRTH_TAPE, same_person=True) is None


def test_one_reading_cannot_be_doubted_for_its_spread() -> None:
    assert apart([1524.0], GIRTH_TAPE, same_person=True) is None
    assert apart([], GIRTH_TAPE, same_person=True) is None


def test_the_odd_one_out_is_named_with_how_far_it_is_off() -> None:
    found = apart([1524.0, 1581.0, 1530.0], GIRTH_TAPE, same_person=True)
    assert found is not None
    assert found.odd == 1
    assert found.off == pytest.approx(1581 - 1527)
    assert found.repeats == GIRTH_TAPE.error


def test_a_reading_too_small_is_off_by_less_than_nothing() -> None:
    found = apart([1524.0, 1527.0, 1400.0], GIRTH_TAPE, same_person=True)
    assert found is not None
    assert found.odd == 2
    assert found.off == pytest.approx(1400 - 1525.5)


def test_of_two_readings_neither_is_the_odd_one() -> None:
    found = apart([1300.0, 1340.0], STICK, same_person=True)
    assert found is not None
    assert found.odd is None
    assert found.off == 40


def test_a_fourth_reading_that_agrees_settles_it() -> None:
    strayed = [1524.0, 1581.0, 1530.0, 1527.0]
    assert apart(strayed, GIRTH_TAPE, same_person=True) is None
    two_strayed = [1524.0, 1581.0, 1530.0, 1640.0]
    assert apart(two_strayed, GIRTH_TAPE, same_person=True) is not None


def test_another_person_is_allowed_a_wider_spread() -> None:
    readings = [1300.0, 1320.0]
    assert apart(readings, STICK, same_person=True) is not None
    assert apart(readings, STICK, same_person=False) is None


def test_a_weigh_tape_errs_by_a_share_of_the_weight() -> None:
    assert repeats_within(WEIGH_TAPE, 300, same_person=True) == pytest.approx(18)


@given(st.lists(st.floats(1200, 1400), min_size=2, max_size=6))
def test_the_order_of_the_readings_never_decides(sizes: list[float]) -> None:
    forth = apart(sizes, STICK, same_person=True)
    back = apart(sizes[::-1], STICK, same_person=True)
    assert (forth is None) == (back is None)


@pytest.mark.parametrize(
    # Lamas et al. (2007) Vet Record 160:691: one person 1.06 cm, three people 1.89 cm.
    ("off", "same_person", "grown"),
    [
        (10.5, True, False),
        (10.7, True, True),
        (-10.7, True, True),
        (10.7, False, False),
        (18.8, False, False),
        (19.0, False, True),
        (-19.0, False, True),
    ],
)
def test_heights_closer_than_a_stick_can_tell_are_never_called_growth(
    off: float, same_person: bool, grown: bool
) -> None:
    assert is_growth(1320.0, 1320.0 + off, same_person=same_person) is grown


def test_what_is_believed_allows_for_every_possible_foaling_day() -> None:
    on = date(2025, 6, 1)
    whole_year = believed("withers_height", "pony", read_foaled("2024"), on)
    january = believed("withers_height", "pony", read_foaled("2024-01-01"), on)
    december = believed("withers_height", "pony", read_foaled("2024-12-31"), on)
    assert whole_year == (december[0], january[1])


def test_a_grown_height_of_a_foal_is_not_believed() -> None:
    low, high = believed(
        "withers_height", "pony", read_foaled("2025-04-01"), date(2025, 7, 1)
    )
    assert low < 1000 < high < 1500
