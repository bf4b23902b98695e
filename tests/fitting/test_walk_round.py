"""One walk round the horse, and what is said of how well a measure repeats."""

from __future__ import annotations

import pytest

from fitting.body import (
    IN_SHORT,
    MEASURES,
    STOPS,
    UnknownMeasureError,
    in_walk,
    measure_by_key,
)
from fitting.readings import Units
from fitting.taking import a_method, cited, doubted_words, repeats_words

KEYS = sorted(measure.key for measure in MEASURES)
INCHES, METRIC = Units(), Units(height="cm", length="cm")


def test_every_measure_is_taken_at_one_stop_of_the_walk() -> None:
    taken = [key for stop in STOPS for key in stop.measures]
    assert sorted(taken) == KEYS


def test_the_walk_goes_from_the_front_of_the_head_to_the_legs() -> None:
    some = {"cannon_round", "croup_height", "withers_height", "mouth_width"}
    walk = in_walk({*some, "head_length", "heart_girth", "back_length"})
    assert [stop.measures[0] for stop in walk] == [
        *("mouth_width", "head_length", "withers_height", "heart_girth"),
        *("back_length", "croup_height", "cannon_round"),
    ]


def test_a_stop_with_nothing_to_measure_is_passed_by() -> None:
    (stop,) = in_walk({"croup_height"})
    assert stop.measures == ("croup_height",)
    assert "never straight behind" in stop.stand
    assert in_walk(set()) == ()


def test_a_measure_nobody_takes_is_refused() -> None:
    with pytest.raises(UnknownMeasureError):
        in_walk({"tail_length"})


def test_every_measure_has_a_line_for_the_sheet() -> None:
    assert sorted(IN_SHORT) == KEYS
    assert max(map(len, IN_SHORT.values())) <= 90


@pytest.mark.parametrize("key", KEYS)
def test_how_well_a_measure_repeats_is_said_with_its_source(key: str) -> None:
    said = repeats_words(measure_by_key(key), INCHES)
    assert "ours" in said or "2007" in said or "1998" in said


def test_a_height_repeats_as_published() -> None:
    # Lamas et al. (2007): 1.06 cm one person, 1.89 cm three people.
    said = repeats_words(measure_by_key("withers_height"), METRIC)
    assert said == (
        "Stick readings of one person spread by 1.1\u2009cm, of three people by"
        " 1.9\u2009cm: Lamas, Giovagnoli, Heath, Jeffcott 2007."
    )


def test_methods_of_one_error_are_told_together() -> None:
    said = repeats_words(measure_by_key("mouth_width"), INCHES)
    assert "3 mm by string, dowel, bit of known length or mouth gauge" in said
    assert said.endswith("2 mm by calliper (ours).")


def test_a_weight_repeats_by_a_share_of_it() -> None:
    said = repeats_words(measure_by_key("weight"), METRIC)
    assert "1 % by weighbridge (ours)" in said
    assert "6 % by weigh tape" in said
    assert "20 % by eye (Ellis, Hollands 1998)" in said


@pytest.mark.parametrize(
    ("measure", "method", "said"),
    [
        ("heart_girth", "tape", "A tape"),
        ("condition_score", "eye", "An eye and hand"),
        ("weight", "eye", "A reading by eye"),
        ("weight", "formula", "A reading from girth and length"),
    ],
)
def test_a_method_begins_a_sentence(measure: str, method: str, said: str) -> None:
    assert a_method(measure_by_key(measure).method(method)) == said


def test_a_source_nobody_wrote_down_is_refused() -> None:
    with pytest.raises(KeyError):
        cited("hearsay_1900")


def test_the_range_that_is_not_doubted_is_said_to_be_ours() -> None:
    said = doubted_words(900.0, 1100.0, "length", METRIC)
    assert said.startswith("Outside 90")
    assert said.endswith("that range is ours.")
