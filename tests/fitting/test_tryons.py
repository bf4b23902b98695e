from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from fitting.fit import Answer, Finding, Part, Tack, fits
from fitting.growth import Growth
from fitting.tryons import Seen, SpokenOf, Tried, TryOn
from tests.fitting.making_fit import (
    BORN,
    ON,
    bit_on,
    hole_on,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    steady,
)

BIT, BRIDLE, SET = "Steel snaffle", "Hazel bridle", "First bridle"


def days_ago(days: int) -> date:
    return ON - timedelta(days=days)


def worn(
    seen: Seen,
    *,
    item: str = BIT,
    part: str = "mouthpiece",
    hole: int | None = None,
    days: int = 10,
) -> TryOn:
    tried = Tried(part=part, seen=seen, hole=hole)
    return TryOn(on=days_ago(days), item=item, how="worn", parts=(tried,))


def bit_after(growth: Growth, *tryons: TryOn, length_mm: float = 127) -> Finding:
    return bit_on(make_wearer(growth, tryons=tryons), make_bit(length_mm))


def hole_after(growth: Growth, *tryons: TryOn) -> Finding:
    return hole_on(make_wearer(growth, tryons=tryons), make_bridle())


UNMEASURED = steady(
    mouth_width=120, head_length=1040, unmeasured=("mouth_width", "head_length")
)


def test_a_bit_that_sat_right_is_good_without_a_measurement() -> None:
    found = bit_after(UNMEASURED, worn("sits_right"))
    assert found.answer is Answer.GOOD
    assert found.rests_on == f"put on {days_ago(10).day} Feb 2026"
    assert not found.stale


def test_a_bit_that_sat_right_outranks_arithmetic_and_both_are_shown() -> None:
    growth = steady(mouth_width=135)  # 127 would be far too narrow
    assert bit_after(growth).answer is Answer.NO
    found = bit_after(growth, worn("sits_right"))
    assert found.answer is Answer.GOOD
    assert "it sat right" in found.why
    assert "by what was measured (mouth width) it was too short" in found.disagrees
    assert found.ask == "mouth width"


def test_a_bit_and_a_measurement_that_differ_within_their_errors_agree() -> None:
    # 127 suits 122 (0 to 10 mm clear), give or take 5, and the measurement 0.01
    assert bit_after(steady(mouth_width=126.9), worn("sits_right")).disagrees == ""
    assert bit_after(steady(mouth_width=127.2), worn("sits_right")).disagrees != ""
    loosely = steady(mouth_width=128.5, sd=2.0)
    assert bit_after(loosely, worn("sits_right")).disagrees == ""


@pytest.mark.parametrize(
    ("seen", "width", "agrees"),
    [
        ("too_short", 130, True),
        ("too_short", 118, False),
        ("too_long", 110, True),
        ("too_long", 126, False),
    ],
)
def test_a_bit_too_short_or_too_long_is_a_no_and_says_if_the_tape_differs(
    seen: Seen, width: float, agrees: bool
) -> None:
    found = bit_after(steady(mouth_width=width), worn(seen))
    assert found.answer is Answer.NO
    assert (found.disagrees == "") == agrees


def test_growth_passes_what_sat_right() -> None:
    growing = steady(
        mouth_width=100, a_day={"mouth_width": 0.05}, unmeasured=("mouth_width",)
    )
    found = bit_after(growing, worn("sits_right", days=0))
    assert found.good_until is not None

    def sds_to_go(days: int) -> float:
        """From the mouth, 122 with SD 2.5 on the day, growing 1 in 2000 a day."""
        grown = 1 + 0.0005 * days
        return (127.05 - 122 * grown) / (2.5 * grown)

    days = (found.good_until - ON).days
    # a fifth of a normal spread lies past 0.8416 SD
    assert sds_to_go(days) <= 0.8416 < sds_to_go(days - 1)


def test_a_try_on_stands_as_long_as_a_measurement_of_that_part() -> None:
    # head and mouth between 24 and 48 months: 84 days
    assert bit_after(UNMEASURED, worn("sits_right", days=84)).answer is Answer.GOOD
    old = bit_after(UNMEASURED, worn("sits_right", days=85))
    assert (old.answer, old.ask) == (Answer.NOT_KNOWN, "mouth width")


