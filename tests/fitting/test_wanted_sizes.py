"""Which sizes are wanted: good by the judge, lasting longest, worth keeping."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.fit import Answer, Part, Tack, Wearer, fits
from fitting.fit.tack import Cheek
from fitting.wanted import Range
from fitting.wanted.sizing import Sort, good_sizes, thick_sizes
from tests.fitting.making_fit import ON, make_bit, spread, steady
from tests.fitting.making_wanted import (
    MOUTH,
    NEEDED,
    growing,
    need,
    one,
    wanted_for,
    wearer_of,
)


def answer_of(sort: Sort, size_mm: float, wearer: Wearer) -> Answer:
    """Judge an item of one exact size as any item on a peg is judged."""
    part = Part(part=sort.part, length_mm=size_mm, cheek=sort.cheek, thickness_mm=15.0)
    if sort.part == "whole":
        part = Part(part="whole", length_mm=size_mm, holes=1, hole=1, spacing_mm=16.0)
    if sort.kind == "roller":
        part = Part(part="strap", shortest_mm=1.0, longest_mm=size_mm)
    item = Tack(name="Any", kind=sort.kind, parts=(part,))
    found = fits(wearer, (item,), (), ON)
    return next(f for f in found if f.part == sort.part).answer


SORTS = [
    (Sort(kind="bit", part="mouthpiece"), "mouth_width", 118.0),
    (Sort(kind="bit", part="mouthpiece", cheek="loose_ring"), "mouth_width", 118.0),
    (Sort(kind="bridle", part="whole"), "head_length", 1040.0),
    (Sort(kind="bridle", part="browband"), "brow", 380.0),
    (Sort(kind="bridle", part="noseband"), "nose_round", 600.0),
    (Sort(kind="bridle", part="throatlash"), "throat_round", 900.0),
    (Sort(kind="headcollar", part="nose"), "nose_round", 600.0),
    (Sort(kind="headcollar", part="crown"), "head_length", 1040.0),
    (Sort(kind="cavesson", part="jowl"), "throat_round", 900.0),
    (Sort(kind="roller", part="strap"), "heart_girth", 1700.0),
    (Sort(kind="girth", part="strap"), "girth_path", 1200.0),
    (Sort(kind="rug", part="back_seam"), "rug_length", 1750.0),
]


@pytest.mark.parametrize(("sort", "measure", "body"), SORTS)
def test_every_size_in_the_range_is_good_and_none_outside_it(
    sort: Sort, measure: str, body: float
) -> None:
    wearer = make_grown(measure, body)
    found = good_sizes(sort, spread(body, 0.01), wearer, ON)
    assert found is not None
    assert found.from_mm is not None
    tried = [found.from_mm - 40 + step / 2 for step in range(300)]
    judged = {size: answer_of(sort, size, wearer) for size in tried}
    edges = [end for end in (found.from_mm, found.to_mm) if end is not None]
    for size, answer in judged.items():
        if all(abs(size - edge) > 0.2 for edge in edges):
            assert (answer is Answer.GOOD) == found.has(size), size


def make_grown(measure: str, body: float) -> Wearer:
    return wearer_of(growing({measure: body}), grown=True)


@settings(max_examples=12, deadline=None)
@given(
    mouth=st.floats(90, 150),
    sd=st.floats(0.05, 3.0),
    cheek=st.sampled_from(["eggbutt", "loose_ring"]),
)
def test_the_range_of_a_bit_is_that_of_the_judge_under_any_spread(
    mouth: float, sd: float, cheek: Cheek
) -> None:
    wearer = wearer_of(steady(mouth_width=mouth, sd=sd), grown=True)
    sort = Sort(kind="bit", part="mouthpiece", cheek=cheek)
    found = good_sizes(sort, spread(mouth, sd), wearer, ON)
    for step in range(0, 80, 3):
        size = mouth - 10 + step / 2
        good = answer_of(sort, size, wearer) is Answer.GOOD
        if found is None:
            assert not good
        elif (
            min(abs(size - (found.from_mm or 0)), abs(size - (found.to_mm or 0))) > 0.2
        ):
            assert good == found.has(size)


def test_a_panel_may_be_any_length_up_to_the_back() -> None:
    wearer = make_grown("back_length", 480.0)
    sort = Sort(kind="saddle", part="panel")
    found = good_sizes(sort, spread(480.0, 0.01), wearer, ON)
    assert found is not None
    assert found.from_mm is None
    assert found.to_mm == pytest.approx(480.0, abs=0.2)


def test_the_size_that_lasts_longest_is_the_largest_that_is_good() -> None:
    growth = growing({"mouth_width": 115.0}, a_day={"mouth_width": 0.02})
    wanted = one(wanted_for(wearer_of(growth), need("bit")).wanted)
    steps = [step for step in wanted.steps if step.until]
    assert [round(step.mm) for step in steps] == [121, 120, 125]
    longest = wanted.longest
    assert longest is not None
    assert longest.mm == 125.0
    # 125 mm is good until the mouth has come to 122, at 0.02 mm a day from 115.
    assert longest.until is not None
    assert abs((longest.until - ON).days - 352) <= 4


def test_the_whole_range_is_told_to_last_as_long_as_its_largest_size() -> None:
    growth = growing({"mouth_width": 115.0}, a_day={"mouth_width": 0.02})
    wanted = one(wanted_for(wearer_of(growth), need("bit")).wanted)
    # in 60 days the mouth is 116.2: to 126.2 is good, 126.2 until the mouth is 123.2
    assert wanted.until is not None
    assert abs((wanted.until - ON).days - (123.2 - 115) / 0.02) <= 6


def test_a_size_that_stays_good_as_far_as_is_looked_is_the_one_that_lasts() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.longest is not None
    assert (wanted.longest.until, wanted.longest.mm) == (None, 125.0)  # 127 does too
    ends = replace(wanted.steps[0], mm=120.0, until=NEEDED)
    lasts = replace(wanted, steps=(ends, *wanted.steps)).longest
    assert lasts is not None
    assert lasts.until is None


def test_no_size_is_said_to_last_longest_where_two_last_alike() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    ends, soon = NEEDED + timedelta(days=90), NEEDED + timedelta(days=30)
    step = wanted.steps[0]
    short, long = replace(step, mm=120.0, until=soon), replace(step, until=ends)
    alike = replace(step, mm=127.0, until=ends)
    assert replace(wanted, steps=(short, long)).outlasting == long
    assert replace(wanted, steps=(short, long, alike)).outlasting is None
    assert replace(wanted, steps=(long,)).outlasting is None
    assert replace(wanted, steps=()).outlasting is None


def test_a_size_is_kept_where_the_growth_to_come_is_less_than_a_step() -> None:
    little = growing(MOUTH, ends={"mouth_width": 121.0})
    much = growing(MOUTH, ends={"mouth_width": 126.0})
    assert one(wanted_for(wearer_of(little), need("bit")).wanted).keep
    assert not one(wanted_for(wearer_of(much), need("bit")).wanted).keep
    unsure = growing(MOUTH, ends={"mouth_width": 121.0}, unsure_mm2=4.0)
    assert not one(wanted_for(wearer_of(unsure), need("bit")).wanted).keep


@pytest.mark.parametrize(("grown_mm", "keep"), [(1090.0, True), (1110.0, False)])
def test_a_bridle_is_kept_where_two_holes_let_out_for_all_growth(
    grown_mm: float, *, keep: bool
) -> None:
    growth = growing({"head_length": 1040.0}, ends={"head_length": grown_mm})
    found = wanted_for(wearer_of(growth), need("bridle"))
    whole = next(w for w in found.wanted if w.part == "whole")
    assert whole.keep is keep


def test_a_loose_ring_is_wanted_longer_than_a_fixed_cheek() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.loose is not None
    assert wanted.loose.from_mm == pytest.approx(124.0, abs=0.2)
    assert wanted.thick == Range(from_mm=14.0, to_mm=17.0)


def test_no_thickness_is_named_that_would_not_be_good_in_an_unsure_mouth() -> None:
    sizes = {**MOUTH, "jaw_gap": 52.0, "tongue_thickness": 36.0}
    wearer = wearer_of(growing(sizes, sd=1.0), grown=True)
    thick = thick_sizes(wearer, ON).to_mm
    assert thick is not None
    assert thick < 16  # the middle of the room
    for mm, good in ((thick, True), (thick + 0.2, False)):
        (found,) = fits(wearer, (make_bit(123.0, thickness_mm=mm),), (), ON)
        assert (found.answer is Answer.GOOD) is good


def test_a_measured_mouth_says_how_thick_a_bit_may_be() -> None:
    sizes = {**MOUTH, "jaw_gap": 50.0, "tongue_thickness": 38.0}
    wanted = one(wanted_for(wearer_of(growing(sizes)), need("bit")).wanted)
    assert wanted.thick is not None
    assert wanted.thick.to_mm == pytest.approx(12.0, abs=0.1)
    assert wanted.thick.from_mm == wanted.thick.to_mm  # the usual 14 would not go in
