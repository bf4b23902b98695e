"""The time of year as a gate."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.gates import Gate, GateAnswer, Passed, may_start
from starting.gates.season import answer_in, opens_on
from tests.starting.making_gates import ASTRIDE, gate

DAY = timedelta(days=1)
# January to December: m met, c caution, s shut.
NORTH = "scmmmmmmmmcs"
SOUTH = "mmmmcsscmmmm"
LETTERS = {
    "m": GateAnswer.MET,
    "c": GateAnswer.CAUTION,
    "s": GateAnswer.SHUT,
}
DAYS = st.dates(date(2024, 1, 1), date(2036, 12, 31))


def asked(on: date, hemisphere: str = "north", **changes: object) -> Gate:
    return gate("season", ASTRIDE, on, hemisphere=hemisphere, **changes)


def reason(on: date) -> tuple[Passed, ...]:
    why = "The sand is dry."
    return (Passed(stage="astride", gate="season", reason=why, who="Jo", on=on),)


def half_a_year_on(on: date) -> date:
    later = on.year + (on.month > 6)
    return date(later, (on.month + 5) % 12 + 1, min(on.day, 30))


@pytest.mark.parametrize(("hemisphere", "months"), [("north", NORTH), ("south", SOUTH)])
def test_each_month_has_its_answer_on_either_side(hemisphere: str, months: str) -> None:
    found = [answer_in(date(2027, n, 15), hemisphere) for n in range(1, 13)]
    assert found == [LETTERS[letter] for letter in months]
    gates = [asked(date(2027, n, 28), hemisphere) for n in range(1, 13)]
    assert [one.answer for one in gates] == found
    assert {one.kind for one in gates} == {"dated"}


@pytest.mark.parametrize(
    ("on", "hemisphere", "opens"),
    [
        (date(2026, 11, 1), "north", date(2027, 3, 1)),
        (date(2027, 1, 31), "north", date(2027, 3, 1)),
        (date(2027, 2, 28), "north", date(2027, 3, 1)),
        (date(2027, 5, 1), "south", date(2027, 9, 1)),
        (date(2027, 8, 31), "south", date(2027, 9, 1)),
    ],
)
def test_winter_says_the_day_it_ends(on: date, hemisphere: str, opens: date) -> None:
    found = asked(on, hemisphere)
    assert found.opens_on == opens
    assert not may_start([found])
    assert f"{opens.day} {opens:%B %Y}" in found.would_meet
    assert "covered place" in found.would_meet


@given(DAYS, st.sampled_from(["north", "south"]))
def test_the_day_it_opens_is_the_first_one_that_is_met(on: date, side: str) -> None:
    found = asked(on, side)
    if found.answer is GateAnswer.MET:
        assert found.opens_on is None
        return
    opens = opens_on(on, side)
    waiting = (on + n * DAY for n in range((opens - on).days))
    assert all(answer_in(day, side) is not GateAnswer.MET for day in waiting)
    assert answer_in(opens, side) is GateAnswer.MET


@given(DAYS, st.sampled_from(["north", "south"]))
def test_a_covered_place_lifts_it_all_the_year(on: date, side: str) -> None:
    assert asked(on, side, covered=True).answer is GateAnswer.MET


@pytest.mark.parametrize(
    ("written", "on", "counts"),
    [
        (date(2026, 11, 3), date(2026, 11, 20), True),
        (date(2026, 10, 31), date(2026, 11, 1), False),  # before the winter
        (date(2026, 11, 20), date(2026, 12, 1), False),  # a caution, then shut
        (date(2026, 12, 2), date(2027, 1, 20), True),
        (date(2026, 12, 2), date(2027, 2, 20), True),
        (date(2026, 12, 2), date(2027, 11, 20), False),  # last winter's
    ],
)
def test_a_reason_counts_for_its_own_part_of_winter(
    written: date, on: date, counts: bool
) -> None:
    found = asked(on, passed=reason(written))
    assert found.may_pass
    assert found.went_ahead is counts
    there = reason(half_a_year_on(written))
    assert asked(half_a_year_on(on), "south", passed=there).went_ahead is counts
