"""Try-ons become bounds on the body, by the same windows that tack is judged by."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from fitting.body import Taken
from fitting.disagreements import disagreements
from fitting.fit import Answer, Finding, MadeUp, Part, Tack, fits
from fitting.growth import Bound, Subject, fit_growth
from fitting.taught import TriedOn, bounds_of, lessons_of
from fitting.tryons import How, Seen, Tried, TryOn
from tests.fitting.making_fit import (
    BORN,
    ON,
    bit_on,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
)

YOUNG = Subject(horse_type="light", foaled=Foaled(first=BORN, last=BORN))
GROWN = replace(YOUNG, grown=True)
BIT = make_bit(127.0, "eggbutt", ring_mm=70.0)
NOSEBAND = Part(
    part="noseband", shortest_mm=560.0, longest_mm=680.0, holes=7, spacing_mm=20.0
)
BROWBAND = Part(part="browband", length_mm=400.0)
THROATLASH = Part(part="throatlash", length_mm=600.0, holes=7, spacing_mm=25.0)
BRIDLE = make_bridle(more=(NOSEBAND, BROWBAND, THROATLASH))
MADE_UP = MadeUp(
    name="First bridle",
    parts=(
        *(("headpiece", BRIDLE), ("cheekpieces", BRIDLE), ("noseband", BRIDLE)),
        *(("browband", BRIDLE), ("throatlash", BRIDLE), ("bit", BIT)),
    ),
)


def tryon(
    item: str,
    part: str,
    seen: Seen,
    hole: int | None = None,
    *,
    how: How = "held",
    on: date = ON,
) -> TryOn:
    return TryOn(
        on=on, item=item, how=how, parts=(Tried(part=part, seen=seen, hole=hole),)
    )


def taught(
    *tryons: TryOn,
    subject: Subject = YOUNG,
    clearances: tuple[tuple[str, float], ...] = (),
) -> tuple[Bound, ...]:
    tried = TriedOn(
        tryons=tryons, tack=(BIT, BRIDLE), made_up=(MADE_UP,), clearances=clearances
    )
    return bounds_of(subject, tried)


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


def mouth(mm: float) -> Taken:
    return Taken(
        measure="mouth_width", on=ON - timedelta(days=3), readings=(mm,), method="dowel"
    )


@pytest.mark.parametrize(
    ("seen", "mm", "apart"),
    [
        ("sits_right", 120.0, False),
        ("sits_right", 126.0, False),
        ("sits_right", 108.0, True),
        ("sits_right", 133.0, True),
        ("too_short", 122.0, False),
        ("too_short", 110.0, True),
        ("too_short", 119.0, False),
        ("too_long", 119.0, False),
        ("too_long", 122.0, False),
        ("too_long", 131.0, True),
    ],
)
def test_a_word_and_a_measurement_apart_by_more_than_both_errors_are_both_told(
    seen: Seen, mm: float, apart: bool
) -> None:
    word = tryon("Steel snaffle", "mouthpiece", seen, how="worn")
    lessons = lessons_of(YOUNG, TriedOn(tryons=(word,), tack=(BIT,)))
    bounds = [lesson.bound for lesson in lessons]
    growth = fit_growth(YOUNG, [mouth(mm)], bounds)
    found = disagreements(growth, lessons)
    assert bool(found) is apart
    for one in found:
        assert one.measure == "mouth_width"
        assert one.tried_on == ON
        assert one.measured_on == ON - timedelta(days=3)
        assert one.size == pytest.approx(mm, abs=2)
        assert one.lesson.seen == seen


def test_nothing_disagrees_with_what_was_never_measured() -> None:
    word = tryon("Steel snaffle", "mouthpiece", "too_long")
    lessons = lessons_of(YOUNG, TriedOn(tryons=(word,), tack=(BIT,)))
    assert disagreements(fit_growth(YOUNG, ()), lessons) == ()


def test_a_finding_still_tells_that_measurement_and_try_on_disagree() -> None:
    word = tryon("Steel snaffle", "mouthpiece", "sits_right", how="worn")
    bounds = taught(word)
    growth = fit_growth(YOUNG, [mouth(128.5)], bounds)
    wearer = make_wearer(growth, grown=False, tryons=(word,))
    assert "measure it again" in bit_on(wearer, BIT).disagrees


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
