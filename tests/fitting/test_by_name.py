"""Names in order: by their words, and by the size of the numbers in them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.by_name import by_name


@pytest.mark.parametrize(
    "names",
    [
        ["Peg 1", "Peg 2", "Peg 10", "Peg 10a", "Peg 11"],
        ["Bit", "Bit 2", "bit 3", "Bit 4 1/2", "Bit 4 3/4", "Bit 12"],
        ["Snaffle 4", "Snaffle 4.25", "Snaffle 4,5", "Snaffle 5"],
        ["2 pegs", "10 pegs", "apron", "Browband", "canvas roller", "Dee"],
        ["Rug", "Rug  2", "rug 10", "Rugby"],
    ],
)
def test_numbers_in_names_stand_by_their_size(names: list[str]) -> None:
    assert sorted([*names[1:], names[0]], key=by_name) == names


@given(names=st.lists(st.text(max_size=80), max_size=6))
def test_any_names_can_be_put_in_order(names: list[str]) -> None:
    ordered = sorted(names, key=by_name)
    assert all(by_name(one) <= by_name(two) for one, two in pairwise(ordered))


@given(word=st.text("abc ", max_size=5), numbers=st.sets(st.integers(0, 10**9)))
def test_the_same_word_goes_by_its_number(word: str, numbers: set[int]) -> None:
    names = [f"{word}{number}" for number in numbers]
    assert sorted(names, key=by_name) == [f"{word}{n}" for n in sorted(numbers)]
