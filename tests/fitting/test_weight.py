from __future__ import annotations

from datetime import timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import read_foaled
from fitting.body import Taken, stands_days
from fitting.sources import SOURCES
from fitting.weight import (
    FORMULAS,
    NEVER_DOSE,
    Formula,
    FormulaWeight,
    best_weight,
    formula_for,
    is_small,
    kg_by,
    weights_by_formula,
    worked_out,
)
from fitting.weight.formulas import ADULT, FOAL, WEANLING, YEARLING, YOUNG_SAID
from tests.fitting.making_weights import ON, ago, girth, height, length, weighed, whom

SCALE, TAPE, FORMULA, EYE = "weighbridge", "weigh_tape", "formula", "eye"


@pytest.mark.parametrize(
    ("months", "formula"),
    [
        (1, FOAL), (5.9, FOAL), (6.1, WEANLING), (11.9, WEANLING), (12.1, YEARLING),
        (23.9, YEARLING), (24.1, ADULT), (30, ADULT), (60, ADULT),
    ],
)  # fmt: skip
def test_the_age_picks_the_formula(months: float, formula: Formula) -> None:
    assert formula_for(whom(months), ON).formula is formula


def test_a_grown_horse_has_the_grown_horses_rule_whatever_its_age() -> None:
    assert formula_for(whom(9, grown=True), ON).formula is ADULT


def test_a_two_year_old_says_that_its_rule_is_another_ages_and_the_safe_side() -> None:
    said = formula_for(whom(30), ON).why
    assert "No rule for two-year-olds was found" in said
    assert "the safe side for what a horse may carry" in said
    tape = (1500.0, 1400.0)
    share = kg_by(ADULT, *tape) / kg_by(YEARLING, *tape) - 1
    assert round(100 * share) == -9  # the 9 % of the sentence


def test_a_foaling_year_alone_counts_as_the_youngest_it_can_be() -> None:
    year = read_foaled("2024")  # 22 to 34 months old on the day
    assert formula_for(whom(foaled=year), ON).formula is YEARLING


def test_what_was_read_second_hand_says_so() -> None:
    for months in (3, 9, 18):
        chosen = formula_for(whom(months), ON)
        assert chosen.formula.second_hand
        assert "second-hand" in chosen.why
        assert "second-hand" in SOURCES[chosen.formula.source].text
    assert not formula_for(whom(40), ON).formula.second_hand


def test_every_formula_names_its_source_and_a_tenth_either_way() -> None:
    assert len({formula.key for formula in FORMULAS}) == len(FORMULAS)
    for formula in FORMULAS:
        assert formula.source in SOURCES
        assert formula.band == 0.10


def test_formulas_for_grown_horses_say_so_of_a_youngster() -> None:
    said = {one.formula.key: one for one in by_formula(30)}
    assert said["adult"].said == YOUNG_SAID
    assert said["yearling"].said == "For horses of another age."
    assert {one.formula.key: one for one in by_formula(60)}["adult"].said == ""


def by_formula(months: float) -> tuple[FormulaWeight, ...]:
    return weights_by_formula(1500.0, 1400.0, whom(months), ON)


def test_the_chosen_formula_comes_first() -> None:
    for months in (9, 18, 30):
        assert by_formula(months)[0].formula is formula_for(whom(months), ON).formula


def test_a_girth_outside_a_formula_is_refused_in_words() -> None:
    foal = next(one for one in by_formula(30) if one.formula is FOAL)
    assert foal.kg is None
    assert "girth lies outside" in foal.said


def test_without_a_length_only_the_girths_own_formula_is_left() -> None:
    found = weights_by_formula(1000.0, None, whom(3), ON)
    assert [one.formula for one in found] == [FOAL]
    with pytest.raises(ValueError, match="body length"):
        kg_by(ADULT, 1500.0)
    with pytest.raises(ValueError, match="more than nothing"):
        kg_by(ADULT, 0.0, 1400.0)


@given(st.floats(300, 2600), st.floats(300, 2600), st.floats(1.01, 1.5))
def test_a_formula_grows_as_the_cube_of_the_horse(
    girth_mm: float, length_mm: float, times: float
) -> None:
    small = kg_by(ADULT, girth_mm, length_mm)
    big = kg_by(ADULT, girth_mm * times, length_mm * times)
    assert big == pytest.approx(small * times**3)


def test_girth_and_length_of_a_day_make_a_weight_nobody_typed() -> None:
    best = best_weight((girth(150, 3), length(130, 3)), whom(60), ON).weight
    assert best is not None
    assert best.kg == pytest.approx(245.80, abs=0.005)
    assert (best.method, best.on) == ("formula", ago(3))
    assert best.worked is not None
    assert (best.worked.girth_mm, best.worked.length_mm) == (1500, 1300)
    assert best.low_kg == pytest.approx(0.9 * best.kg)
    assert best.high_kg == pytest.approx(1.1 * best.kg)


@pytest.mark.parametrize(("days", "made"), [(0, 1), (7, 1), (8, 0)])
def test_girth_and_length_go_together_within_a_week(days: int, made: int) -> None:
    for pair in ((girth(150, 20), length(130, 20 + days)),
                 (girth(150, 20 + days), length(130, 20))):  # fmt: skip
        assert len(worked_out(pair, ADULT, ON)) == made


