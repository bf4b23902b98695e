"""Sizes as people type them: read, or refused with what may be meant."""

from __future__ import annotations

import pytest

from fitting.units import (
    HeightUnit,
    UnreadableSizeError,
    read_height,
    read_length,
    read_weight,
)
from tests.fitting.making_units import LENGTH_UNITS, WEIGHT_UNITS, size_of


def refusal(text: str, unit: HeightUnit = "hands") -> UnreadableSizeError:
    with pytest.raises(UnreadableSizeError) as caught:
        read_height(text, unit=unit)
    return caught.value


def meant(error: UnreadableSizeError) -> list[str]:
    return [size.written for size in error.meant]


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("15.1", 1549.4),
        ("15-1", 1549.4),
        ("15,1", 1549.4),
        ("15.0", 1524),
        ("15", 1524),
        ("15 hh", 1524),
        ("15.1hh", 1549.4),
        ("15.1 HH", 1549.4),
        ("15.1 h", 1549.4),
        ("15.1 hands", 1549.4),
        ("15.1 hands high", 1549.4),
        ("15.1½", 1562.1),
        ("15.1 ½", 1562.1),
        ("15.1 1/2", 1562.1),
        ("15.1½ hh", 1562.1),
        ("13.0 1/4", 1327.15),
        ("155 cm", 1550),
        ("155cm", 1550),
        ("154,9 cm", 1549),
        ("1.55 m", 1550),
        ("1549 mm", 1549),
        ("61 in", 1549.4),
        ('61½"', 1562.1),
        ("  15.1  ", 1549.4),
    ],
)
def test_a_height_is_read_in_any_accepted_notation(text: str, mm: float) -> None:
    read = read_height(text, unit="hands")
    assert read.mm == mm
    assert read.written == text.strip()


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("4 7/8 in", 123.825),
        ("4⅞ in", 123.825),
        ("4-7/8 in", 123.825),
        ("4.75 in", 120.65),
        ('4¾"', 120.65),
        ("4¾″", 120.65),
        ("4¾”", 120.65),
        ("4¾''", 120.65),
        ("¾ inch", 19.05),
        ("3/4 in", 19.05),
        (".5 in", 12.7),
        ("123 mm", 123),
        ("12,3 cm", 123),
        ("12.3cm", 123),
        ("12½ cm", 125),
        ("1.2 m", 1200),
        ("4⅝\u2009in", 117.475),
    ],
)
def test_a_written_unit_means_the_same_in_every_yard(text: str, mm: float) -> None:
    assert {read_length(text, unit=unit).mm for unit in LENGTH_UNITS} == {mm}


def test_a_bare_number_is_in_the_unit_of_the_yard() -> None:
    assert read_length("5", unit="in").mm == 127
    assert read_length("12.3", unit="cm").mm == 123
    assert read_length("123", unit="mm").mm == 123
    assert read_length("4 7/8", unit="in").mm == 123.825
    assert read_height("155", unit="cm").mm == 1550
    assert read_weight("312", unit="kg").kg == 312
    assert read_weight("688", unit="lb").kg == pytest.approx(312.0716, abs=1e-4)


@pytest.mark.parametrize("text", ["688 lb", "688lbs", "688 pounds", "688.0 lb"])
def test_pounds_are_read_in_any_yard(text: str) -> None:
    assert {read_weight(text, unit=unit).kg for unit in WEIGHT_UNITS} == {312.07155056}


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("13.4", ["13.3 hands", "14.0 hands"]),
        ("15.4", ["15.3 hands", "16.0 hands"]),
        ("15.5", ["15.2 hands", "16.1 hands"]),
        ("15.8½", ["15.3 hands", "17.0 hands"]),
        ("15.25", ["15.1 hands", "15.2 1/2 hands"]),
        ("15.75", ["15.3 hands"]),
        ("15.1.5", ["15.1 hands", "15.1 1/2 hands"]),
        ("15½", ["15.0 1/2 hands", "15.2 hands"]),
        ("15 1", ["15.1 hands"]),
        ("155", ["155 cm"]),
        ("148.2", ["148.2 cm"]),
        ("1.55", ["1.55 m"]),
        ("61", ["61 in", "61 cm"]),
        ("-15.1", ["15.1 hands"]),
        ("15.1 cm", ["15.1 hands", "15.1 in"]),
        ("1,549 mm", ["1549 mm"]),
    ],
)
def test_what_is_no_height_is_refused_with_the_nearest(
    text: str, nearest: list[str]
) -> None:
    assert meant(refusal(text)) == nearest


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("11.3", ["11.3 hands"]),
        ("15-1", ["15-1 hands"]),
        ("15.1½", ["15.1 1/2 hands"]),
        ("2.6", []),
    ],
)
def test_hands_typed_in_a_yard_of_centimetres_are_offered(
    text: str, nearest: list[str]
) -> None:
    assert meant(refusal(text, "cm")) == nearest


