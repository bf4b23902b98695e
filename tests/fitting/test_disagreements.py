"""What was seen on the horse and what the tape says, where they differ."""

from __future__ import annotations

from datetime import timedelta

import pytest

from fitting.body import Taken
from fitting.disagreements import disagreements
from fitting.growth import fit_growth
from fitting.taught import TriedOn, lessons_of
from fitting.tryons import Seen
from tests.fitting.making_fit import ON, YOUNG, bit_on, make_wearer
from tests.fitting.making_taught import BIT, taught, tryon


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
