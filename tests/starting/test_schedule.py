"""The plan keeps every rule, and each date says its one reason."""

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
    Hold,
    HorseAhead,
    StageAhead,
    YardDays,
    plan_yard,
    planned_spans,
)
from tests.starting.making_schedule import (
    EVERY_DAY,
    TODAY,
    day,
    days_of,
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


def test_sessions_keep_to_free_days_with_today_among_them() -> None:
    plan = plan_of(make_horse(make_ahead(left=4)), make_yard("03"))
    assert days_of(plan["bridle"]) == [0, 3, 7, 10]
    assert plan["bridle"].because.kind == "now"


def test_days_a_week_count_the_sessions_of_this_week() -> None:
    step = make_ahead(
        left=3, days_a_week=(1, 2), under_way=True, recent_days=(day(-1), day(0))
    )
    plan = plan_of(make_horse(step))
    assert days_of(plan["bridle"]) == [1, 7, 8]
    told = plan["bridle"].finish_because
    assert told is not None
    assert (told.kind, told.text) == ("days_a_week", "At most 2 days a week")


def test_days_in_a_row_count_the_days_just_gone() -> None:
    step = make_ahead(
        left=3, days_in_a_row=2, under_way=True, recent_days=(day(-2), day(-1))
    )
    plan = plan_of(make_horse(step))
    assert days_of(plan["bridle"]) == [1, 2, 4]
    assert plan["bridle"].because.text == "At most 2 days in a row"


def test_a_session_done_today_is_the_horse_s_session_of_today() -> None:
    horse = make_horse(make_ahead(), recent_days=(TODAY,))
    plan = plan_of(horse)
    assert days_of(plan["bridle"]) == [1]
    assert plan["bridle"].because.text == "Has had today's session"


def test_sessions_done_today_are_taken_from_the_people_too() -> None:
    done = make_horse(make_ahead(), horse="Tansy", recent_days=(TODAY,))
    horses = [make_horse(make_ahead()), done]
    plans = plan_yard(horses, make_yard(sessions=1), TODAY)
    assert plans[0].stages[0].start == day(1)


def test_two_a_day_holds_only_among_steps_that_allow_it() -> None:
    twice = {"two_a_day": True}
    both = make_horse(make_ahead("bridle", 3, **twice), make_ahead("reins", 1, **twice))
    mixed = make_horse(make_ahead("bridle", 2), make_ahead("reins", 1, **twice))
    plan = plan_of(both)
    assert days_of(plan["bridle"]) == [0, 0, 1]
    assert days_of(plan["reins"]) == [1]
    assert days_of(plan_of(mixed)["reins"]) == [2]


def test_the_next_step_starts_the_day_after_and_says_what_it_waited_for() -> None:
    plan = plan_of(
        make_horse(
            make_ahead("bridle", 3), make_ahead("reins", 1, prerequisites=("bridle",))
        )
    )
    because = plan["reins"].because
    assert days_of(plan["reins"]) == [3]
    assert (because.kind, because.subject) == ("stage_before", "bridle")
    assert because.text == "Waits for Bridle, likely done on 4 Mar 2026"


def test_a_step_done_or_unknown_holds_nothing() -> None:
    step = make_ahead("reins", prerequisites=("bridle", "elsewhere"))
    plan = plan_of(make_horse(make_ahead("bridle", 9), step, done=("bridle",)))
    assert plan["reins"].start is not None
    assert plan["reins"].start <= day(9)


def test_the_typical_age_holds_unless_as_early_as_allowed() -> None:
    step = make_ahead(earliest_months=37, typical_months=(38, 40))
    usual = plan_of(make_horse(step))["bridle"]
    early = plan_of(make_horse(step, as_early_as_allowed=True))["bridle"]
    assert usual.start == date(2026, 5, 2)
    assert usual.because.text == "Usual from 38 months: 2 May 2026"
    assert early.start == date(2026, 4, 2)
    assert (early.because.kind, early.because.text) == (
        "age",
        "From 37 months: 2 Apr 2026",
    )


def test_a_step_under_way_does_not_wait_for_its_age() -> None:
    step = make_ahead(typical_months=(60, 70), under_way=True)
    assert plan_of(make_horse(step))["bridle"].start == TODAY


def test_a_dated_gate_opens_on_its_day() -> None:
    hold = Hold(gate="season", until=day(9), why="Frozen ground till spring.")
    told = plan_of(make_horse(make_ahead(holds=(hold,), under_way=True)))["bridle"]
    assert told.start == day(9)
    assert (told.because.kind, told.because.subject) == ("gate", "season")
    assert told.because.text == "Frozen ground till spring: 11 Mar 2026"


def test_what_nobody_can_date_is_not_dated_nor_is_what_waits_for_it() -> None:
    hold = Hold(gate="vet", until=None, why="The vet said wait")
    plan = plan_of(
        make_horse(
            make_ahead("bridle", holds=(hold,)),
            make_ahead("reins", prerequisites=("bridle",)),
            make_ahead("saddle", prerequisites=("reins",)),
        )
    )
    assert [one.start for one in plan.values()] == [None] * 3
    assert [one.because.kind for one in plan.values()] == [
        "cannot_say",
        "stage_before",
        "stage_before",
    ]
    assert plan["bridle"].because.text == "Nobody can say when yet: The vet said wait"
    assert plan["saddle"].because.subject == "reins"


def test_beyond_sixty_months_there_are_no_dates() -> None:
    plan = plan_of(
        make_horse(
            make_ahead("bridle", typical_months=(97, 99)),
            make_ahead("reins", prerequisites=("bridle",)),
            make_ahead("hack", 300, days_a_week=(0, 1), days_in_a_row=1),
            make_ahead("saddle", prerequisites=("hack",)),
        ),
        make_yard("0"),
    )
    assert plan["hack"].start == TODAY
    assert plan["hack"].finish is None
    kinds = {plan[key].because.kind for key in ("bridle", "reins", "saddle")}
    assert kinds == {"beyond_horizon"}


def test_only_the_helper_s_days_serve_a_step_for_two() -> None:
    yard = make_yard("0125", helper="5")
    plan = plan_of(make_horse(make_ahead(left=2, people=2)), yard)["bridle"]
    assert days_of(plan) == [5, 12]
    assert plan.because.kind == "second_person"
    assert plan.because.text == (
        "The first day with the helper from 2 Mar 2026 is Saturday 7 Mar 2026"
    )
    asked = make_ahead(gates_on_the_day=("second_person",))
    assert days_of(plan_of(make_horse(asked), yard)["bridle"]) == [5]
    unnamed = plan_of(make_horse(make_ahead(people=2)), make_yard("0125"))
    assert days_of(unnamed["bridle"]) == [0]


def test_the_first_two_good_sessions_keep_to_the_helper_s_days() -> None:
    yard = make_yard("0125", helper="5")
    asked = ("second_person_first",)
    ahead = make_ahead(left=4, gates_on_the_day=asked)
    new = plan_of(make_horse(ahead), yard)["bridle"]
    once = make_ahead(left=3, good_sessions=1, under_way=True, gates_on_the_day=asked)
    known = make_ahead(left=3, good_sessions=2, under_way=True, gates_on_the_day=asked)
    assert days_of(new) == [5, 12, 14, 15]
    assert new.because.kind == "second_person"
    assert days_of(plan_of(make_horse(once), yard)["bridle"]) == [5, 7, 8]
    assert days_of(plan_of(make_horse(known), yard)["bridle"]) == [0, 1, 2]


def test_an_optional_step_has_a_day_after_four_weeks_of_waiting() -> None:
    main = make_ahead("bridle", 60)
    side = make_ahead("hack", 2, optional=True)
    needed = make_ahead("hack", 2)
    waits = days_of(plan_of(make_horse(main, side))["hack"])
    starves = days_of(plan_of(make_horse(main, needed))["hack"])
    assert waits == [28, 56]
    assert starves == [59, 61]  # by turns once their paths are level


def test_a_yard_without_a_day_for_it_is_told_so() -> None:
    step = make_horse(make_ahead(people=2))
    told = [
        plan_of(step, yard)["bridle"]
        for yard in (
            make_yard(""),
            make_yard("01", helper="5"),
            make_yard(sessions=0),
        )
    ]
    assert [one.start for one in told] == [None] * 3
    assert [one.because.kind for one in told] == [
        "free_day",
        "second_person",
        "capacity",
    ]


def test_the_first_free_day_is_the_reason_where_age_alone_is_not() -> None:
    step = make_ahead(earliest_months=37)  # 2 Apr 2026, a Thursday
    told = plan_of(make_horse(step), make_yard("5"))["bridle"]
    assert told.because.kind == "free_day"
    assert told.because.text == (
        "The first free day from 2 Apr 2026 is Saturday 4 Apr 2026"
    )


def test_a_day_lost_outweighs_the_days_that_are_never_free() -> None:
    horse = make_horse(make_ahead(earliest_months=37), care_days=(date(2026, 4, 4),))
    told = plan_of(horse, make_yard("5"))["bridle"]
    assert told.start == date(2026, 4, 11)
    assert told.because.text == "Keeps Saturday 4 Apr 2026 for care"


def test_two_bounds_on_one_day_leave_the_reason_to_the_free_day() -> None:
    hold = Hold(gate="season", until=date(2026, 4, 2), why="Season")
    step = make_ahead(earliest_months=37, holds=(hold,))  # a Thursday, both
    assert plan_of(make_horse(step), make_yard("26"))["bridle"].because.kind == (
        "free_day"
    )


def test_a_rest_a_care_day_and_time_off_keep_sessions_away() -> None:
    kept: dict[str, dict[str, Any]] = {
        "rest": {"rests": ((day(0), day(2)),)},
        "care": {"care_days": (day(0), day(1), day(2))},
        "off_work": {"off_work": ((day(-5), day(2)),)},
    }
    for kind, facts in kept.items():
        told = plan_of(make_horse(make_ahead(), **facts))["bridle"]
        assert (told.start, told.because.kind) == (day(3), kind)


def test_off_work_without_an_end_gives_no_date() -> None:
    told = plan_of(make_horse(make_ahead(), off_work=((day(-5), None),)))["bridle"]
    assert (told.start, told.because.kind) == (None, "cannot_say")


def test_nothing_new_on_the_day_of_a_vaccination_or_the_two_after() -> None:
    new = plan_of(make_horse(make_ahead(left=2), vaccinated=(TODAY,)))["bridle"]
    known = plan_of(
        make_horse(make_ahead(left=2, under_way=True), vaccinated=(TODAY,))
    )["bridle"]
    later = plan_of(make_horse(make_ahead(left=2), vaccinated=(day(1),)))["bridle"]
    assert days_of(new) == [3, 4]
    assert days_of(known) == days_of(later) == [0, 1]
    assert new.because.text == "Vaccinated 2 Mar 2026: nothing new before 5 Mar 2026"


def test_nothing_new_after_gelding_until_healed_and_cleared() -> None:
    healing = ((day(-3), day(11)),)
    new = plan_of(make_horse(make_ahead(left=2), gelded=healing))["bridle"]
    known = plan_of(make_horse(make_ahead(left=2, under_way=True), gelded=healing))
    assert (days_of(new), days_of(known["bridle"])) == ([12, 13], [0, 1])
    assert new.because.text == "Gelded 27 Feb 2026: nothing new before 14 Mar 2026"


def test_gelded_and_not_cleared_nothing_new_has_a_date() -> None:
    open_end = ((day(-30), None),)
    new = plan_of(make_horse(make_ahead(left=2), gelded=open_end))["bridle"]
    known = plan_of(make_horse(make_ahead(left=2, under_way=True), gelded=open_end))
    assert (new.start, new.because.kind) == (None, "cannot_say")
    assert new.because.text == "Gelded, and your vet has not cleared anything new yet"
    assert days_of(known["bridle"]) == [0, 1]


def test_a_turned_away_horse_has_no_session_until_its_rest_is_over() -> None:
    plan = plan_of(
        make_horse(
            make_ahead("bridle", 2),
            make_ahead("roller", kind="rest", rest_days=10, prerequisites=("bridle",)),
            make_ahead("reins", 2, prerequisites=("bridle",)),
        )
    )
    rest = plan["roller"]
    assert (rest.start, rest.finish, rest.days) == (day(2), day(11), ())
    assert days_of(plan["reins"]) == [12, 13]
    because = plan["reins"].because
    assert (because.kind, because.subject) == ("rest", "roller")
    assert because.text == "Resting until 13 Mar 2026"


def test_growing_at_grass_stops_no_session() -> None:
    grass = make_ahead("roller", kind="rest", ends_at_months=38)
    plan = plan_of(make_horse(grass, make_ahead("bridle", 2)))
    assert plan["roller"].finish == date(2026, 5, 2)
    assert days_of(plan["bridle"]) == [0, 1]


def test_a_rest_under_way_counts_from_its_first_day() -> None:
    rest = make_ahead(
        "roller", kind="rest", rest_days=10, under_way=True, recent_days=(day(-4),)
    )
    plan = plan_of(make_horse(rest, make_ahead("bridle")))
    assert (plan["roller"].start, plan["roller"].finish) == (TODAY, day(5))
    assert days_of(plan["bridle"]) == [6]


def test_a_rest_of_no_named_length_is_not_dated() -> None:
    told = plan_of(make_horse(make_ahead(kind="rest")))["bridle"]
    assert (told.start, told.because.kind) == (None, "cannot_say")


def test_checks_and_events_take_a_free_day_and_no_session() -> None:
    horse = make_horse(
        make_ahead("check", kind="check"), make_ahead("bridle"), care_days=(day(0),)
    )
    plan = plan_of(horse, make_yard("035", sessions=1))
    assert days_of(plan["check"]) == days_of(plan["bridle"]) == [3]


def test_of_equal_paths_the_one_that_fewest_weekdays_serve_goes_first() -> None:
    weekday = str(TODAY.weekday())
    older = make_horse(make_ahead(days_a_week=(1, 1)), horse="Dill")
    younger = make_horse(
        make_ahead(days_a_week=(1, 1), people=2),
        horse="Sage",
        born=date(2023, 3, 3),
    )
    yard = make_yard(helper=weekday, sessions=1)
    first, second = plan_yard([older, younger], yard, TODAY)
    assert second.stages[0].finish == TODAY
    assert first.stages[0].finish == TODAY + timedelta(days=1)


def test_the_longest_path_goes_first_then_the_older_horse_then_the_name() -> None:
    long = (make_ahead("bridle"), make_ahead("reins", 4, prerequisites=("bridle",)))
    short = (make_ahead("bridle"),)
    horses = [
        make_horse(*short, horse="Woodruff"),
        make_horse(*short, horse="Tansy"),
        make_horse(*short, horse="Yarrow", born=date(2022, 1, 1)),
        make_horse(*long, horse="Dill", born=date(2025, 1, 1)),
    ]
    plans = plan_yard(horses, make_yard(sessions=1), TODAY)
    starts = {plan.horse: days_of(plan.stages[0])[0] for plan in plans}
    # Dill's four long-rein sessions outrank the others' single ones, until one is left.
    assert starts == {"Dill": 0, "Yarrow": 4, "Tansy": 5, "Woodruff": 6}
    assert plans[1].stages[0].because.kind == "capacity"


def test_the_step_that_had_the_session_is_named() -> None:
    plan = plan_of(make_horse(make_ahead("bridle", 2), make_ahead("reins", 1)))
    because = plan["reins"].because
    assert (because.kind, because.subject) == ("capacity", "bridle")
    assert because.text == "Bridle has the session of 3 Mar 2026"


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
