"""Rollers, girths and rugs: what goes round the body, or over it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from fitting.fit import Answer, Part, Tack
from fitting.fit.covers import covers
from fitting.tryons import Tried, TryOn
from tests.fitting.making_fit import GOOD, NO, ON, UNKNOWN, WATCH, make_wearer, steady
from tests.fitting.making_round_the_body import (
    INCH,
    girth,
    on_body,
    on_growth,
    roller,
    rug,
)


@pytest.mark.parametrize(
    ("girth_mm", "answer"),
    [
        (1499, NO),  # too long even taken right up
        (1500, GOOD),
        (1560, GOOD),
        (1620, GOOD),  # 80 mm to let out
        (1621, WATCH),
        (1700, WATCH),
        (1701, NO),  # too short even let right out
    ],
)
def test_a_roller_goes_round_the_girth_with_room_to_grow(
    girth_mm: float, answer: Answer
) -> None:
    assert on_body(roller(), girth_mm).answer is answer


def test_a_roller_says_its_hole_the_spare_ones_and_how_far_it_lets_out() -> None:
    found = on_body(roller(), 1605)  # 50 mm a hole, both sides together
    assert (found.hole, found.spare_longer, found.spare_shorter) == (3, 2, 2)
    assert found.why == (
        "Let right out, 95 mm more than heart girth: right. The same hole both sides."
    )
    assert (found.reach_from_mm, found.reach_to_mm) == (1500, 1620)
    assert "two fingers clear over the spine" in " ".join(found.cautions)


@pytest.mark.parametrize(
    ("girth_mm", "hole", "spare"), [(1555, 4, (3, 1)), (1502, 5, (4, 0))]
)
def test_the_first_hole_of_a_roller_is_its_longest_and_a_slim_girth_takes_the_last(
    girth_mm: float, hole: int, spare: tuple[int, int]
) -> None:
    found = on_body(roller(), girth_mm)  # 1700 on hole 1, 1500 on hole 5
    assert found.hole == hole
    assert (found.spare_longer, found.spare_shorter) == spare
    assert found.needs_from_mm == girth_mm + 80


@pytest.mark.parametrize(
    ("girth_mm", "why"),
    [
        (1660, "Let right out, 40 mm more than heart girth: 80 are wanted for growth."),
        (1712, "Even let right out, 12 mm less than heart girth: too short."),
        (1460, "Even taken right up, 40 mm more than heart girth: too long."),
    ],
)
def test_a_roller_that_is_not_good_says_by_how_much(girth_mm: float, why: str) -> None:
    assert on_body(roller(), girth_mm).why.startswith(why)


def test_a_roller_close_to_the_edge_of_an_unsure_girth_is_watched() -> None:
    found = on_body(roller(), 1610, sd=30)  # a little over one third beyond 1620
    assert found.answer is GOOD
    found = on_body(roller(), 1640, sd=30)
    assert found.answer is WATCH
    found = on_body(roller(), 1505, sd=30)  # near a half that it is too long
    assert found.answer is WATCH
    assert "not known closely enough" in found.why


@pytest.mark.parametrize(
    ("strap", "ask"),
    [
        (Part(part="strap"), "the longest of the strap"),
        (Part(part="strap", length_mm=1700), "the longest of the strap"),
        (Part(part="strap", shortest_mm=1500), "the longest of the strap"),
        (Part(part="strap", longest_mm=1700), "the shortest of the strap"),
        (Part(part="strap", longest_mm=1700, holes=5), "the shortest of the strap"),
        (
            Part(part="strap", longest_mm=300, holes=9, spacing_mm=25),
            "hole spacing of the strap",
        ),
    ],
)
def test_a_roller_whose_lengths_are_not_written_down_is_not_known(
    strap: Part, ask: str
) -> None:
    found = on_body(roller(strap), 1560)
    assert (found.answer, found.ask) == (UNKNOWN, ask)
    assert found.cautions


def test_holes_stand_in_for_the_other_end_of_a_roller_both_sides_counted() -> None:
    whole = on_body(roller(), 1560)
    for strap in (
        Part(part="strap", longest_mm=1700, holes=5, spacing_mm=25),
        Part(part="strap", shortest_mm=1500, holes=5, spacing_mm=25),
        Part(part="strap", shortest_mm=1500, holes=5, strap_width_mm=25),
    ):
        assert on_body(roller(strap), 1560) == whole


def test_a_roller_that_hardly_lets_out_is_never_good() -> None:
    short = roller(Part(part="strap", shortest_mm=1600, longest_mm=1660))
    for body in range(1590, 1672, 3):
        assert on_body(short, body).answer is not GOOD
    wearer = make_wearer(steady(heart_girth=1630.0))
    (cover,) = covers(wearer, (short,), (), ON)
    assert cover.good == ()


def test_a_roller_seen_to_sit_right_is_good_until_growth_passes_it() -> None:
    growth = steady(heart_girth=1560.0, a_day={"heart_girth": 0.5})
    seen = TryOn(
        on=ON,
        item="Web roller",
        how="worn",
        parts=(Tried(part="strap", seen="sits_right", hole=3),),
    )
    found = on_growth(roller(), growth, seen)
    assert (found.answer, found.hole) == (GOOD, 3)
    assert found.good_until is not None
    after = on_growth(roller(), growth, on=ON + timedelta(days=200))  # 1660 by then
    assert after.answer is WATCH
    short = replace(seen, parts=(Tried(part="strap", seen="too_short"),))
    assert on_growth(roller(), growth, short).answer is NO


@pytest.mark.parametrize(
    ("path_in", "answer"),
    [(48, GOOD), (47, GOOD), (50, GOOD), (46, GOOD), (51, WATCH), (45, WATCH)],
)
def test_a_girth_leaves_two_holes_each_side_of_seven(
    path_in: float, answer: Answer
) -> None:
    assert on_body(girth(48 * INCH), path_in * INCH).answer is answer


def test_a_girth_past_the_last_hole_is_a_no_and_names_the_size() -> None:
    short = on_body(girth(1000), 47 * INCH)
    assert short.answer is NO
    assert "too short" in short.why
    assert short.why.endswith("By its path, a girth of 48 in.")
    long = on_body(girth(1400), 47 * INCH)
    assert (long.answer, "too long" in long.why) == (NO, True)


@pytest.mark.parametrize(
    ("clear_in", "answer"),
    [
        (-2, NO), (-1, WATCH), (-0.25, GOOD), (0, GOOD), (3, GOOD), (4, WATCH),
        (6, WATCH), (7, NO),
    ],
)  # fmt: skip
def test_a_rug_is_good_up_to_a_size_longer_than_the_horse(
    clear_in: float, answer: Answer
) -> None:
    assert on_body(rug((69 + clear_in) * INCH), 69 * INCH).answer is answer


def test_a_rug_names_the_size_for_now() -> None:
    found = on_body(rug(1600), 1753)
    assert (found.answer, found.part) == (NO, "back_seam")
    assert found.why.endswith("The size for now is 5 ft 9 in.")


@pytest.mark.parametrize("item", [girth(None), rug(None)])
def test_a_length_not_written_down_is_asked_for(item: Tack) -> None:
    found = on_body(item, 1500)
    assert found.answer is UNKNOWN
    assert found.ask.startswith("length of the ")


@pytest.mark.parametrize(
    ("item", "name"),
    [
        (roller(), "heart girth"),
        (girth(1200), "girth path"),
        (rug(1600), "rug length"),
    ],
)
def test_a_measure_never_taken_is_asked_for_by_its_name(item: Tack, name: str) -> None:
    found = on_growth(item, steady())
    assert (found.answer, found.ask) == (UNKNOWN, name)
