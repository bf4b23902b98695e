"""A try-on and the tape that do not agree: both are said, until a later try-on."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from fitting.body import Taken
from fitting.contradictions import (
    Contradiction,
    contradictions,
    measured_sentence,
    taught_sentence,
    tried_sentence,
)
from fitting.growth import fit_growth
from fitting.readings import Units
from fitting.taught import Lesson, TriedOn, lessons_of
from fitting.tryons import How, Seen, Tried, TryOn
from fitting.units.showing import THIN_SPACE
from tests.fitting.making_fit import ON, YOUNG, make_bit

BIT = make_bit(127.0, "eggbutt", ring_mm=70.0)  # right on 117 to 124 mm
OTHER = replace(BIT, name="Copper snaffle")
MM = Units(height="cm", length="mm", weight="kg")
INCHES = Units(height="hands", length="in", weight="kg")


def word(
    seen: Seen, days: int = 0, *, item: str = BIT.name, how: How = "worn", pk: int = 1
) -> TryOn:
    return TryOn(
        on=ON + timedelta(days=days),
        item=item,
        how=how,
        parts=(Tried(part="mouthpiece", seen=seen),),
        record=f"tried/{pk}/",
    )


def taught(*tryons: TryOn) -> tuple[Lesson, ...]:
    return lessons_of(YOUNG, TriedOn(tryons=tryons, tack=(BIT, OTHER)))


def apart(mm: float, *tryons: TryOn) -> tuple[Contradiction, ...]:
    lessons = taught(*tryons)
    taken = Taken(
        measure="mouth_width", on=ON - timedelta(days=3), readings=(mm,), method="dowel"
    )
    growth = fit_growth(YOUNG, [taken], [lesson.bound for lesson in lessons])
    return contradictions(growth, lessons)


def test_both_sides_are_told_with_their_sizes_and_where_each_is_written() -> None:
    (one,) = apart(108.0, word("sits_right", pk=7))
    assert [one.low, one.high] == pytest.approx([117, 124])
    assert one.size == pytest.approx(108, abs=1)
    assert (one.record, one.of_try_on) == ("tried/7/", True)
    assert tried_sentence(one, MM) == (
        "Steel snaffle, put on 2 Mar 2026: mouthpiece sat right."
        f" By that, mouth width 117 to 124{THIN_SPACE}mm."
    )
    assert "Measured nearest on 27 Feb 2026." in measured_sentence(one, MM)
    said = f"mouth width was 109{THIN_SPACE}mm on the day of the try-on, give or take 3"
    assert said in measured_sentence(one, MM)


def test_an_error_is_never_said_as_nothing() -> None:
    (one,) = apart(108.0, word("sits_right"))
    small = replace(one, error=0.2)
    assert "give or take 3 mm." in measured_sentence(one, MM)
    assert "give or take 1 mm." in measured_sentence(small, MM)
    eighth = f"⅛{THIN_SPACE}in"
    assert f"give or take {eighth} (3 mm)." in measured_sentence(one, INCHES)
    assert f"give or take 1 mm (under {eighth})." in measured_sentence(small, INCHES)


def test_a_part_too_short_or_too_long_sets_one_end() -> None:
    (short,) = apart(105.0, word("too_short"))
    assert short.low == pytest.approx(124)
    assert short.high is None
    assert "mouth width at least 4⅞" in tried_sentence(short, INCHES)
    (long,) = apart(135.0, word("too_long", how="held"))
    assert long.low is None
    assert long.high == pytest.approx(117)
    assert "mouth width at most 4⅝" in tried_sentence(long, INCHES)
    assert "held against" in tried_sentence(long, INCHES)


def test_what_agrees_within_both_errors_is_not_asked() -> None:
    assert apart(120.0, word("sits_right")) == ()


def test_a_later_try_on_of_the_same_item_settles_it() -> None:
    wrong, right = word("too_short", pk=1), word("sits_right", 20, pk=2)
    assert [one.record for one in apart(119.0, wrong)] == []
    assert [one.record for one in apart(110.0, wrong)] == ["tried/1/"]
    assert "tried/1/" not in [one.record for one in apart(110.0, wrong, right)]
    other = word("sits_right", 20, item=OTHER.name, pk=3)
    assert "tried/1/" in [one.record for one in apart(110.0, wrong, other)]


def test_what_was_taught_is_one_short_sentence() -> None:
    assert taught_sentence(taught(word("too_short")), INCHES) == (
        f"So: mouth width at least 4⅞{THIN_SPACE}in."
    )
    assert taught_sentence((), INCHES) == ""


def test_a_record_of_a_session_is_no_try_on_to_strike_out() -> None:
    (one,) = apart(108.0, replace(word("sits_right"), record="sessions/4/"))
    assert one.record == "sessions/4/"
    assert not one.of_try_on
