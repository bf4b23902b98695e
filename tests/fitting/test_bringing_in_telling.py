"""What a list comes to is told in few sentences, and every line is named."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.bringing_in import Trouble
from fitting.bringing_in.telling import (
    MOST_LEFT_TOLD,
    MOST_LOOKED_AT,
    MOST_TOLD,
    Size,
    left_words,
    lines_words,
    looked_at,
    sums,
    tell,
)
from fitting.readings import Units
from tests.fitting.making_brought import METRIC, known, line


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ([3], "Line 3"),
        ([3, 3], "Line 3"),
        ([9, 3], "Lines 3, 9"),
        ([3, 4], "Lines 3 to 4"),
        ([2, 4, 5, 6, 9], "Lines 2, 4 to 6, 9"),
    ],
)
def test_lines_are_said_in_runs(lines: list[int], words: str) -> None:
    assert lines_words(lines) == words


@given(st.sets(st.integers(2, 5_001), min_size=1, max_size=40))
def test_every_line_is_in_the_words_and_no_other(lines: set[int]) -> None:
    named: set[int] = set()
    for run in lines_words(lines).partition(" ")[2].split(", "):
        first, _, last = run.partition(" to ")
        named |= set(range(int(first), int(last or first) + 1))
    assert named == lines


def test_a_sentence_is_told_once_with_its_lines() -> None:
    troubles = [
        Trouble(line=n, said=f"{'odd' if n % 2 else 'even'}.") for n in (2, 3, 4)
    ]
    assert [one.whole for one in tell(troubles)] == [
        "Lines 2, 4: even.",
        "Line 3: odd.",
    ]


def test_beyond_what_a_page_holds_the_lines_are_still_named() -> None:
    troubles = [Trouble(line=n, said=f"{n} is bad.") for n in range(2, MOST_TOLD + 5)]
    told = tell(troubles)
    assert len(told) == MOST_TOLD + 1
    assert told[-1].lines == "Lines 502 to 504"
    kept = left_words(troubles, ())
    assert len(kept) == MOST_LEFT_TOLD + 1
    assert kept[-1] == f"And {MOST_TOLD + 1 - MOST_LEFT_TOLD} more of the kind."


def test_no_more_ticks_stand_on_a_page_than_a_form_may_send() -> None:
    rows = (
        f"Old Marl,20{year}-{month:02d}-{day:02d},withers,190,stick"
        for year in (24, 25)
        for month in range(1, 13)
        for day in range(1, 16)
    )
    outcome = line("\n".join(rows))
    assert len(outcome.doubted) == 360
    looked = looked_at(outcome.doubted, known().horses, METRIC)
    assert len(looked) == MOST_LOOKED_AT
    size = "190.0\u2009cm (18.2¾ hands)"
    said = f"Old Marl, 1 Jan 2024: withers height {size}, measuring stick"
    assert looked[0].title == said


def test_a_sum_says_how_many_when_and_between_which_sizes() -> None:
    days = (date(2026, 2, 1), date(2026, 1, 1), date(2026, 3, 1))
    sizes = [
        Size(horse="a", measure="withers_height", on=on, value=value)
        for on, value in zip(days, (1320.8, 1346.2, 1320.8), strict=True)
    ]
    sizes.append(Size(horse="a", measure="weight", on=days[0], value=300.0))
    sizes.append(Size(horse="b", measure="weight", on=days[0], value=310.0))
    first, second, third = sums(sizes, {"a": "May", "b": "Ash"}, Units())
    assert (first.horse, first.measure, first.count) == ("Ash", "Weight", 1)
    assert (second.horse, second.count) == ("May", 3)
    assert second.days == "1 Jan 2026 to 1 Mar 2026"
    assert second.sizes == "13.0 to 13.1 hands"
    assert (third.days, third.sizes) == ("1 Feb 2026", "300\u2009kg")
