"""Bits against published sources, and worked examples at exact sizes.

Anttila, Raekallio, Valros (2022), Frontiers in Veterinary Science 9:879048: a bit 0 to
10 mm longer than the mouth fits, and one no thicker than jaw gap less tongue.
German competition code (LPO) paragraph 70 (2013), read second-hand: at most 5 mm each.
Clayton (1998/99), Fitting the jointed snaffle bit, Michigan State University: more than
half an inch in all is too long.
Tuomola et al. (2021), Frontiers in Veterinary Science 8:651160: fewest sore mouths with
14 to 17 mm, more with 10 to 13 and with 18 to 22.
Mouths and bits of the worked examples are invented; where a published source stands
behind the answer, the test says which. The rest follows our own rules.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitting.fit import Answer, Cheek
from fitting.fit.answers import Window
from fitting.fit.clearances import BIT_FIXED
from tests.fitting.making_fit import bit_on, make_bit, make_wearer, steady

INCH = 25.4
GOOD, WATCH, NO = Answer.GOOD, Answer.WATCH, Answer.NO


def length_answer(mouth_mm: float, bit_mm: float, cheek: Cheek) -> Answer:
    wearer = make_wearer(steady(mouth_width=mouth_mm))
    return bit_on(wearer, make_bit(bit_mm, cheek)).answer


@pytest.mark.parametrize("clear_mm", [0.0, 2.5, 5.0, 7.5, 10.0])
def test_a_fixed_cheek_is_good_wherever_the_research_calls_it_a_fit(
    clear_mm: float,
) -> None:
    # Anttila 2022; LPO 70
    assert length_answer(118.0, 118.0 + clear_mm, "eggbutt") is GOOD


@pytest.mark.parametrize("cheek", ["eggbutt", "dee", "full_cheek", "hanging_cheek"])
def test_a_fixed_cheek_past_half_an_inch_is_never_good(cheek: Cheek) -> None:
    # Clayton 1998/99
    assert length_answer(118.0, 118.0 + 13.0, cheek) is not GOOD


@pytest.mark.parametrize(
    ("mouth_mm", "bit_inches", "cheek", "answer"),
    [
        # 9 mm clear in all: Anttila 2022 for a fixed cheek
        (118.0, 5.0, "eggbutt", GOOD),
        (118.0, 5.0, "loose_ring", GOOD),
        # 15.35 mm: past Clayton's half inch
        (118.0, 5.25, "eggbutt", NO),
        (118.0, 5.25, "loose_ring", WATCH),
        # 2.65 mm
        (118.0, 4.75, "loose_ring", NO),
        (118.0, 4.75, "eggbutt", GOOD),
        # 3.35 mm narrower than the mouth
        (124.0, 4.75, "eggbutt", NO),
        (124.0, 4.75, "loose_ring", NO),
        # a mouth of 4 7/8 in takes a 5 in bit (common practice, no published source)
        (4.875 * INCH, 5.0, "eggbutt", GOOD),
        (4.875 * INCH, 5.0, "loose_ring", WATCH),
        (5.75 * INCH, 6.0, "loose_ring", GOOD),
        # a quarter inch each side (common practice, no published source)
        (127.0 - 12.7, 5.0, "loose_ring", GOOD),
        (127.0 - 12.7, 5.0, "eggbutt", WATCH),
        # ours: the refusals past it
        (127.0 - 14.1, 5.0, "eggbutt", NO),
        (127.0 - 16.1, 5.0, "loose_ring", NO),
    ],
)
def test_a_bit_of_that_length_on_that_mouth(
    mouth_mm: float, bit_inches: float, cheek: Cheek, answer: Answer
) -> None:
    assert length_answer(mouth_mm, bit_inches * INCH, cheek) is answer


def test_a_growing_horse_wants_three_millimetres_where_a_grown_one_does_not() -> None:
    # ours: stricter than Anttila 2022, which looked at grown horses only
    growth = steady(mouth_width=118.0)
    bit = make_bit(4.75 * INCH, "eggbutt")
    assert bit_on(make_wearer(growth), bit).answer is GOOD
    assert bit_on(make_wearer(growth, grown=False), bit).answer is WATCH


@pytest.mark.parametrize(
    ("jaw_mm", "tongue_mm", "thick_mm", "answer"),
    [(52, 38, 14, GOOD), (52, 38, 16, NO), (45, 35, 10, GOOD), (45, 35, 14, NO)],
)
def test_a_measured_mouth_decides_the_thickness(
    jaw_mm: float, tongue_mm: float, thick_mm: float, answer: Answer
) -> None:
    # Anttila 2022: thickness at most jaw gap less tongue; the numbers are invented
    growth = steady(mouth_width=120.0, jaw_gap=jaw_mm, tongue_thickness=tongue_mm)
    bit = make_bit(127.0, thickness_mm=thick_mm)
    assert bit_on(make_wearer(growth), bit).answer is answer


@pytest.mark.parametrize(
    ("thick_mm", "answer"),
    [(14, GOOD), (15.5, GOOD), (17, GOOD), (12, WATCH), (13, WATCH), (19, WATCH)],
)
def test_a_horse_with_an_unmeasured_mouth_goes_by_the_band_with_fewest_sores(
    thick_mm: float, answer: Answer
) -> None:
    # Tuomola et al. 2021: 14 to 17 mm; how far watch reaches is ours
    found = bit_on(
        make_wearer(steady(mouth_width=120.0)), make_bit(127, thickness_mm=thick_mm)
    )
    assert found.answer is answer


@pytest.mark.parametrize("thick_mm", [10, 11, 12, 13, 18, 19, 20, 21, 22])
def test_no_thickness_with_more_sores_is_good_on_a_horse(thick_mm: float) -> None:
    # Tuomola et al. 2021
    found = bit_on(
        make_wearer(steady(mouth_width=120.0)), make_bit(127, thickness_mm=thick_mm)
    )
    assert found.answer is not GOOD


def test_a_thickness_too_thin_for_a_horse_is_good_on_a_pony() -> None:
    # US Equestrian rule EV115.2.d (2019): 14 mm for horses, 10 mm for ponies at least
    growth, bit = steady(mouth_width=120.0), make_bit(127, thickness_mm=13)
    assert bit_on(make_wearer(growth), bit).answer is not GOOD
    assert bit_on(make_wearer(growth, horse_type="pony"), bit).answer is GOOD


def test_our_good_window_for_a_fixed_cheek_is_the_published_one() -> None:
    # Anttila 2022; with the watch edge inside a millimetre and a half of Clayton's
    assert replace(BIT_FIXED, no_above=12.7) == Window(
        no_below=0, good_from=0, good_to=10, no_above=12.7
    )
    assert BIT_FIXED.no_above - 12.7 < 1.5