def test_a_tooth_change_ends_what_was_seen_of_the_mouth_but_not_of_the_head() -> None:
    wearer = make_wearer(
        UNMEASURED,
        tryons=(
            worn("sits_right"),
            worn("sits_right", item=SET, part="cheekpieces", hole=4),
        ),
    )
    changed = replace(wearer, tooth_change=days_ago(3))
    assert bit_on(wearer, make_bit()).answer is Answer.GOOD
    assert bit_on(changed, make_bit()).answer is Answer.NOT_KNOWN
    assert hole_on(changed, make_bridle()).answer is Answer.GOOD
    today = replace(wearer, tooth_change=ON)
    assert bit_on(today, make_bit()).answer is Answer.NOT_KNOWN
    same_day = replace(wearer, tooth_change=days_ago(10))  # seen as it is now
    assert bit_on(same_day, make_bit()).answer is Answer.GOOD


def test_a_horse_that_may_still_be_a_foal_is_taken_for_one() -> None:
    born = Foaled(first=BORN, last=BORN + timedelta(days=60))
    spoken_of = SpokenOf(names=("Slip",), part="crown", foaled=born)
    tried = BORN + timedelta(days=200)  # between four and a half and six and a half
    assert spoken_of.until(tried) == tried + timedelta(days=1)


def test_a_foals_try_on_stands_for_a_day() -> None:
    foal = make_wearer(steady()).foaled
    spoken_of = SpokenOf(names=("Slip",), part="crown", foaled=foal)
    assert spoken_of.until(BORN + timedelta(days=60)) == BORN + timedelta(days=61)
    assert spoken_of.until(ON) == ON + timedelta(days=84)


def test_a_try_on_clears_a_stale_measurement() -> None:
    growth = steady(mouth_width=120)
    stale = make_wearer(growth, stale=("mouth_width",))
    tried = replace(stale, tryons=(worn("sits_right", days=0),))
    assert bit_on(stale, make_bit()).stale
    assert not bit_on(tried, make_bit()).stale


@pytest.mark.parametrize("seen", ["rubs", "wrong_place"])
def test_a_bit_that_rubs_or_lies_wrong_is_at_best_watch(seen: Seen) -> None:
    right, far_too_wide = steady(mouth_width=120), steady(mouth_width=100)
    assert bit_after(right, worn(seen)).answer is Answer.WATCH
    assert bit_after(far_too_wide, worn(seen)).answer is Answer.NO
    unmeasured = bit_after(UNMEASURED, worn(seen))
    assert (unmeasured.answer, unmeasured.ask) == (Answer.WATCH, "mouth width")
    assert bit_after(right, worn(seen)).good_until is None


def test_what_was_held_against_the_horse_is_told_and_changes_nothing() -> None:
    growth = steady(mouth_width=120)
    held = replace(worn("too_short"), how="held")
    found, without = bit_after(growth, held), bit_after(growth)
    assert found.rests_on.endswith("held against on 20 Feb 2026: it was too short")
    assert replace(found, rests_on=without.rests_on) == without


def test_sitting_right_does_not_excuse_a_thickness_that_is_a_no() -> None:
    tried = (worn("sits_right"),)
    wearer = make_wearer(steady(mouth_width=120), tryons=tried)
    assert bit_on(wearer, make_bit(thickness_mm=22)).answer is Answer.NO
    assert bit_on(wearer, make_bit(thickness_mm=18)).answer is Answer.GOOD
    assert bit_on(wearer, make_bit(thickness_mm=None)).answer is Answer.GOOD


def test_a_bridle_that_sat_right_on_a_hole_tells_the_head() -> None:
    growth = steady(
        head_length=1000, a_day={"head_length": 0.5}, unmeasured=("head_length",)
    )
    tried = worn("sits_right", item=SET, part="cheekpieces", hole=5, days=0)
    found = hole_after(growth, tried)
    assert (found.answer, found.hole, found.spare_longer) == (Answer.GOOD, 5, 4)
    # hole 5 is for 1013 mm; growth of 1 in 2000 a day takes it to hole 4 in 32 days
    later = hole_on(
        make_wearer(growth, tryons=(tried,)), make_bridle(), on=days_ago(-40)
    )
    assert later.hole == 4


