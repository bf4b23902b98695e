"""A body that nobody measured, told by try-ons while they stand."""

from __future__ import annotations

from datetime import timedelta

from fitting.fit import Answer, Finding, fits
from fitting.growth import fit_growth
from fitting.tryons import Seen
from tests.fitting.making_fit import (
    ON,
    YOUNG,
    bit_on,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
)
from tests.fitting.making_taught import BIT, taught, tryon

OTHER_BIT = make_bit(133.35, "eggbutt", name="Longer snaffle")


def other_bit(days_ago: int, *, seen: Seen = "sits_right") -> Finding:
    """How another bit is judged, where the mouth is told by a try-on alone."""
    word = tryon("Steel snaffle", "mouthpiece", seen, on=ON - timedelta(days=days_ago))
    growth = fit_growth(YOUNG, (), taught(word))
    return bit_on(make_wearer(growth, grown=False, tryons=(word,)), OTHER_BIT)


def test_a_mouth_never_measured_is_told_by_a_try_on_that_still_stands() -> None:
    found = other_bit(3)
    assert found.answer is not Answer.NOT_KNOWN
    assert found.rests_on == "mouth width, by what was tried on"
    assert not found.stale


def test_a_try_on_that_stands_no_more_leaves_the_mouth_not_known() -> None:
    assert other_bit(84).answer is not Answer.NOT_KNOWN
    late = other_bit(85)
    assert late.answer is Answer.NOT_KNOWN
    assert late.ask == "mouth width"


def test_a_try_on_that_says_nothing_of_size_leaves_the_mouth_not_known() -> None:
    assert other_bit(3, seen="rubs").answer is Answer.NOT_KNOWN


def test_a_head_never_measured_is_known_by_two_try_ons_and_gets_its_hole() -> None:
    # the bridle reaches heads of 950 to 1140 mm, hole by hole 32 mm apart
    words = (
        tryon("First bridle", "cheekpieces", "sits_right", 4, on=ON - timedelta(30)),
        tryon("First bridle", "cheekpieces", "sits_right", 4, how="worn"),
    )
    told = taught(*words)
    head = fit_growth(YOUNG, (), told)
    band = head.at("head_length", ON)
    untold = fit_growth(YOUNG, ()).at("head_length", ON)
    assert band is not None
    assert untold is not None
    low, high = band.quantile(0.05), band.quantile(0.95)
    hole_4 = 2 * 230 + 600 - 3 * 2 * 15.875 + 70 + 10  # straps on hole 4, ring, wrinkle
    assert low < hole_4 < high
    assert high - low < (untold.quantile(0.95) - untold.quantile(0.05)) / 2
    wearer = make_wearer(head, grown=False, tryons=words)
    other = make_set(make_bridle(name="Other bridle"), BIT, name="Never tried")
    found = next(one for one in fits(wearer, (), (other,), ON) if one.hole)
    assert (found.answer, found.hole) == (Answer.GOOD, 4)
    assert found.rests_on == "head length, by what was tried on"


def test_a_head_never_measured_lies_between_a_hole_too_short_and_one_too_long() -> None:
    # on hole 6 the bridle is for 981 mm of head, on hole 2 for 1108, 16 either way
    words = (
        tryon("First bridle", "cheekpieces", "too_short", 6, on=ON - timedelta(20)),
        tryon("First bridle", "cheekpieces", "too_long", 2, how="worn"),
    )
    head = fit_growth(YOUNG, (), taught(*words))
    band = head.at("head_length", ON)
    untold = fit_growth(YOUNG, ()).at("head_length", ON)
    assert band is not None
    assert untold is not None
    assert 981 + 16 < band.quantile(0.5) < 1108 - 16
    low, high = band.quantile(0.05), band.quantile(0.95)
    assert 981 - 16 < low < high < 1108 + 16
    assert high - low < 0.6 * (untold.quantile(0.95) - untold.quantile(0.05))
    wearer = make_wearer(head, grown=False, tryons=words)
    other = make_set(make_bridle(name="Other bridle"), BIT, name="Never tried")
    found = next(one for one in fits(wearer, (), (other,), ON) if one.hole)
    assert (found.answer, found.hole) == (Answer.GOOD, 4)
