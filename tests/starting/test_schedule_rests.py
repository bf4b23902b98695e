"""Rests, care and time off in the schedule, and who goes first."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from starting.schedule import (
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
