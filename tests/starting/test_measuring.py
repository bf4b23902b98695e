"""Due windows are served on the fewest free days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from starting.measuring import Due, MeasuringDay, shared_days
from tests.starting.making_measuring import EVERY_DAY, TODAY, day, make_due

windows = st.builds(
    lambda first, length, horse: make_due(first, first + length, horse=horse),
    st.integers(-9, 20),
    st.integers(0, 9),
    st.sampled_from(["Tansy", "Dill"]),
)


def measuring_days(
    due: Sequence[Due], free: frozenset[int], today: date
) -> tuple[MeasuringDay, ...]:
    """Return the yard's measuring days, all horses together."""
    days: dict[date, list[Due]] = {}
    for of_horse in shared_days(due, (), free, today).measuring.values():
        for one in of_horse:
            days.setdefault(one.on, []).extend(one.due)
    return tuple(MeasuringDay(on=on, due=tuple(days[on])) for on in sorted(days))


def _fewest(due: list[Due], free: frozenset[int]) -> int:
    """Return the fewest free days that hit every window, by trying all choices."""
    days = [day(n) for n in range(35) if day(n).weekday() in free]
    spans = [{on for on in days if one.useful_from <= on <= one.due_by} for one in due]
    for count in range(len(due) + 1):
        for choice in combinations(days, count):
            if all(span & set(choice) for span in spans):
                return count
    raise AssertionError("a window holds no free day")


@settings(max_examples=150, deadline=None)
@given(
    st.lists(windows, max_size=6),
    st.frozensets(st.integers(0, 6), min_size=1, max_size=3),
)
def test_no_choice_of_days_is_smaller(due: list[Due], free: frozenset[int]) -> None:
    days = [day(n) for n in range(35) if day(n).weekday() in free]
    holds = [
        one for one in due if any(one.useful_from <= on <= one.due_by for on in days)
    ]
    chosen = measuring_days(holds, free, TODAY)
    assert len(chosen) == _fewest(holds, free)
    for one in chosen:
        assert all(due.useful_from <= one.on <= due.due_by for due in one.due)


@given(st.lists(windows, max_size=12), st.frozensets(st.integers(0, 6)), st.randoms())
def test_every_window_is_served_once_on_a_free_day_from_today_in_any_order(
    due: list[Due], free: frozenset[int], chance: Random
) -> None:
    chosen = measuring_days(due, free, TODAY)
    served = [(one.useful_from, one.due_by) for at in chosen for one in at.due]
    assert sorted(served) == sorted((one.useful_from, one.due_by) for one in due)
    assert [one.on for one in chosen] == sorted({one.on for one in chosen})
    assert all(one.on >= TODAY for one in chosen)
    assert all(one.on.weekday() in (free or EVERY_DAY) for one in chosen)
    mixed = due[:]
    chance.shuffle(mixed)
    assert _sorted(measuring_days(mixed, free, TODAY)) == _sorted(chosen)


def _sorted(days: Sequence[MeasuringDay]) -> list[tuple[date, list[str]]]:
    return [(one.on, sorted(map(repr, one.due))) for one in days]


def test_one_day_serves_windows_that_meet_and_two_horses_share_it() -> None:
    due = [
        make_due(0, 9, "brow", "Tansy"),
        make_due(5, 12, "brow", "Dill"),
        make_due(11, 20, "weight", "Dill"),
    ]
    first, second = measuring_days(due, EVERY_DAY, TODAY)
    assert first.on == day(9)
    assert [one.horse for one in first.due] == ["Tansy", "Dill"]
    assert (second.on, second.due[0].measure) == (day(20), "weight")


def test_a_window_that_opens_on_the_chosen_day_is_served_on_it() -> None:
    (only,) = measuring_days([make_due(0, 9), make_due(9, 20)], EVERY_DAY, TODAY)
    assert (only.on, len(only.due)) == (day(9), 2)


def test_the_last_free_day_of_the_window_that_ends_first_is_taken() -> None:
    (only,) = measuring_days([make_due(0, 9)], frozenset({5}), TODAY)
    assert only.on == day(5)


def test_overdue_is_measured_first_and_says_since_when() -> None:
    due = [make_due(0, 20, "weight"), make_due(-30, -2), make_due(6, 20, "withers")]
    first, second = measuring_days(due, frozenset({2, 5}), TODAY)
    assert first.on == day(2)
    assert [one.measure for one in first.due] == ["brow", "weight"]
    assert first.due[0].because == "overdue since 28 Feb 2026; stands 56 days"
    assert first.due[1].because == "stands 56 days"
    assert second.on == day(19)


def test_a_window_without_a_free_day_takes_the_next_and_says_so() -> None:
    (only,) = measuring_days([make_due(7, 9)], frozenset({5}), TODAY)
    assert only.on == day(12)
    assert only.due[0].because == "no free day by 11 Mar 2026; stands 56 days"


def test_a_yard_without_free_days_is_still_told_when_to_measure() -> None:
    (only,) = measuring_days([make_due(0, 3)], frozenset(), TODAY)
    assert only.on == day(3)


def test_nothing_due_asks_for_no_day() -> None:
    assert measuring_days([], EVERY_DAY, TODAY) == ()


def test_what_is_overdue_draws_its_own_horse_to_the_day_but_no_other() -> None:
    late, own = make_due(-30, -2, "brow", "Dill"), make_due(0, 9, "weight", "Dill")
    other = make_due(0, 9, "weight", "Tansy")
    found = shared_days([late, own, other], (), EVERY_DAY, TODAY).measuring
    assert [day.on for day in found["Dill"]] == [TODAY]
    assert [day.on for day in found["Tansy"]] == [day(9)]


def test_what_is_due_today_still_draws_the_others_to_the_day_they_share() -> None:
    due = [make_due(-9, 0, horse="Dill"), make_due(-2, 9, horse="Tansy")]
    (only,) = measuring_days(due, EVERY_DAY, TODAY)
    assert (only.on, len(only.due)) == (TODAY, 2)
    at_once = replace(due[0], useful_from=TODAY, at_once=True)
    assert len(measuring_days([at_once, due[1]], EVERY_DAY, TODAY)) == 2
