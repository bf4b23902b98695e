"""Try-ons become bounds on the body, by the same windows that tack is judged by."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from fitting.fit import Part, Tack
from fitting.taught import TriedOn, bounds_of, lessons_of
from fitting.tryons import How, Seen, Tried, TryOn
from tests.fitting.making_fit import ON, YOUNG, make_bit, make_set
from tests.fitting.making_straps import NOSEBAND
from tests.fitting.making_taught import BIT, BRIDLE, MADE_UP, taught, tryon

GROWN = replace(YOUNG, grown=True)


def test_a_bit_that_sat_right_says_about_the_middle_of_its_good_window() -> None:
    (bound,) = taught(tryon("Steel snaffle", "mouthpiece", "sits_right"))
    assert (bound.measure, bound.on, bound.kind) == ("mouth_width", ON, "about")
    assert bound.value == pytest.approx(127 - (3 + 10) / 2)
    assert bound.sigma == pytest.approx((10 - 3) / 2)


def test_a_grown_horse_has_the_wider_window_and_its_own_room() -> None:
    word = tryon("Steel snaffle", "mouthpiece", "sits_right")
    (bound,) = taught(word, subject=GROWN)
    assert (bound.value, bound.sigma) == (127 - 5, 5)
    (roomy,) = taught(word, subject=GROWN, clearances=(("bit", 4.0),))
    assert (roomy.value, roomy.sigma) == (127 - 9, 5)


@pytest.mark.parametrize(
    ("seen", "kind", "value"),
    [("too_short", "at_least", 127 - 3), ("too_long", "at_most", 127 - 10)],
)
def test_too_short_and_too_long_lie_at_the_edges_of_the_good_window(
    seen: Seen, kind: str, value: float
) -> None:
    (bound,) = taught(tryon("Steel snaffle", "mouthpiece", seen))
    assert bound.kind == kind
    assert bound.value == pytest.approx(value)
    assert bound.sigma == pytest.approx(3.5)


@pytest.mark.parametrize("seen", ["rubs", "wrong_place"])
def test_what_rubs_or_lies_in_the_wrong_place_teaches_nothing(seen: Seen) -> None:
    assert taught(tryon("Steel snaffle", "mouthpiece", seen)) == ()


@pytest.mark.parametrize("how", ["held", "worn"])
def test_a_bridle_on_a_hole_says_a_head_give_or_take_eight_mm_a_side(how: How) -> None:
    (bound,) = taught(tryon("First bridle", "cheekpieces", "sits_right", 4, how=how))
    assert bound.measure == "head_length"
    on_hole = 2 * 230 + 600 - 2 * 15.875 * 3
    assert bound.value == pytest.approx(on_hole + 70 + 2 * 5)
    assert bound.sigma == 16


def test_headpiece_and_cheekpieces_speak_of_one_head_once() -> None:
    both = TryOn(
        on=ON,
        item="First bridle",
        how="worn",
        parts=(
            Tried(part="headpiece", seen="sits_right", hole=4),
            Tried(part="cheekpieces", seen="sits_right", hole=4),
            Tried(part="mouthpiece", seen="too_short"),
        ),
    )
    assert [bound.measure for bound in taught(both)] == ["head_length", "mouth_width"]


@pytest.mark.parametrize("seen", ["too_short", "too_long"])
def test_all_of_a_set_too_short_does_not_say_which_strap_it_was(seen: Seen) -> None:
    straps = ("headpiece", "cheekpieces", "browband")
    word = TryOn(
        on=ON,
        item="First bridle",
        how="worn",
        parts=tuple(Tried(part=part, seen=seen) for part in straps),
    )
    assert taught(word) == ()
    one = replace(word, parts=(Tried(part="browband", seen=seen),))
    assert [bound.measure for bound in taught(one)] == ["brow"]


def test_a_bridle_without_its_bit_hole_or_ring_teaches_nothing() -> None:
    assert taught(tryon("Hazel bridle", "cheekpieces", "sits_right", 4)) == ()
    assert taught(tryon("First bridle", "cheekpieces", "sits_right")) == ()
    assert taught(tryon("First bridle", "cheekpieces", "sits_right", 9)) == ()
    bit = make_bit(ring_mm=None)
    tried = TriedOn(
        tryons=(tryon("First bridle", "cheekpieces", "sits_right", 4),),
        made_up=(make_set(BRIDLE, bit),),
    )
    assert bounds_of(YOUNG, tried) == ()


@pytest.mark.parametrize(
    ("part", "hole", "measure", "value", "sigma"),
    [
        ("noseband", 1, "nose_round", 680 - 42.5, 12.5),
        ("noseband", 4, "nose_round", 680 - 60 - 42.5, 12.5),
        ("browband", None, "brow", 400 - 30, 20),
        ("throatlash", 4, "throat_round", 600 - 110, 20),
        ("throatlash", 2, "throat_round", 600 + 50 - 110, 20),
    ],
)
def test_straps_say_what_they_lie_on(
    part: str, hole: int | None, measure: str, value: float, sigma: float
) -> None:
    (bound,) = taught(tryon("Hazel bridle", part, "sits_right", hole))
    assert (bound.measure, bound.value, bound.sigma) == (measure, value, sigma)


@pytest.mark.parametrize("part", ["noseband", "throatlash"])
@pytest.mark.parametrize("hole", [None, 0, 8])
def test_a_strap_on_a_hole_nobody_knows_teaches_nothing(
    part: str, hole: int | None
) -> None:
    assert taught(tryon("Hazel bridle", part, "too_short", hole)) == ()


def test_a_strap_too_small_for_any_body_teaches_nothing() -> None:
    tiny = Part(part="throatlash", length_mm=110.0)
    item = Tack(name="Hazel bridle", kind="bridle", parts=(tiny,))
    for seen in ("sits_right", "too_short", "too_long"):
        word = tryon("Hazel bridle", "throatlash", seen)
        assert bounds_of(YOUNG, TriedOn(tryons=(word,), tack=(item,))) == ()


def test_a_noseband_s_holes_lie_evenly_between_its_ends() -> None:
    part = replace(NOSEBAND, spacing_mm=None)
    item = Tack(name="Hazel bridle", kind="bridle", parts=(part,))
    word = tryon("Hazel bridle", "noseband", "sits_right", 4)
    (bound,) = bounds_of(YOUNG, TriedOn(tryons=(word,), tack=(item,)))
    assert bound.value == 680 - 60 - 42.5
    bare = replace(part, shortest_mm=None)
    item = replace(item, parts=(bare,))
    assert bounds_of(YOUNG, TriedOn(tryons=(word,), tack=(item,))) == ()


def test_what_has_no_rule_or_hangs_no_more_teaches_nothing() -> None:
    roller = Tack(name="Roller", kind="roller", parts=(Part(part="strap"),))
    words = (
        tryon("Roller", "strap", "too_short", 1),
        tryon("Sold bit", "mouthpiece", "too_short"),
    )
    assert bounds_of(YOUNG, TriedOn(tryons=words, tack=(roller,))) == ()


def test_of_a_run_of_one_word_only_the_first_and_the_last_day_count() -> None:
    days = [ON + timedelta(days=7 * week) for week in range(6)]
    right = [tryon("First bridle", "cheekpieces", "sits_right", 4, on=d) for d in days]
    run = taught(*right)
    assert [bound.on for bound in run] == [days[0], days[-1]]
    other = tryon("First bridle", "cheekpieces", "sits_right", 3, on=days[3])
    broken = taught(*right[:3], other, *right[4:])
    assert [b.on for b in broken] == [days[0], days[2], days[3], days[4], days[5]]


def test_a_lesson_keeps_the_word_it_rests_on() -> None:
    word = tryon("First bridle", "cheekpieces", "too_short", 4, how="worn")
    tried = TriedOn(tryons=(word,), tack=(BIT, BRIDLE), made_up=(MADE_UP,))
    (lesson,) = lessons_of(YOUNG, tried)
    found = (lesson.item, lesson.seen, lesson.how, lesson.hole)
    assert found == ("First bridle", "too_short", "worn", 4)
