"""What would win time: each change tried by itself, against planning it outright."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st

from starting.schedule import Hold, HorseAhead, YardDays, plan_yard
from starting.schedule.wins import Win, sessions_taken, wins
from tests.starting.making_schedule import (
    TODAY,
    day,
    horses_ahead,
    make_ahead,
    make_horse,
    make_yard,
    yards,
)


def _wins(
    stage: str, *horses: HorseAhead, yard: YardDays | None = None
) -> dict[str, Win]:
    days = yard or make_yard()
    taken = sessions_taken(plan_yard(horses, days, TODAY), horses)
    return {one.kind: one for one in wins(horses[0], days, TODAY, taken, stage)}


def test_the_best_free_day_more_is_named_with_the_days_it_wins() -> None:
    # Mondays 2 to 23 March; with Tuesdays too 2, 3, 9, 10. No other day ends sooner.
    found = _wins("bridle", make_horse(make_ahead(left=4)), yard=make_yard("0"))
    assert found["free_day"] == Win(
        kind="free_day", subject="Tuesday", finish=day(8), days=13
    )
    assert set(found) == {"free_day"}


def test_a_helper_on_another_free_day_wins_time_for_what_needs_one() -> None:
    step = make_ahead(left=2, people=2)
    found = _wins("bridle", make_horse(step), yard=make_yard("015", helper="5"))
    assert (found["helper_day"].subject, found["helper_day"].days) == ("Monday", 7)
    assert found["helper_day"].finish == day(5)


def test_as_early_as_allowed_wins_the_months_to_the_typical_age() -> None:
    step = make_ahead(typical_months=(38, 40))
    found = _wins("bridle", make_horse(step))
    assert (found["early"].finish, found["early"].days) == (TODAY, 61)
    early = make_horse(step, as_early_as_allowed=True)
    assert _wins("bridle", early) == {}


def test_a_gate_of_a_step_before_counts_and_one_of_another_step_does_not() -> None:
    season = (Hold(gate="season", until=day(20), why="Out of season"),)
    vet = (Hold(gate="vet", until=day(50), why="The vet said wait"),)
    horse = make_horse(
        make_ahead("bridle", holds=season),
        make_ahead("hack", holds=vet),
        make_ahead("reins", prerequisites=("bridle",)),
    )
    found = _wins("reins", horse)
    assert found["gate"] == Win(kind="gate", subject="season", finish=day(1), days=20)


def test_a_step_nobody_can_date_says_what_would_give_it_a_day() -> None:
    shut = (Hold(gate="vet", until=None, why="The vet said wait"),)
    found = _wins("bridle", make_horse(make_ahead(holds=shut)))
    assert found["gate"] == Win(kind="gate", subject="vet", finish=TODAY, days=None)


def test_other_horses_keep_their_days() -> None:
    long = make_horse(make_ahead("reins", 9), horse="Dill")
    found = _wins(
        "bridle", make_horse(make_ahead(left=1)), long, yard=make_yard("0", sessions=1)
    )
    # Dill has nine Mondays; the tenth is the first left. A Tuesday is quite free.
    assert (found["free_day"].finish, found["free_day"].days) == (day(1), 62)


@settings(max_examples=30, deadline=None)
@given(horses_ahead(), yards, st.data())
def test_a_win_is_what_planning_with_the_change_gives(
    horse: HorseAhead, yard: YardDays, data: st.DataObject
) -> None:
    stage = data.draw(st.sampled_from([one.stage.key for one in horse.stages]))
    usual = _finish(horse, yard, stage)
    for win in _wins(stage, horse, yard=yard).values():
        if win.kind == "early":
            changed = replace(horse, as_early_as_allowed=True)
            assert _finish(changed, yard, stage) == win.finish
        if usual is None:
            assert win.days is None
        else:
            assert win.days == (usual - win.finish).days > 0


def _finish(horse: HorseAhead, yard: YardDays, stage: str) -> date | None:
    (plan,) = plan_yard([horse], yard, TODAY)
    return next(one.finish for one in plan.stages if one.stage == stage)
