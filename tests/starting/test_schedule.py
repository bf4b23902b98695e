"""The schedule: its days, its gates, whom it needs, and the reason of each date."""

from __future__ import annotations

from datetime import date

from starting.schedule import (
    Hold,
    plan_yard,
)
from tests.starting.making_schedule import (
    TODAY,
    day,
    days_of,
    make_ahead,
    make_horse,
    make_yard,
    plan_of,
)


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