def test_a_girth_goes_with_the_length_nearest_to_it() -> None:
    taken = (girth(150, 10), length(120, 16), length(130, 8), length(140, 4))
    (made,) = worked_out(taken, ADULT, ON)
    assert (made.length_mm, made.length_on) == (1300, ago(8))


def test_readings_of_days_to_come_are_left_out() -> None:
    later = (girth(150, -1), length(130, -1), weighed(300, -1))
    assert best_weight(later, whom(60), ON).weight is None


ALL = (
    weighed(301, 9, SCALE),
    weighed(302, 6),
    weighed(303, 3, FORMULA),
    weighed(304, 0, EYE),
)


@pytest.mark.parametrize("first", range(4))
def test_scale_before_tape_before_formula_before_eye_in_any_order(first: int) -> None:
    for taken in permutations(ALL[first:]):
        found = best_weight(taken, whom(), ON)
        assert found.weight is not None
        assert found.weight.kg == 301 + first
        assert [one.kg for one in found.beside] == [302 + n for n in range(first, 3)]


def test_the_newest_of_a_method_counts_and_the_middle_of_its_day() -> None:
    day = Taken(measure="weight", on=ago(2), readings=(300, 310, 340), method=SCALE)
    best = best_weight((weighed(250, 20, SCALE), day), whom(), ON).weight
    assert best is not None
    assert (best.kg, best.on) == (310, ago(2))


def test_each_method_has_its_own_error() -> None:
    shares = {}
    for one in ALL:
        best = best_weight((one,), whom(), ON).weight
        assert best is not None
        shares[one.method] = best.share
    assert shares == {SCALE: 0.01, TAPE: 0.06, FORMULA: 0.10, EYE: 0.20}


@pytest.mark.parametrize(("months", "ridden"), [(18, False), (30, False), (30, True)])
def test_a_weight_counts_as_long_as_it_stands(months: float, ridden: bool) -> None:
    days = stands_days("weight", months, ridden=ridden)
    assert days is not None
    horse = whom(months + 3, ridden=ridden)
    last = best_weight((weighed(300, days, SCALE),), horse, ON)
    over = best_weight((weighed(300, days + 1, SCALE),), horse, ON)
    assert last.weight is not None
    assert last.weight.until == ON
    assert over.weight is None
    assert over.last is not None
    assert over.last.until == ON - timedelta(days=1)
    assert "too old" in over.why


def test_a_stale_scale_gives_way_to_a_tape_that_stands() -> None:
    best = best_weight((weighed(300, 200, SCALE), weighed(320, 5)), whom(), ON).weight
    assert best is not None
    assert best.method == TAPE


def test_never_weighed_is_not_known_and_says_what_is_missing() -> None:
    found = best_weight((girth(150),), whom(60), ON)
    assert found.weight is None
    assert found.last is None
    assert "girth and body length were not taken together" in found.why


def test_never_a_dose_stands_beside_every_answer() -> None:
    for taken in ((), ALL, ALL[1:2], (girth(150), length(130))):
        assert NEVER_DOSE in best_weight(taken, whom(), ON).cautions


def test_a_weigh_tape_alone_is_no_weight_under_100_cm() -> None:
    small = (height(99), weighed(120))
    found = best_weight(small, whom(), ON)
    assert found.weight is None
    assert "Use a scale" in found.why
    assert [one.kg for one in found.beside] == [120]
    assert best_weight((height(100), weighed(120)), whom(), ON).weight is not None


def test_under_100_cm_a_scale_counts_and_a_formula_says_it_is_a_guess() -> None:
    scale = best_weight((height(95), weighed(130, 0, SCALE)), whom(), ON)
    assert scale.weight is not None
    assert scale.small
    assert scale.cautions == (NEVER_DOSE,)
    tape = best_weight((height(95), girth(110), length(95)), whom(60), ON)
    assert tape.weight is not None
    assert any("Under 100 cm only a scale is sure" in one for one in tape.cautions)


def test_a_foal_under_100_cm_by_the_foals_own_rule_is_told_no_such_thing() -> None:
    found = best_weight((height(95), girth(95)), whom(2, horse_type="light"), ON)
    assert found.weight is not None
    assert found.small
    assert found.cautions == (NEVER_DOSE,)


def test_small_is_by_a_height_that_stands_else_by_type() -> None:
    small = whom(horse_type="small_pony")
    assert is_small((), small, ON)
    assert not is_small((height(104),), small, ON)
    assert is_small((height(104, 400),), small, ON)  # long stale
    assert is_small((height(104, 0, "tape"),), small, ON)  # a tape reads high
    assert not is_small((), whom(), ON)


def test_a_youngster_by_the_grown_horses_rule_is_told_so() -> None:
    tape = (girth(150), length(130))
    assert YOUNG_SAID in best_weight(tape, whom(30), ON).cautions
    assert YOUNG_SAID not in best_weight(tape, whom(60), ON).cautions


def test_a_worked_weight_goes_before_a_typed_one_of_its_day() -> None:
    taken = (girth(150), length(130), weighed(500, 0, FORMULA))
    best = best_weight(taken, whom(60), ON).weight
    assert best is not None
    assert best.worked is not None
    typed_later = (girth(150, 4), length(130, 4), weighed(500, 0, FORMULA))
    assert (
        best_weight(typed_later, whom(60), ON).weight
        == best_weight(typed_later[2:], whom(60), ON).weight
    )
