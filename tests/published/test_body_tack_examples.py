"""Girths and rugs against the sizes they are sold in, worked by hand.

Where sizes go by twos and threes of inches and how a size between two is chosen is
common practice, no published source; the horses are invented.
"""

from __future__ import annotations

import pytest

from fitting.fit.girths import girth_size_in, short_girth_in
from fitting.fit.rugs import rug_size_in, size_words

INCH = 25.4
US_STEP = 2 * INCH


@pytest.mark.parametrize(
    ("length_mm", "size"),
    [
        (73 * INCH, "6 ft 3 in"),
        (73.1 * INCH, "6 ft 3 in"),  # 6 ft 1 in
        (74 * INCH, "6 ft 3 in"),  # 6 ft 2 in
        (1600, "5 ft 3 in"),
        (1753, "5 ft 9 in"),  # 69.0 in: the next size up would be 6 ft
        (1880, "6 ft 3 in"),
        (72 * INCH, "6 ft"),
    ],
)
def test_a_rug_between_two_sizes_goes_up(length_mm: float, size: str) -> None:
    assert size_words(rug_size_in(length_mm)) == size


def test_a_rug_sold_by_the_even_inch_goes_up_from_the_odd_one() -> None:
    assert rug_size_in(73 * INCH, US_STEP) == 74
    assert rug_size_in(74 * INCH, US_STEP) == 74


@pytest.mark.parametrize(
    ("path_in", "size_in"), [(47, 48), (48, 48), (48.5, 50), (46, 46)]
)
def test_a_girth_goes_up_to_the_even_inch(path_in: float, size_in: int) -> None:
    assert girth_size_in(path_in * INCH) == size_in


def test_a_short_girth_is_twenty_inches_less() -> None:
    assert short_girth_in(48) == 28
