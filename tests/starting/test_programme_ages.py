"""Ages of a programme in words."""

from __future__ import annotations

import pytest

from starting.programme.ages import said_age, said_span


@pytest.mark.parametrize(
    ("months", "words"),
    [
        (0.25, "1 week"),
        (0.5, "2 weeks"),
        (0.75, "3 weeks"),
        (1, "1 month"),
        (1.5, "1.5 months"),
        (30, "30 months"),
        (0, "0 months"),
    ],
)
def test_an_age_under_a_month_is_told_in_weeks(months: float, words: str) -> None:
    assert said_age(months) == words


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.25, 2, "1 week to 2 months"),
        (0.25, 0.75, "1 to 3 weeks"),
        (0, 1, "0 to 1 month"),
        (1, 3, "1 to 3 months"),
        (30, 36, "30 to 36 months"),
    ],
)
def test_two_ages_name_their_measure_once_where_they_share_it(
    low: float, high: float, words: str
) -> None:
    assert said_span(low, high) == words
