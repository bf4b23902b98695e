"""What holds of every schedule, whatever the yard."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from starting.programme import shipped
from starting.schedule import (
    HorseAhead,
    StageAhead,
    YardDays,
    plan_yard,
    planned_spans,
)
from tests.starting.making_schedule import (
    EVERY_DAY,
    TODAY,
    horses_ahead,
    make_ahead,
    make_horse,
    make_yard,
    plan_of,
    steps_ahead,
    whole_yards,
    yards,
)
from tests.starting.schedule_checker import broken_rules

WholeYard = tuple[list[HorseAhead], YardDays]


@settings(max_examples=60, deadline=None)
@given(whole_yards())
def test_every_plan_keeps_every_rule(yard: WholeYard) -> None:
    horses, days = yard
    assert broken_rules(horses, days, TODAY, plan_yard(horses, days, TODAY)) == []


@pytest.mark.parametrize("early", [False, True])
def test_the_shipped_programme_keeps_every_rule(*, early: bool) -> None:
    stages = tuple(
        StageAhead(stage=one, sessions_left=sum(one.typical_sessions) // 2)
        for one in shipped().stages
    )
    horses = [
        HorseAhead(
            horse=f"Horse {n}",
            born=date(2023 + n % 3, 1 + n, 28),
            stages=stages,
            as_early_as_allowed=early,
        )
        for n in range(5)
    ]
    yard = make_yard("0256", helper="25", sessions=2)
    plans = plan_yard(horses, yard, TODAY)
    assert broken_rules(horses, yard, TODAY, plans) == []
    dated = [one for one in plans[0].stages if one.start]
    assert len(dated) > 30


@settings(max_examples=60, deadline=None)
@given(whole_yards(), st.randoms(use_true_random=False))
def test_the_order_of_horses_changes_nothing(yard: WholeYard, chance: Random) -> None:
    horses, days = yard
    mixed = horses[:]
    chance.shuffle(mixed)
    by_name = {plan.horse: plan for plan in plan_yard(mixed, days, TODAY)}
    assert plan_yard(horses, days, TODAY) == tuple(
        by_name[horse.horse] for horse in horses
    )


@settings(max_examples=40, deadline=None)
@given(whole_yards())
def test_the_same_facts_give_the_same_plan(yard: WholeYard) -> None:
    horses, days = yard
    first = plan_yard(horses, days, TODAY)
    assert plan_yard(horses, days, TODAY) == first
    assert planned_spans(horses, days, TODAY) == tuple(
        {one.stage: (one.start, one.finish) for one in plan.stages} for plan in first
    )


@settings(max_examples=60, deadline=None)
@given(horses_ahead(), steps_ahead(0), yards, st.integers(0, 6))
def test_a_free_day_added_never_delays_a_single_step(
    horse: HorseAhead, step: StageAhead, yard: YardDays, added: int
) -> None:
    alone = replace(horse, stages=(step,), recent_days=step.recent_days)
    more = replace(yard, free=yard.free | {added})
    (before,) = plan_of(alone, yard).values()
    (after,) = plan_of(alone, more).values()
    for old, new in ((before.start, after.start), (before.finish, after.finish)):
        assert old is None or (new is not None and new <= old)


def _lifted(
    horse: HorseAhead, yard: YardDays, kind: str
) -> tuple[HorseAhead, YardDays]:
    """Return the facts with a bound a day sooner, or a cause quite gone."""
    (ahead,) = horse.stages
    sooner = [
        replace(hold, until=hold.until - timedelta(days=1))
        for hold in ahead.holds
        if hold.until
    ]
    brisk = replace(ahead.stage, days_a_week=(1, 7))
    unbroken = replace(ahead.stage, days_in_a_row=0)
    changed: dict[str, dict[str, Any]] = {
        "age": {"born": horse.born - timedelta(days=1)},
        "typical_age": {"born": horse.born - timedelta(days=1)},
        "gate": {"stages": (replace(ahead, holds=tuple(sooner), closed=()),)},
        "rest": {"rests": ()},
        "care": {"care_days": ()},
        "off_work": {"off_work": ()},
        "vaccination": {"vaccinated": ()},
        "gelding": {"gelded": ()},
        "days_a_week": {"stages": (replace(ahead, stage=brisk),)},
        "days_in_a_row": {"stages": (replace(ahead, stage=unbroken),)},
        "capacity": {"recent_days": (), "stages": (replace(ahead, recent_days=()),)},
    }
    if kind in changed:
        return replace(horse, **changed[kind]), yard
    if kind == "second_person":
        return horse, replace(yard, helper=frozenset())
    return horse, replace(yard, free=EVERY_DAY)


LIFTS = (
    *(
        "age",
        "typical_age",
        "gate",
        "rest",
        "care",
        "off_work",
        "vaccination",
        "gelding",
    ),
    *("days_a_week", "days_in_a_row", "second_person", "free_day"),
)


@settings(max_examples=60, deadline=None)
@given(horses_ahead(), steps_ahead(0), yards)
@example(make_horse(), make_ahead(earliest_months=37), make_yard("5"))
def test_the_reason_told_moves_the_date_or_no_single_one_does(
    horse: HorseAhead, step: StageAhead, yard: YardDays
) -> None:
    alone = replace(horse, stages=(step,), recent_days=step.recent_days)
    (told,) = plan_of(alone, yard).values()
    if told.start is None or step.stage.kind == "rest":
        return
    kind = told.because.kind
    if kind == "now":
        assert told.start == TODAY
        return

    def moves(lift: str) -> bool:
        (freed,) = plan_of(*_lifted(alone, yard, lift)).values()
        assert freed.start is not None
        return freed.start < told.start  # type: ignore[operator]

    assert moves(kind) or not any(moves(lift) for lift in LIFTS)
