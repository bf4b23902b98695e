from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitting.fit import Answer, Finding, Part, Tack, Wearer, fits
from fitting.fit.bridles import HoleRule
from fitting.fit.holes import Straps, nearest_hole
from fitting.units import read_length
from tests.fitting.making_fit import (
    ON,
    hole_on,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    spread,
    steady,
)

# Cheekpieces 230, headpiece 600, rings 70 and the first wrinkle 10: hole 1 is for a
# head of 1140 mm.
FIRST_HEAD = 1140.0


def on_head(
    head_mm: float, bridle: Tack | None = None, *, grown: bool = True
) -> Finding:
    wearer = make_wearer(steady(head_length=head_mm), grown=grown)
    return hole_on(wearer, bridle or make_bridle())


def test_half_way_between_two_holes_a_first_bit_hangs_higher() -> None:
    half_way = FIRST_HEAD - 2 * 15.875 * 2.5  # between holes 3 and 4
    assert on_head(half_way).hole == 3
    assert on_head(half_way, grown=False).hole == 4


@pytest.mark.parametrize("ties_shorter", [True, False])
def test_the_rule_for_ties_touches_nothing_but_ties(ties_shorter: bool) -> None:
    straps = Straps(part="whole", first_mm=1000, holes=5, spacing_mm=10)
    found = [
        nearest_hole(straps, length, ties_shorter=ties_shorter)
        for length in (1030, 1000, 991, 989, 971, 969, 920, 800)
    ]
    assert found == [1, 1, 1, 2, 2, 3, 5, 5]


def test_more_than_eight_millimetres_a_side_off_is_watch() -> None:
    wide = make_bridle(holes=4, spacing_mm=25.0)
    assert on_head(FIRST_HEAD - 50 - 15, wide).answer is Answer.GOOD  # 7.5 a side
    found = on_head(FIRST_HEAD - 50 - 20, wide)  # 10 a side
    assert found.answer is Answer.WATCH
    assert "half a hole would do it" in found.why


def test_it_is_a_no_only_when_the_end_hole_does_not_reach() -> None:
    last_head, space = FIRST_HEAD - 6 * 31.75, 15.875
    assert on_head(FIRST_HEAD + space - 0.1).answer is Answer.GOOD
    assert on_head(FIRST_HEAD + space + 0.2).answer is Answer.NO
    assert on_head(last_head - space + 0.1).answer is Answer.GOOD
    assert on_head(last_head - space - 0.2).answer is Answer.NO


def test_a_bridle_that_does_not_reach_says_on_which_end_and_by_how_much() -> None:
    short, long = on_head(FIRST_HEAD + 40), on_head(900)
    assert short.why.startswith("Even on its first hole 20 mm a side too short.")
    assert long.why.startswith("Even on its last hole 25 mm a side too long.")
    assert (short.hole, short.spare_longer, short.spare_shorter) == (None, None, None)


def test_a_bridle_measured_whole_is_enough() -> None:
    # 1060 - 2 * 2 * 15.875 on its third hole is the same bridle as in parts
    whole = Part(part="whole", length_mm=996.5, hole=3, holes=7, spacing_mm=15.875)
    bridle = Tack(name="Old bridle", kind="bridle", parts=(whole,))
    found, in_parts = on_head(1040, bridle), on_head(1040)
    assert found.part == "whole"
    assert replace(found, part="cheekpieces") == in_parts


def test_a_bridle_measured_whole_on_an_untold_hole_is_not_known() -> None:
    whole = Part(part="whole", length_mm=996.5, holes=7, spacing_mm=15.875)
    found = on_head(1040, Tack(name="Old bridle", kind="bridle", parts=(whole,)))
    assert (found.answer, found.ask) == (Answer.NOT_KNOWN, "its hole")


@pytest.mark.parametrize(
    "headpiece",
    [
        Part(part="headpiece", length_mm=600, holes=7, strap_width_mm=15.875),
        Part(part="headpiece", shortest_mm=409.5, longest_mm=600, holes=7),
    ],
)
def test_the_spacing_follows_from_strap_width_or_shortest_and_longest(
    headpiece: Part,
) -> None:
    cheekpieces = Part(part="cheekpieces", length_mm=230)
    bridle = Tack(name="Hazel bridle", kind="bridle", parts=(headpiece, cheekpieces))
    assert on_head(1040, bridle).reach_from_mm == pytest.approx(949.5)


