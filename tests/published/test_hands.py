"""Hands, inches, centimetres and pounds against figures printed elsewhere."""

from __future__ import annotations

import pytest

from fitting.units import (
    UnreadableSizeError,
    read_height,
    read_length,
    read_weight,
    show_height,
)


@pytest.mark.parametrize(
    ("hands", "inches"),
    [("15.2", 62), ("15.0", 60), ("16.0", 64), ("15.1", 61)],
)
def test_hands_are_the_inches_of_the_encyclopedia(hands: str, inches: int) -> None:
    """Source: encyclopedia article on the hand as a unit (62 in is 15.2)."""
    height = read_height(hands, unit="hands")
    assert height.mm == read_height(f"{inches} in", unit="hands").mm
    assert show_height(height.mm, "hands") == hands


@pytest.mark.parametrize("text", ["15.4", "15.5", "15.25", "15.75"])
def test_there_is_no_fourth_inch_and_no_decimal_hand(text: str) -> None:
    """15.4 and 15.5 are invalid: encyclopedia article on the hand as a unit.

    15.25 and 15.75: common practice, no published source.
    """
    with pytest.raises(UnreadableSizeError):
        read_height(text, unit="hands")


@pytest.mark.parametrize(
    ("inches", "hands"), [(57, "14.1"), (58, "14.2"), (59, "14.3")]
)
def test_inches_become_hands_as_sellers_tables_print_them(
    inches: int, hands: str
) -> None:
    """Source: common practice, no published source; the arithmetic is 4 in a hand."""
    assert show_height(read_height(f"{inches} in", unit="cm").mm, "hands") == hands


@pytest.mark.parametrize(
    ("hands", "cm"),
    [
        ("10", 101.6),
        ("12.2", 127.0),
        ("13.2", 137.16),
        ("14.2", 147.32),
        ("15.1", 154.94),
        ("15.2", 157.48),
        ("17.0", 172.72),
        ("15.1½", 156.21),
    ],
)
def test_hands_in_centimetres_follow_from_a_hand_of_101_6_mm(
    hands: str, cm: float
) -> None:
    """Source: encyclopedia article on the hand as a unit (4 in, 10.16 cm, exactly).

    The products were worked by hand from that figure.
    """
    assert read_height(hands, unit="hands").mm == pytest.approx(cm * 10, abs=1e-9)


def test_a_quarter_inch_in_hands_keeps_its_hundredths() -> None:
    """15.3¾ is 63.75 in, 161.925 cm, by the same hand of 4 in."""
    assert read_height("15.3¾", unit="hands").mm == 1619.25


def test_148_centimetres_is_not_14_2() -> None:
    """148 cm is the limit of the FEI pony measuring rules (to 1 January 2025).

    By the hand of 101.6 mm it is 58.268 in, 14.2¼; 14.2 is 147.32 cm.
    """
    limit = read_height("148 cm", unit="hands").mm
    assert show_height(limit, "hands") == "14.2¼"
    assert limit - read_height("14.2", unit="hands").mm == pytest.approx(6.8)


@pytest.mark.parametrize(
    ("inches", "mm"),
    [
        ("⅛", 3.175),
        ("¼", 6.35),
        ("5/16", 7.9375),
        ("½", 12.7),
        ("7/8", 22.225),
        ("4½", 114.3),
        ("5", 127.0),
        ("5½", 139.7),
    ],
)
def test_bit_sizes_in_inches_are_25_4_millimetres_an_inch(
    inches: str, mm: float
) -> None:
    """Source: the international inch of 1959, 25.4 mm exactly."""
    assert read_length(f"{inches} in", unit="mm").mm == mm


def test_a_thousand_pounds_is_454_kilograms() -> None:
    """Source: the international pound of 1959, 0.45359237 kg exactly."""
    assert read_weight("1000 lb", unit="kg").kg == 453.59237
