"""Straps about the head: which hole is named, and what is left to each side of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitting.fit import Answer, Part
from fitting.fit.clearances import STRAPS
from fitting.fit.lengths import Lengths, lengths_of
from tests.fitting.making_fit import GOOD, NO, ON, WATCH, make_wearer, steady
from tests.fitting.making_straps import NOSEBAND, ORDER, of_parts, strap, strap_on


@pytest.mark.parametrize(
    ("nose_mm", "hole", "answer"),
    [
        (625, 1, GOOD),  # hole 1 leaves 55 and hole 2 leaves 35: the loosest is named
        (624, 2, GOOD),
        (605, 2, GOOD),
        (585, 3, GOOD),
        (520, 7, GOOD),
        (480, 7, WATCH),  # 80 over even on the last
        (479, None, NO),
        (670, 1, WATCH),
        (681, None, NO),
    ],
)
def test_the_loosest_hole_that_is_good_is_named(
    nose_mm: float, hole: int | None, answer: Answer
) -> None:
    item = of_parts("bridle", NOSEBAND)
    found = strap_on(make_wearer(steady(nose_round=nose_mm)), item)
    assert (found.answer, found.hole) == (answer, hole)
    if hole is not None:
        assert (found.spare_longer, found.spare_shorter) == (hole - 1, 7 - hole)


@given(nose=st.floats(400, 760), holes=st.integers(1, 9), spacing=st.floats(8.0, 60.0))
def test_the_hole_named_is_the_best_by_trying_every_one(
    nose: float, holes: int, spacing: float
) -> None:
    item = strap("noseband", 680, holes=holes, spacing_mm=spacing)
    lengths = [680 - spacing * hole for hole in range(holes)]
    assume(lengths[-1] > 0)
    edges = (0, 30, 55, 80)
    assume(all(abs(one - nose - e) > 0.2 for one, e in product(lengths, edges)))
    answers = [STRAPS["noseband"].answer_at(one - nose) for one in lengths]
    best = min(answers, key=ORDER.index)
    found = strap_on(make_wearer(steady(nose_round=nose)), item)
    assert found.answer is best
    if best is GOOD:
        assert found.hole == answers.index(GOOD) + 1
    elif best is WATCH:
        assert found.hole is not None
        assert answers[found.hole - 1] is WATCH
        # too loose rather than too tight, where there is a choice
        loose = [one for one in lengths if 55 < one - nose < 80]
        if loose:
            assert lengths[found.hole - 1] == min(loose)
    else:
        assert found.hole is None


def test_a_strap_says_the_holes_left_to_let_down_before_those_to_take_up() -> None:
    item = of_parts("bridle", NOSEBAND)
    found = strap_on(make_wearer(steady(nose_round=605)), item)
    assert found.why == (
        "Hole 2 of 7, 55 mm more than round the nose: right."
        " 1 to let down, 5 to take up."
    )


def test_of_a_throatlash_s_good_holes_the_middlemost_is_named() -> None:
    part = Part(part="throatlash", length_mm=890, holes=5, spacing_mm=15)
    found = strap_on(make_wearer(steady(throat_round=780)), of_parts("bridle", part))
    # 890 on its middle hole, 110 more than the throat: the middle of the window
    assert (found.answer, found.hole, found.size_mm) == (GOOD, 3, 890)


@pytest.mark.parametrize(
    ("nose_mm", "answer"),
    [(665, WATCH), (601, WATCH), (599, NO), (521, NO), (519, WATCH), (439, NO)],
)
def test_a_nose_between_two_holes_far_apart_is_a_no(
    nose_mm: float, answer: Answer
) -> None:
    # done up 680 or 520: 0 to 80 mm over the nose is worn at all
    item = strap("noseband", 680, holes=2, spacing_mm=160)
    assert strap_on(make_wearer(steady(nose_round=nose_mm)), item).answer is answer


@pytest.mark.parametrize(
    ("part", "first", "last"),
    [
        (NOSEBAND, 680, 560),
        (replace(NOSEBAND, spacing_mm=None), 680, 560),
        (replace(NOSEBAND, longest_mm=None), 680, 560),
        (replace(NOSEBAND, shortest_mm=None), 680, 560),
        (
            Part(part="noseband", length_mm=640, hole=3, holes=7, strap_width_mm=20),
            680,
            560,
        ),
        (Part(part="noseband", longest_mm=600, holes=1), 600, 600),
    ],
)
def test_the_holes_follow_from_whichever_sizes_are_written_down(
    part: Part, first: float, last: float
) -> None:
    found = lengths_of(part, "nose_round")
    assert isinstance(found, Lengths)
    assert (found.on_holes[0], found.on_holes[-1]) == (first, last)
    assert found.on(1) == first
    assert (found.on(None), found.on(0), found.on(8)) == (None, None, None)


def test_a_strap_without_holes_is_done_up_anywhere_between_its_ends() -> None:
    part = Part(part="noseband", shortest_mm=560, longest_mm=680)
    item = of_parts("bridle", part)
    found = strap_on(make_wearer(steady(nose_round=580)), item)
    assert (found.answer, found.hole, found.size_mm) == (GOOD, None, 622.5)
    assert strap_on(make_wearer(steady(nose_round=690)), item).answer is NO
    assert "Let right out" in strap_on(make_wearer(steady(nose_round=690)), item).why


def test_a_strap_lasts_until_growth_takes_it_off_its_last_hole() -> None:
    growth = steady(nose_round=600, a_day={"nose_round": 0.1})
    found = strap_on(make_wearer(growth), of_parts("bridle", NOSEBAND))
    # hole 1 is good to 650, 50 mm or 500 days away
    assert found.good_until is not None
    assert (found.good_until - ON).days == pytest.approx(501, abs=1)
    assert found.reach_to_mm == 650
    holes = [
        strap_on(
            make_wearer(growth), of_parts("bridle", NOSEBAND), date(year, month, 1)
        ).hole
        for year, month in ((2026, 3), (2026, 9), (2027, 3))
    ]
    assert holes == [3, 2, 1]