def test_holes_may_be_in_the_cheekpieces() -> None:
    parts = (
        Part(part="headpiece", length_mm=600),
        Part(part="cheekpieces", shortest_mm=134.75, longest_mm=230, holes=7),
    )
    bridle = Tack(name="Hazel bridle", kind="bridle", parts=parts)
    assert on_head(1040, bridle).reach_from_mm == pytest.approx(949.5)


def test_without_a_bit_a_usual_ring_is_taken_and_said() -> None:
    wearer = make_wearer(steady(head_length=1040))
    _, alone = fits(wearer, (make_bridle(),), (), ON)
    assert "No bit is named: a usual ring of 65 mm" in alone.why
    assert alone.reach_to_mm == pytest.approx(FIRST_HEAD - 5)
    unringed = hole_on(wearer, make_bridle(), make_bit(ring_mm=None))
    assert "ring is not written down" in unringed.why


def test_the_made_up_sets_own_ring_is_used() -> None:
    wearer = make_wearer(steady(head_length=1040))
    found = hole_on(wearer, make_bridle(), make_bit(ring_mm=50))
    assert "ring" not in found.why
    assert found.reach_to_mm == pytest.approx(FIRST_HEAD - 20)


def test_a_hanging_cheek_has_no_reckoned_hole() -> None:
    wearer = make_wearer(steady(head_length=1040))
    found = hole_on(wearer, make_bridle(), make_bit(cheek="hanging_cheek"))
    assert found.answer is Answer.NOT_KNOWN
    assert "try it on" in found.why


def test_a_headpiece_alone_waits_for_its_cheekpieces() -> None:
    head_only = Tack(name="Spare", kind="bridle", parts=make_bridle().parts[:1])
    (found,) = fits(make_wearer(steady(head_length=1040)), (head_only,), (), ON)
    assert found.answer is Answer.NOT_KNOWN
    assert "cheekpieces" in found.why


def test_the_headpiece_points_at_the_cheekpieces() -> None:
    made = make_set(make_bridle(), make_bit())
    wearer = make_wearer(steady(head_length=1040))
    head, cheek, _ = fits(wearer, (), (made,), ON)
    assert head.why == f"Its hole goes with the cheekpieces. {cheek.why}"
    assert (head.answer, head.hole) == (cheek.answer, cheek.hole)


def test_under_two_years_a_hole_each_way_is_wanted_and_later_only_the_date() -> None:
    growth = steady(head_length=FIRST_HEAD - 2)
    yearling = make_wearer(growth, grown=False, born=date(2024, 4, 19))
    rising_three = make_wearer(growth, grown=False, born=date(2024, 3, 2))  # ON, 24
    day_short = make_wearer(growth, grown=False, born=date(2024, 3, 3))
    found = hole_on(yearling, make_bridle())
    assert (found.answer, found.hole, found.spare_longer) == (Answer.WATCH, 1, 0)
    assert "under 24 months" in found.why
    assert hole_on(rising_three, make_bridle()).answer is Answer.GOOD
    assert hole_on(day_short, make_bridle()).answer is Answer.WATCH


@pytest.mark.parametrize(
    ("head_mm", "said", "spare"),
    [
        (FIRST_HEAD - 31.75, "Hole 2 of 7: 1 to let down, 5 to take up.", (1, 5)),
        (FIRST_HEAD - 5 * 31.75, "Hole 6 of 7: 5 to let down, 1 to take up.", (5, 1)),
    ],
)
def test_a_bridle_says_the_holes_left_to_let_down_before_those_to_take_up(
    head_mm: float, said: str, spare: tuple[int, int]
) -> None:
    found = on_head(head_mm)
    assert found.why == said
    assert (found.spare_longer, found.spare_shorter) == spare


def test_the_lengths_of_bridle_that_would_be_good_are_named() -> None:
    found = on_head(1040)
    # rings and first wrinkle take 80 of the head; 8 mm a side either way are good
    assert found.needs_from_mm == pytest.approx(960 - 16)
    assert found.needs_to_mm == pytest.approx(960 + 16)


