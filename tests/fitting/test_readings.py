"""Readings of any measure: typed, refused with what may be meant, shown."""

from __future__ import annotations

import pytest

from fitting.readings import (
    Reading,
    Units,
    UnreadableReadingError,
    as_box,
    echo,
    read_reading,
    show,
    show_between,
    show_difference,
    understood,
)

HANDS = Units(height="hands", length="in", weight="kg")
METRIC = Units(height="cm", length="cm", weight="kg")


@pytest.mark.parametrize(
    ("text", "dimension", "units", "value"),
    [
        ("13.0", "height", HANDS, 1320.8),
        ("132", "height", METRIC, 1320.0),
        ("4 5/8", "length", HANDS, 117.475),
        ("118 mm", "length", METRIC, 118.0),
        ("310", "weight", HANDS, 310.0),
        (" 5,5 ", "score", HANDS, 5.5),
    ],
)
def test_a_bare_number_is_in_the_unit_of_the_yard(
    text: str, dimension: str, units: Units, value: float
) -> None:
    assert read_reading(text, dimension, units).value == pytest.approx(value)  # type: ignore[arg-type]


def test_a_refusal_carries_what_may_be_meant_in_both_units() -> None:
    with pytest.raises(UnreadableReadingError) as refused:
        read_reading("13.4", "height", HANDS)
    assert refused.value.typed == "13.4"
    assert "four inches" in refused.value.why
    assert [meant.label for meant in refused.value.meant] == [
        "13.3 hands (139.7\u2009cm)",
        "14.0 hands (142.2\u2009cm)",
    ]
    assert refused.value.meant[0].reading.value == pytest.approx(1397)


@pytest.mark.parametrize("text", ["0", "10", "5.555", "five", "-5", "nan", "٥"])
def test_condition_is_a_score_from_one_to_nine(text: str) -> None:
    with pytest.raises(UnreadableReadingError, match="1, very thin, to 9"):
        read_reading(text, "score", HANDS)


def test_what_was_typed_stands_in_the_box_while_it_means_the_same() -> None:
    typed = Reading(written="13.0", value=1320.8)
    assert as_box(typed, "height", HANDS) == "13.0"
    assert as_box(typed, "height", METRIC) == "13.0 hh"
    assert as_box(Reading(written="", value=118.0), "length", HANDS) == "118 mm"
    assert as_box(Reading(written="", value=5.5), "score", HANDS) == "5.5"


def test_sizes_are_shown_with_their_unit() -> None:
    assert show(1320.8, "height", HANDS) == "13.0 hands"
    assert show(1320.8, "height", METRIC) == "132.1\u2009cm"
    assert show(5.5, "score", HANDS) == "5.5"
    assert show_between(1320.8, 1346.2, "height", HANDS) == "13.0 to 13.1 hands"
    assert show_between(4.96, 6.04, "score", HANDS) == "5.0 to 6.0"
    assert show_between(300, 320, "weight", HANDS) == "300 to 320\u2009kg"


def test_a_difference_of_heights_is_never_said_in_hands() -> None:
    assert show_difference(6.35, "height", HANDS) == "¼\u2009in"
    assert show_difference(6.35, "height", METRIC) == "0.6\u2009cm"


def test_what_was_understood_is_said_in_both_units() -> None:
    assert understood(1327.15, "height", HANDS) == "13.0¼ hands (132.7\u2009cm)"
    assert understood(310, "weight", HANDS) == "310\u2009kg (683\u2009lb)"
    assert understood(5.5, "score", HANDS) == "5.5 of 9"


def test_what_is_echoed_is_short_and_can_be_seen() -> None:
    assert echo("a\u202eb" + "x" * 60) == "a\ufffdb" + "x" * 21 + "…"
