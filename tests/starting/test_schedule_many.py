"""Planning many times side by side ends each step where planning once does."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from starting.schedule import HorseAhead, YardDays, planned_spans
from starting.schedule.jobs import yard_at_work
from starting.schedule.many import finishes
from starting.schedule.rows import NEVER, Numbers
from tests.starting.making_schedule import (
    TODAY,
    day,
    make_ahead,
    make_horse,
    make_yard,
    whole_yards,
)

COLUMNS = 3
needed = st.lists(st.integers(1, 6), min_size=18, max_size=18)
lost_days = st.lists(st.integers(0, 30), max_size=6, unique=True)
columns = st.lists(st.tuples(needed, lost_days), min_size=COLUMNS, max_size=COLUMNS)


@settings(max_examples=100, deadline=None)
@given(whole_yards(), columns)
def test_each_column_ends_each_step_as_its_own_plan_would(
    yard: tuple[list[HorseAhead], YardDays],
    drawn: list[tuple[list[int], list[int]]],
) -> None:
    horses, days = yard
    at_work = yard_at_work(horses, days, TODAY)
    lost = np.zeros((at_work.last + 1, COLUMNS), dtype=bool)
    for column, (_, gone) in enumerate(drawn):
        lost[gone, column] = True
    found = finishes(at_work, _left(horses, drawn), lost)
    for column, (counts, gone) in enumerate(drawn):
        alone = [_with(horse, counts[6 * n :], gone) for n, horse in enumerate(horses)]
        for horse, spans in zip(alone, planned_spans(alone, days, TODAY), strict=True):
            for step, (_, finish) in spans.items():
                end = NEVER if finish is None else (finish - TODAY) // timedelta(days=1)
                assert found[horse.horse, step][column] == end


def test_what_starves_goes_first_in_each_column_too() -> None:
    side = make_ahead("hack", 3, optional=True, two_a_day=True)
    other = make_ahead("check", 70, two_a_day=True)
    dill = make_horse(make_ahead("reins", 50), replace(side, sessions_left=4))
    horses = [
        make_horse(make_ahead("bridle", 60), side, other),
        replace(dill, horse="Dill"),
    ]
    yard = make_yard(sessions=1)
    at_work = yard_at_work(horses, yard, TODAY)
    found = finishes(at_work, {}, np.zeros((at_work.last + 1, 1), dtype=bool))
    for horse, spans in zip(horses, planned_spans(horses, yard, TODAY), strict=True):
        for step, (_, finish) in spans.items():
            assert finish is not None
            assert found[horse.horse, step].tolist() == [(finish - TODAY).days]


def _left(
    horses: list[HorseAhead], drawn: list[tuple[list[int], list[int]]]
) -> dict[tuple[str, str], Numbers]:
    return {
        (horse.horse, one.stage.key): np.array([c[6 * n + at] for c, _ in drawn])
        for n, horse in enumerate(horses)
        for at, one in enumerate(horse.stages)
        if one.stage.kind == "sessions"
    }


def _with(horse: HorseAhead, counts: list[int], gone: list[int]) -> HorseAhead:
    """Return the horse with its own column's sessions, lost days kept for care."""
    stages = tuple(
        replace(one, sessions_left=counts[at]) for at, one in enumerate(horse.stages)
    )
    kept = (*horse.care_days, *(day(n) for n in gone))
    return replace(horse, stages=stages, care_days=kept)
