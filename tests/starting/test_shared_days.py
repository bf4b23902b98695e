"""Measures, try-ons, visits and things to get share the fewest free days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from starting.measuring import Due, Errand, MeasuringDay, SharedDays, shared_days
from tests.starting.making_measuring import EVERY_DAY, TODAY, day, make_due

windows = st.tuples(st.integers(-6, 18), st.integers(0, 8)).map(
    lambda pair: (pair[0], pair[0] + pair[1])
)
weekdays = st.frozensets(st.integers(0, 6), min_size=1, max_size=3)
Spans = list[tuple[int, int]]


def errand(number: int, first: int, last: int) -> Errand:
    return Errand(key=f"errand-{number}", useful_from=day(first), due_by=day(last))


def shared(
    measures: Spans,
    others: Spans,
    free: frozenset[int] = EVERY_DAY,
    booked: Sequence[date] = (),
) -> SharedDays:
    due = [make_due(*span) for span in measures]
    errands = [errand(n, *span) for n, span in enumerate(others)]
    return shared_days(due, errands, free, TODAY, booked)


def measuring(found: SharedDays) -> list[MeasuringDay]:
    return [one for days in found.measuring.values() for one in days]


def days_of(found: SharedDays) -> set[date]:
    return {one.on for one in measuring(found)} | set(found.errands.values())


def open_days(span: tuple[int, int], free: frozenset[int]) -> set[date]:
    every = (day(n) for n in range(max(0, span[0]), span[1] + 1))
    return {on for on in every if on.weekday() in free}


def fewest(spans: Spans, free: frozenset[int], booked: set[date]) -> int:
    """Return the fewest days beside those booked, by trying all choices."""
    every = [day(n) for n in range(28) if day(n).weekday() in free]
    opened = [open_days(span, free) for span in spans]
    for count in range(len(spans) + 1):
        for choice in combinations(every, count):
            if all(span & {*choice, *booked} for span in opened):
                return count
    raise AssertionError("a window holds no free day")


@settings(max_examples=150, deadline=None)
@given(
    st.lists(windows, max_size=3),
    st.lists(windows, max_size=4),
    weekdays,
    st.sets(st.integers(-3, 20).map(day), max_size=2),
)
def test_no_choice_of_days_for_everything_is_smaller(
    measures: Spans, others: Spans, free: frozenset[int], booked: set[date]
) -> None:
    measures = [span for span in measures if open_days(span, free)]
    others = [span for span in others if open_days(span, free)]
    found = shared(measures, others, free, sorted(booked))
    given_days = {on for on in booked if on >= TODAY and on.weekday() in free}
    more = len(days_of(found) - given_days)
    assert more == fewest([*measures, *others], free, given_days)
    for number, span in enumerate(others):
        assert found.errands[f"errand-{number}"] in open_days(span, free)
    for one in measuring(found):
        assert all(due.useful_from <= one.on <= due.due_by for due in one.due)
    assert sum(len(one.due) for one in measuring(found)) == len(measures)


@settings(max_examples=100, deadline=None)
@given(st.lists(windows, max_size=4), st.lists(windows, max_size=4), weekdays)
def test_measures_take_the_fewest_of_the_days_there_are(
    measures: Spans, others: Spans, free: frozenset[int]
) -> None:
    measures = [span for span in measures if open_days(span, free)]
    found = shared(measures, others, free)
    there = sorted(days_of(found))
    count = next(
        size
        for size in range(len(there) + 1)
        for choice in combinations(there, size)
        if all(open_days(span, free) & set(choice) for span in measures)
    )
    assert len(measuring(found)) == count


def test_a_try_on_and_a_measure_that_can_share_a_day_do() -> None:
    found = shared([(0, 20)], [(5, 9)])
    assert days_of(found) == {day(9)}


def test_what_can_be_done_on_a_booked_day_needs_no_other() -> None:
    found = shared([(0, 20)], [(5, 9)], booked=[day(6)])
    assert days_of(found) == {day(6)}
    past, not_free = [day(-1)], [day(6)]
    assert days_of(shared([], [(5, 9)], booked=past)) == {day(9)}
    saturdays = frozenset({5})
    assert days_of(shared([], [(4, 13)], saturdays, not_free)) == {day(12)}


def test_an_errand_that_is_overdue_takes_the_first_free_day() -> None:
    saturday = frozenset({5})
    assert shared([], [(-30, -2)], saturday).errands == {"errand-0": day(5)}
    assert shared([], [(7, 9)], saturday).errands == {"errand-0": day(12)}


def test_an_errand_is_done_on_the_last_day_that_serves_it() -> None:
    found = shared([(0, 3), (10, 12)], [(2, 14)])
    assert found.errands == {"errand-0": day(12)}
    assert len(days_of(found)) == 2


def test_nothing_to_do_needs_no_day() -> None:
    nothing = shared_days((), (), EVERY_DAY, TODAY, [day(3)])
    assert nothing == SharedDays(measuring={}, errands={})


horses = st.sampled_from(["Tansy", "Dill", "Rue"])
asked = st.tuples(windows, horses)
Asked = list[tuple[tuple[int, int], str]]


def of_the_yard(measures: Asked, others: Asked) -> tuple[list[Due], list[Errand]]:
    due = [make_due(*span, horse=horse) for span, horse in measures]
    errands = [
        replace(errand(n, *span), horse=horse) for n, (span, horse) in enumerate(others)
    ]
    return due, errands


@settings(max_examples=150, deadline=None)
@given(st.lists(asked, max_size=4), st.lists(asked, max_size=3), weekdays)
def test_no_choice_of_days_for_all_horses_is_smaller(
    measures: Asked, others: Asked, free: frozenset[int]
) -> None:
    measures = [one for one in measures if open_days(one[0], free)]
    others = [one for one in others if open_days(one[0], free)]
    due, errands = of_the_yard(measures, others)
    found = shared_days(due, errands, free, TODAY)
    spans = [span for span, _ in (*measures, *others)]
    assert len(days_of(found)) == fewest(spans, free, set())
    for horse, days in found.measuring.items():
        assert {one.horse for day in days for one in day.due} == {horse}


@settings(max_examples=80, deadline=None)
@given(st.lists(asked, max_size=6), st.lists(asked, max_size=4), weekdays)
def test_the_days_stay_from_day_to_day_though_a_neglected_horse_is_always_late(
    measures: Asked, others: Asked, free: frozenset[int]
) -> None:
    """Of a horse that is late with something nothing is ever done."""
    due, errands = of_the_yard(measures, others)
    every: list[Due | Errand] = [*due, *errands]
    late = {one for one in every if not open_from(one, free, TODAY)}
    slow = {one.horse for one in late}
    due = [one for one in due if one in late or one.horse not in slow]
    errands = [one for one in errands if one in late or one.horse not in slow]
    before: dict[Due | Errand, date] = {}
    for today in (day(n) for n in range(28)):
        now = placed(shared_days(due, errands, free, today), due, errands)
        assert all(now[one] == on for one, on in before.items())
        before = {one: on for one, on in now.items() if on > today and one not in late}
        due = [one for one in due if one in late or one in before]
        errands = [one for one in errands if one in late or one in before]
    assert not before


def placed(
    found: SharedDays, due: list[Due], errands: list[Errand]
) -> dict[Due | Errand, date]:
    by_day: dict[Due | Errand, date] = {one: found.errands[one.key] for one in errands}
    spans = {(one.horse, one.useful_from, one.due_by): one for one in due}
    for found_day in measuring(found):
        for one in found_day.due:
            by_day[spans[one.horse, one.useful_from, one.due_by]] = found_day.on
    return by_day


def open_from(one: Due | Errand, free: frozenset[int], today: date) -> bool:
    first = max(one.useful_from, today)
    every = (first + timedelta(days=n) for n in range((one.due_by - first).days + 1))
    return any(on.weekday() in free for on in every)
