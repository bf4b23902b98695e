"""What an item covers is where its own rule says good, body by body."""

from __future__ import annotations

from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer, Cheek, Part, Tack, fits
from fitting.fit.covers import Cover, covers
from tests.fitting.making_fit import (
    ON,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    steady,
)

OFF_EDGE: Final = 0.2  # mm: more than what an edge forgives
CHEEKS: Final[tuple[Cheek, ...]] = ("eggbutt", "dee", "full_cheek", "loose_ring")


def cover_by(item: Tack, *, grown: bool = True) -> Cover:
    wearer = make_wearer(steady(mouth_width=120.0, head_length=1040.0), grown=grown)
    (found,) = covers(wearer, (item,), (), ON)
    return found


def answer_on(item: Tack, body_mm: float, *, grown: bool = True) -> Answer:
    """Judge the item on a body of exactly that size."""
    growth = steady(mouth_width=body_mm, head_length=body_mm)
    (found, *_) = fits(make_wearer(growth, grown=grown), (item,), (), ON)
    return found.answer


def is_good(cover: Cover, body_mm: float) -> bool:
    return any(low <= body_mm <= high for low, high in cover.good)


def edges(cover: Cover) -> list[float]:
    return [*sum(cover.good, ()), cover.least_mm, cover.most_mm]


@given(
    cheek=st.sampled_from(CHEEKS),
    mouthpiece=st.sampled_from(["single_jointed", "double_jointed", "straight"]),
    grown=st.booleans(),
    clear=st.floats(min_value=-5, max_value=22),
)
def test_a_bit_covers_the_mouths_that_its_rule_calls_good(
    cheek: Cheek, mouthpiece: str, grown: bool, clear: float
) -> None:
    bit = make_bit(127.0, cheek, mouthpiece=mouthpiece)
    mouth = 127.0 - clear
    cover = cover_by(bit, grown=grown)
    if min(abs(mouth - edge) for edge in edges(cover)) < OFF_EDGE:
        return
    answer = answer_on(bit, mouth, grown=grown)
    assert (answer is Answer.GOOD) == is_good(cover, mouth)
    assert (answer is Answer.NO) == (not cover.least_mm <= mouth <= cover.most_mm)


@given(
    holes=st.integers(min_value=1, max_value=9),
    spacing=st.sampled_from([12.7, 15.875, 16.0, 20.0, 25.4]),
    head=st.floats(min_value=600, max_value=1300),
)
def test_a_bridle_covers_the_heads_that_its_rule_calls_good(
    holes: int, spacing: float, head: float
) -> None:
    bridle = make_bridle(holes=holes, spacing_mm=spacing)
    cover = cover_by(bridle)
    if min(abs(head - edge) for edge in edges(cover)) < OFF_EDGE:
        return
    answer = answer_on(bridle, head)
    assert (answer is Answer.GOOD) == is_good(cover, head)
    assert (answer is Answer.NO) == (not cover.least_mm <= head <= cover.most_mm)


def test_a_five_inch_eggbutt_covers_ten_millimetres_of_mouth() -> None:
    cover = cover_by(make_bit(127.0, "eggbutt"))
    assert cover.measure == "mouth_width"
    assert (cover.from_mm, cover.to_mm) == pytest.approx((117, 127))
    assert (cover.least_mm, cover.most_mm) == pytest.approx((113, 127))
    assert not cover.holes


def test_a_growing_mouth_wants_three_millimetres_more() -> None:
    assert cover_by(make_bit(127.0), grown=False).to_mm == pytest.approx(124)


def test_a_bridle_names_the_head_of_each_hole_the_longest_first() -> None:
    cover = cover_by(make_bridle(holes=3, spacing_mm=16.0))
    # Two cheeks of 230 and 600 over the poll, a usual ring of 65, 5 lift a side.
    assert cover.holes == pytest.approx((1135, 1103, 1071))
    assert (cover.from_mm, cover.to_mm) == pytest.approx((1055, 1151))
    assert len(cover.good) == 1


def test_holes_far_apart_leave_heads_between_them() -> None:
    cover = cover_by(make_bridle(holes=2, spacing_mm=25.4))
    assert len(cover.good) == 2
    (_, low_end), (high_start, _) = cover.good
    assert low_end < high_start


def test_a_set_covers_by_its_own_ring_and_its_bit_by_the_set_s_name() -> None:
    bridle, bit = make_bridle(), make_bit(ring_mm=75.0)
    made = make_set(bridle, bit)
    wearer = make_wearer(steady(mouth_width=120.0, head_length=1040.0))
    found = {(c.item, c.measure): c for c in covers(wearer, (bridle, bit), (made,), ON)}
    assert set(found) == {
        ("Hazel bridle", "head_length"),
        ("Steel snaffle", "mouth_width"),
        ("First bridle", "head_length"),
        ("First bridle", "mouth_width"),
    }
    by_ring = found["First bridle", "head_length"].to_mm
    assert by_ring == pytest.approx(found["Hazel bridle", "head_length"].to_mm + 10)


def test_what_has_no_size_or_no_rule_covers_nothing() -> None:
    roller = Tack(name="Web roller", kind="roller", parts=(Part(part="strap"),))
    wearer = make_wearer(steady(mouth_width=120.0))
    assert covers(wearer, (make_bit(None), roller), (), ON) == ()