def test_a_head_known_loosely_is_watch_near_the_end_of_the_strap() -> None:
    wearer = make_wearer(steady(head_length=FIRST_HEAD + 5, sd=15.0))
    found = hole_on(wearer, make_bridle())
    assert found.answer is Answer.WATCH
    assert "not known closely enough" in found.why
    # the strap reaches to 1155.9: 10.9 mm or 0.73 SD away
    assert found.chance_no == pytest.approx(0.233, abs=0.01)


def test_between_wide_holes_the_chances_leave_a_gap() -> None:
    straps = Straps(part="whole", first_mm=1000, holes=3, spacing_mm=40)
    found = _rule(straps).chances(spread(1000 - 40, 0.01))
    assert found.good == pytest.approx(0.0)
    assert found.no == pytest.approx(0.0)


def _rule(straps: Straps, wearer: Wearer | None = None) -> HoleRule:
    """A bridle whose ring and wrinkle take nothing, to keep the sums short."""
    return HoleRule(
        item="",
        kind="bridle",
        straps=straps,
        ring_mm=-10.0,
        ring_said="",
        wearer=wearer or make_wearer(steady()),
    )


@given(
    head=st.floats(700, 1300),
    sd=st.floats(0.01, 40),
    first=st.floats(800, 1100),
    longer=st.floats(0, 100),
    holes=st.integers(1, 11),
    space=st.floats(8, 40),
)
def test_a_longer_cheekpiece_is_never_too_short_where_a_shorter_one_was_not(
    head: float, sd: float, first: float, longer: float, holes: int, space: float
) -> None:
    shorter = Straps(part="whole", first_mm=first, holes=holes, spacing_mm=space)
    body = spread(head, sd)
    short = _rule(shorter).chances(body)
    long = _rule(replace(shorter, first_mm=first + longer)).chances(body)
    assert long.small <= short.small + 1e-12
    for chances in (short, long):
        assert -1e-9 <= chances.good <= 1 - chances.no + 1e-9


def test_growth_lets_the_bridle_down_hole_by_hole_until_none_is_left() -> None:
    growth = steady(head_length=1040, a_day={"head_length": 0.2})
    wearer = make_wearer(growth)
    found = hole_on(wearer, make_bridle())
    # it reaches 1140 + 15.9, growth of 115.9 mm or 579 days away
    assert found.good_until is not None
    assert (found.good_until - ON).days == pytest.approx(580, abs=1)
    holes = [
        hole_on(wearer, make_bridle(), on=date(2026, month, 1)).hole
        for month in (3, 6, 9, 12)
    ]
    assert holes == [4, 4, 3, 2]


@given(
    head=st.floats(850, 1200),
    cheek_eighths=st.integers(60, 84),
    head_eighths=st.integers(180, 210),
)
def test_units_never_change_the_hole_of_a_bridle(
    head: float, cheek_eighths: int, head_eighths: int
) -> None:
    wearer = make_wearer(steady(head_length=head))
    found = set()
    for unit, mm in (("in", 25.4), ("cm", 10.0), ("mm", 1.0)):
        cheek, over = (
            read_length(f"{eighths / 8 * 25.4 / mm:.6g} {unit}", unit="cm").mm
            for eighths in (cheek_eighths, head_eighths)
        )
        one = hole_on(wearer, make_bridle(cheek_mm=cheek, head_mm=over))
        found.add((one.answer, one.hole, one.why))
    assert len(found) == 1


@given(
    sd=st.floats(0.01, 10),
    heads=st.lists(st.floats(850, 1300), min_size=2, max_size=12),
)
def test_a_growing_head_takes_a_bridle_from_good_through_watch_to_no(
    sd: float, heads: list[float]
) -> None:
    # Exceptions, stated: too long comes before good, and growth mends that; and holes
    # farther apart than the good window is wide leave a watch between two goods.
    order = [Answer.GOOD, Answer.WATCH, Answer.NO]
    seen = [
        order.index(
            hole_on(make_wearer(steady(head_length=h, sd=sd)), make_bridle()).answer
        )
        for h in sorted(heads)
        if h >= 1040  # the middle of the strap
    ]
    assume(seen)
    assert seen == sorted(seen)