def test_the_headpiece_of_a_set_speaks_for_its_hole_too() -> None:
    tried = worn("sits_right", item=SET, part="headpiece", hole=5)
    assert hole_after(UNMEASURED, tried).hole == 5


def test_a_bridle_that_sat_right_on_no_hole_named_is_good_while_that_stands() -> None:
    tried = worn("sits_right", item=SET, part="cheekpieces")
    found = hole_after(UNMEASURED, tried)
    assert (found.answer, found.hole) == (Answer.GOOD, None)
    assert found.good_until == days_ago(10) + timedelta(days=85)


def test_a_bridle_alone_does_not_speak_for_the_hole_of_a_set_nor_a_set_for_it() -> None:
    alone = worn("sits_right", item=BRIDLE, part="cheekpieces", hole=4)
    assert hole_after(UNMEASURED, alone).answer is Answer.NOT_KNOWN
    in_set = worn("sits_right", item=SET, part="cheekpieces", hole=4)
    wearer = make_wearer(UNMEASURED, tryons=(in_set,))
    made = make_set(make_bridle(), make_bit())
    found = fits(wearer, (make_bridle(),), (made,), ON)
    assert [one.answer for one in found[:2]] == [Answer.NOT_KNOWN] * 2


def test_a_bit_worn_in_a_set_speaks_for_the_bit_and_back() -> None:
    made = make_set(make_bridle(), make_bit())
    for tried in (worn("sits_right", item=SET, part="bit"), worn("sits_right")):
        wearer = make_wearer(UNMEASURED, tryons=(tried,))
        found = fits(wearer, (make_bit(),), (made,), ON)
        answers = [one.answer for one in found if one.part == "mouthpiece"]
        assert answers == [Answer.GOOD, Answer.GOOD]


def test_another_items_try_on_says_nothing() -> None:
    found = bit_after(UNMEASURED, worn("sits_right", item="Other bit"))
    assert found.answer is Answer.NOT_KNOWN


def test_the_latest_try_on_counts_and_of_one_day_the_one_written_last() -> None:
    growth = steady(mouth_width=120)
    old, new = worn("too_short", days=20), worn("sits_right", days=5)
    assert bit_after(growth, new, old).answer is Answer.GOOD
    same_day = worn("rubs", days=5)
    assert bit_after(growth, new, same_day).answer is Answer.WATCH
    assert bit_after(growth, same_day, new).answer is Answer.GOOD


def test_a_try_on_still_to_come_says_nothing() -> None:
    growth = steady(mouth_width=120)
    assert bit_after(growth, worn("too_short", days=-1)).answer is Answer.GOOD


@pytest.mark.parametrize(
    ("overall", "answer"),
    [("good", Answer.GOOD), ("watch", Answer.WATCH), ("no", Answer.NO)],
)
def test_without_a_word_on_the_parts_the_answer_on_the_whole_counts(
    overall: str, answer: Answer
) -> None:
    tried = TryOn(on=days_ago(5), item=BIT, how="worn", answer=overall)  # type: ignore[arg-type]
    assert bit_after(UNMEASURED, tried).answer is answer


def test_parts_that_all_sat_right_under_a_no_are_at_best_watch() -> None:
    tried = replace(worn("sits_right"), answer="no")
    assert bit_after(steady(mouth_width=120), tried).answer is Answer.WATCH


@pytest.mark.parametrize(
    ("seen", "answer"),
    [
        ("sits_right", Answer.GOOD),
        ("rubs", Answer.WATCH),
        ("wrong_place", Answer.WATCH),
        ("too_short", Answer.NO),
        ("too_long", Answer.NO),
    ],
)
def test_a_worn_try_on_answers_a_part_without_a_rule(
    seen: Seen, answer: Answer
) -> None:
    browband = Part(part="browband", length_mm=380)
    item = Tack(name="Spare browband", kind="bridle", parts=(browband,))
    tried = worn(seen, item=item.name, part="browband")
    (found,) = fits(make_wearer(steady(), tryons=(tried,)), (item,), (), ON)
    assert found.answer is answer
    stands_to = days_ago(10) + timedelta(days=84)
    assert found.good_until == (
        stands_to + timedelta(days=1) if seen == "sits_right" else None
    )
