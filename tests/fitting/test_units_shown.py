"""Sizes that are read back: from what is shown, written and said."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.units import (
    HeightUnit,
    Length,
    LengthUnit,
    UnreadableSizeError,
    Weight,
    WeightUnit,
    read_height,
    read_length,
    read_weight,
    show_height,
    show_length,
    show_range,
    show_weight,
    show_weight_range,
    understood_height,
    understood_length,
    understood_weight,
    write_height,
    write_length,
    write_weight,
)
from tests.fitting.making_units import LENGTH_UNITS, WEIGHT_UNITS, size_of

IN_MM = Fraction(254, 10)
EIGHTHS = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"]
HEIGHT_UNITS: list[HeightUnit] = ["hands", "cm"]
heights_mm = st.floats(301, 2499)
lengths_mm = st.floats(1, 5000)
weights_kg = st.floats(5, 2000)
READERS: list[Callable[[str], Length | Weight]] = [
    *(partial(read_height, unit=unit) for unit in HEIGHT_UNITS),
    *(partial(read_length, unit=unit) for unit in LENGTH_UNITS),
    *(partial(read_weight, unit=unit) for unit in WEIGHT_UNITS),
]


def offers(
    reader: Callable[[str], Length | Weight], text: str
) -> list[Length | Weight]:
    try:
        read = reader(text)
    except UnreadableSizeError as error:
        return list(error.meant)
    return [read]


@given(st.text())
def test_any_text_is_read_or_refused_and_nothing_else(text: str) -> None:
    for reader in READERS:
        assert all(0 < size_of(size) <= 5000 for size in offers(reader, text))


@given(st.text(alphabet="0123456789.,-/ ½¼¾⅛\"'hcmikgnlb\u2009", max_size=12))
def test_what_is_offered_for_a_near_miss_reads_as_it_says(text: str) -> None:
    for reader in READERS:
        for size in offers(reader, text):
            assert size_of(reader(size.written)) == size_of(size)


@given(sixteenths=st.integers(12 * 16, 98 * 16))
def test_one_size_in_any_notation_gives_the_same_millimetres(sixteenths: int) -> None:
    inches = Fraction(sixteenths, 16)
    whole, part = divmod(inches, 1)
    hands, rest = divmod(whole, 4)
    fraction = f" {part}" if part else ""
    mm = inches * IN_MM
    texts = [
        f"{hands}.{rest}{fraction} hh",
        f"{hands}-{rest}{fraction}",
        f"{whole}{fraction} in",
        f"{float(inches)} in",
        f'{float(inches)}"',
        f"{float(mm)} mm",
        f"{float(mm / 10)} cm",
        f"{float(mm):.6f} mm".replace(".", ","),
        f"{float(mm / 1000)} m",
    ]
    if (part * 8).denominator == 1:
        texts.append(f"{hands}.{rest}{EIGHTHS[int(part * 8)]}")
    assert {read_height(text, unit="hands").mm for text in texts} == {float(mm)}


@given(mm=st.floats(305, 2490))
def test_a_shown_height_reads_back_within_its_rounding(mm: float) -> None:
    hands = read_height(show_height(mm, "hands"), unit="hands").mm
    assert abs(hands - mm) <= 25.4 / 8 + 1e-9
    assert abs(read_height(show_height(mm, "cm"), unit="cm").mm - mm) <= 0.5 + 1e-9


@given(mm=st.floats(2, 4990))
def test_a_shown_length_reads_back_within_its_rounding(mm: float) -> None:
    within: dict[LengthUnit, float] = {"in": 25.4 / 16, "cm": 0.5, "mm": 0.5}
    for unit, half in within.items():
        shown = show_length(mm, unit)
        read = read_length(shown, unit="cm" if unit == "in" else "in").mm
        assert abs(read - mm) <= half + 1e-9


@given(kg=st.floats(6, 1999))
def test_a_shown_weight_reads_back_within_its_rounding(kg: float) -> None:
    assert abs(read_weight(show_weight(kg, "kg"), unit="lb").kg - kg) <= 0.5 + 1e-9
    lb = read_weight(show_weight(kg, "lb"), unit="kg").kg
    assert abs(lb - kg) <= 0.5 * 0.45359237 + 1e-9


@given(mm=heights_mm, unit=st.sampled_from(HEIGHT_UNITS))
def test_a_written_height_reads_back_exactly(mm: float, unit: HeightUnit) -> None:
    assert read_height(write_height(mm), unit=unit).mm == mm


@given(mm=lengths_mm, unit=st.sampled_from(LENGTH_UNITS))
def test_a_written_length_reads_back_exactly(mm: float, unit: LengthUnit) -> None:
    assert read_length(write_length(mm), unit=unit).mm == mm


@given(kg=weights_kg, unit=st.sampled_from(WEIGHT_UNITS))
def test_a_written_weight_reads_back_exactly(kg: float, unit: WeightUnit) -> None:
    assert read_weight(write_weight(kg), unit=unit).kg == kg


@pytest.mark.parametrize(
    ("typed", "unit", "written"),
    [
        ("15.1", "hands", "15.1 hh"),
        ("15.1½", "hands", "15.1½ hh"),
        ("155", "cm", "155 cm"),
        ("155 cm", "hands", "155 cm"),
        ("61 in", "hands", "61 in"),
    ],
)
def test_a_file_keeps_what_was_typed_and_adds_the_unit(
    typed: str, unit: HeightUnit, written: str
) -> None:
    read = read_height(typed, unit=unit)
    assert write_height(read.mm, read.written) == written
    again = read_height(written, unit="hands")
    assert write_height(again.mm, again.written) == written


def test_a_file_writes_lengths_and_weights_with_the_unit_they_were_typed_in() -> None:
    assert write_length(123.825, "4 7/8") == "4 7/8 in"
    assert write_length(118, "118") == "118 mm"
    assert write_length(118, "11.8") == "11.8 cm"
    assert write_length(118, "nonsense") == "118 mm"
    assert write_weight(312, "312") == "312 kg"
    assert write_weight(312.07155056, "688") == "688 lb"
    assert write_weight(1.5, "1.5") == "1.5 kg"


def test_a_file_writes_hands_only_where_they_are_exact() -> None:
    assert write_height(1193.8) == "11.3 hh"
    assert write_height(1200.15) == "11.3 1/4 hh"
    assert write_height(1194) == "1194 mm"
    assert write_height(1194, "11.3") == "1194 mm"


def test_sizes_are_shown_with_their_fractions_and_a_thin_space() -> None:
    assert show_height(1327.15, "hands") == "13.0¼"
    assert show_height(1327.15, "cm") == "132.7\u2009cm"
    assert show_length(117.475, "in") == "4⅝\u2009in"
    assert show_length(19.05, "in") == "¾\u2009in"
    assert show_length(127, "in") == "5\u2009in"
    assert show_length(0, "in") == "0\u2009in"
    assert show_length(118, "cm") == "11.8\u2009cm"
    assert show_length(118.2, "mm") == "118\u2009mm"
    assert show_length(-3.35, "in") == "−⅛\u2009in"
    assert show_length(-3.35, "cm") == "−0.3\u2009cm"
    assert show_weight(312, "kg") == "312\u2009kg"
    assert show_weight(312, "lb") == "688\u2009lb"


def test_the_last_quarter_carries_into_the_next_hand() -> None:
    assert show_height(1523.9, "hands") == "15.0"
    assert show_length(126.9, "in") == "5\u2009in"


def test_what_was_understood_is_said_in_both_units_the_yards_first() -> None:
    assert understood_height(1562.1, "hands") == "15.1½ hands (156.2\u2009cm)"
    assert understood_height(1562.1, "cm") == "156.2\u2009cm (15.1½ hands)"
    assert understood_length(123.825, "in") == "4⅞\u2009in (12.4\u2009cm)"
    assert understood_length(118, "mm") == "118\u2009mm (4⅝\u2009in)"
    assert understood_weight(312, "kg") == "312\u2009kg (688\u2009lb)"
    assert understood_weight(312, "lb") == "688\u2009lb (312\u2009kg)"


def test_a_range_says_its_unit_once() -> None:
    assert show_range(1339.85, 1384.3, "hands") == "13.0¾ to 13.2½"
    assert show_range(116, 121, "cm") == "11.6 to 12.1\u2009cm"
    assert show_range(116, 121, "in") == "4⅝ to 4¾\u2009in"
    assert show_range(116, 116.1, "mm") == "116\u2009mm"
    assert show_weight_range(290, 335, "kg") == "290 to 335\u2009kg"


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_a_size_that_is_no_number_is_not_shown(number: float) -> None:
    with pytest.raises(ValueError, match="Invalid literal"):
        show_height(number, "cm")