def test_a_refusal_says_what_was_typed_why_and_what_may_be_meant() -> None:
    error = refusal("13.4")
    assert str(error) == (
        "13.4 cannot be read. A hand has four inches, so the figure after the point"
        " stops at 3. Did you mean 13.3 hands (139.7\u2009cm) or 14.0 hands"
        " (142.2\u2009cm)?"
    )
    assert error.why.startswith("A hand has four inches")
    assert [size_of(size) for size in error.meant] == [1397, 1422.4]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "Nothing is written here."),
        ("  \u2009 ", "Nothing is written here."),
        ("0", "A size is more than nothing."),
        ("0 cm", "A size is more than nothing."),
        ("-5 cm", "A size is never less than nothing."),
        ("nan", "A size is a number and its unit"),
        ("inf cm", "A size is a number and its unit"),
        ("1e999", "A size is a number and its unit"),
        ("9**9**9 mm", "Only figures 0 to 9"),
        ("١٥٥ cm", "Only figures 0 to 9"),
        ("１５５ cm", "Only figures 0 to 9"),
        ("155 \u212am", "Only figures 0 to 9"),
        ("155 cm" + " " * 40, "A size takes at most 40 characters."),
        ("155 kg", "A height is written in hands, inches, cm, mm or m."),
        ("15.1 1/3", "Parts are halves, quarters"),
        ("15.1 5/4", "Parts are halves, quarters"),
        ("29 cm", "Horses stand between 30 cm and 2.5 m high."),
        ("2.51 m", "Horses stand between 30 cm and 2.5 m high."),
    ],
)
def test_nonsense_is_refused_in_words(text: str, why: str) -> None:
    assert refusal(text).why.startswith(why)


@pytest.mark.parametrize("text", ["0.9 mm", "5001 mm", "15 hh", "12.3.4 cm", "4 in 5"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(UnreadableSizeError):
        read_length(text, unit="mm")


def test_a_bare_fraction_is_not_taken_for_centimetres() -> None:
    with pytest.raises(UnreadableSizeError, match="Fractions are the way") as caught:
        read_length("4¾", unit="cm")
    assert meant(caught.value) == ["4 3/4 in", "4 3/4 cm"]


def test_a_comma_before_three_figures_is_asked_about() -> None:
    with pytest.raises(UnreadableSizeError, match="two meanings") as caught:
        read_length("1,234 mm", unit="mm")
    assert [size.written for size in caught.value.meant] == ["1234 mm", "1.234 mm"]


def test_a_weight_outside_its_limits_is_refused_with_the_other_unit() -> None:
    with pytest.raises(UnreadableSizeError, match="5 kg to 2000 kg") as caught:
        read_weight("3000", unit="kg")
    assert meant(caught.value) == ["3000 lb"]
    with pytest.raises(UnreadableSizeError, match="5 kg to 2000 kg"):
        read_weight("4 kg", unit="kg")


def test_light_tack_may_weigh_less_than_a_foal() -> None:
    assert read_weight("1.5", unit="kg", least_kg=0.1).kg == 1.5


def test_control_characters_are_not_echoed() -> None:
    assert "\x00" not in str(refusal("15.1\x00"))
