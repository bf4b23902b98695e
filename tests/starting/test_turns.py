"""Whose turn it is where more horses are ready than there are sessions."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import given, settings

from fitting.models import Yard
from starting.outlook import Outlook, look_at_yard
from starting.schedule import HorseAhead, YardDays, plan_yard
from starting.schedule.turns import turns_today
from starting.turns import InTurn, whose_turn
from tests.make import make_horse
from tests.starting.making_log import planned
from tests.starting.making_outlook import TODAY as NOW
from tests.starting.making_outlook import horse_facts, yard_facts
from tests.starting.making_schedule import (
    TODAY,
    make_ahead,
    make_yard,
    whole_yards,
)
from tests.starting.making_schedule import make_horse as make_horse_ahead

ONE_GOES = (
    "One session a day here: Tansy goes today, with the longest way ahead;"
    " Rue waits until Fri 27 Nov."
)
MANY_WAIT = (
    "Two sessions a day here: Tansy and Rue go today, with the longest way"
    " ahead; Foal 1 and Foal 2 wait until Fri 27 Nov; Foal 3 and Foal 4 wait"
    " until Sat 28 Nov; 1 more after them."
)
THURSDAY, FRIDAY, SATURDAY = (date(2026, 11, on) for on in (26, 27, 28))


def horse(name: str, left: int = 5, **fields: Any) -> HorseAhead:
    step = make_ahead("bridle", left, under_way=True, **fields)
    return make_horse_ahead(step, horse=name)


def test_the_longest_way_ahead_goes_first_and_the_others_wait() -> None:
    horses = [horse("Tansy", 3), horse("Rue", 9), horse("Sorrel", 6)]
    found = turns_today(horses, make_yard(sessions=2), TODAY)
    assert found.goes == {"Rue": ("bridle",), "Sorrel": ("bridle",)}
    assert found.waits == {"Tansy": ("bridle",)}
    assert turns_today(horses, make_yard(sessions=3), TODAY).waits == {}


def test_who_had_a_session_today_takes_up_its_room() -> None:
    had = replace(horse("Rue", 9, recent_days=(TODAY,)), recent_days=(TODAY,))
    found = turns_today([had, horse("Tansy", 3)], make_yard(sessions=1), TODAY)
    assert (found.had, found.goes) == (("Rue",), {})
    assert found.waits == {"Tansy": ("bridle",)}


def test_a_step_that_something_is_still_to_be_done_for_takes_no_turn() -> None:
    held = horse("Rue", 9, to_dos=("fresh:brow",))
    found = turns_today([held, horse("Tansy", 3)], make_yard(sessions=1), TODAY)
    assert found.goes == {"Tansy": ("bridle",)}
    assert found.waits == {}


@pytest.mark.parametrize(("free", "helper"), [("1", ""), ("0", "1")])
def test_on_no_free_day_and_without_the_helper_nobody_waits_for_room(
    free: str, helper: str
) -> None:
    two = [horse("Tansy", people=2), horse("Rue", people=2)]
    found = turns_today(two, make_yard(free, helper, sessions=1), TODAY)
    assert (found.goes, found.waits) == ({}, {})


@settings(max_examples=80, deadline=None)
@given(whole_yards())
def test_the_turns_are_the_plans_own_where_nothing_is_to_be_done(
    yard: tuple[list[HorseAhead], YardDays],
) -> None:
    horses, days = yard
    found = turns_today(horses, days, TODAY)
    kinds = {(h.horse, s.stage.key): s.stage.kind for h in horses for s in h.stages}
    today = [
        (plan.horse, one.stage)
        for plan in plan_yard(horses, days, TODAY)
        for one in plan.stages
        if kinds[plan.horse, one.stage] == "sessions"
        for on in one.days
        if on == TODAY
    ]
    goes = {(name, key) for name, keys in found.goes.items() for key in keys}
    assert goes == set(today)
    assert not found.goes.keys() & found.waits.keys()
    if found.waits:
        assert sum(map(had_today, horses)) + len(today) >= days.sessions_a_day


def had_today(horse: HorseAhead) -> int:
    by_step = sum(step.recent_days.count(TODAY) for step in horse.stages)
    return max(by_step, horse.recent_days.count(TODAY))


def in_turn(name: str, turn: Any, until: date | None = None) -> InTurn:
    return InTurn(name=name, turn=turn, until=until)


@pytest.mark.parametrize(
    ("horses", "a_day", "said"),
    [
        ([], 2, ""),
        ([in_turn("Tansy", "goes"), in_turn("Rue", "had")], 2, ""),
        (
            [in_turn("Tansy", "goes"), in_turn("Rue", "waits", FRIDAY)],
            1,
            ONE_GOES,
        ),
        (
            [in_turn("Rue", "waits", FRIDAY), in_turn("Tansy", "had")],
            1,
            "One session a day here, Tansy had today's: Rue waits until Fri 27 Nov.",
        ),
        (
            [in_turn("Tansy", "goes"), in_turn("Rue", "goes")]
            + [in_turn(f"Foal {n}", "waits", SATURDAY) for n in (3, 4)]
            + [in_turn(f"Foal {n}", "waits", FRIDAY) for n in (1, 2)]
            + [in_turn("Foal 5", "waits")],
            2,
            MANY_WAIT,
        ),
        (
            [in_turn("Rue", "waits", date(2027, 10, 2))],
            1,
            "One session a day here: Rue waits until Sat 2 Oct 2027.",
        ),
        (
            [in_turn("Rue", "waits")],
            12,
            "Twelve sessions a day here: Rue waits for a day nobody can say.",
        ),
    ],
)
def test_the_sentence_names_who_goes_who_waits_and_until_when(
    horses: list[InTurn], a_day: int, said: str
) -> None:
    assert whose_turn(horses, a_day, THURSDAY) == said


def yard_looks(sessions: int) -> dict[str, Outlook]:
    facts = yard_facts(*(horse_facts(name) for name in ("Tansy", "Rue", "Sorrel")))
    facts = replace(facts, sessions_a_day=sessions)
    return {one.horse: one for one in look_at_yard(facts, NOW)}


def test_an_outlook_says_its_turn_and_the_day_it_waits_for() -> None:
    found = yard_looks(1)
    turns = {name: one.turn.turn for name, one in found.items() if one.turn}
    assert sorted(turns.values()) == ["goes", "waits", "waits"]
    for name, one in found.items():
        assert one.turn is not None
        first = one.can_do_now[0]
        if turns[name] == "goes":
            assert first.next_on is None
        else:
            assert one.turn.until is not None
            assert one.turn.until > NOW
            assert first.next_on == one.turn.until
            assert "taken" in first.later_because


def test_what_can_be_done_now_says_how_long_and_who_must_be_there() -> None:
    first = yard_looks(3)["Tansy"].can_do_now[0]
    assert first.minutes == 5  # of 5 to 10, none good so far
    assert first.people == "two people"


def test_the_planned_days_of_a_fortnight_say_where_somebody_must_help() -> None:
    days = yard_looks(3)["Tansy"].days_ahead
    assert days[0].on == NOW
    assert days[0].second
    assert all(NOW <= one.on < NOW + timedelta(days=14) for one in days)
    assert [one.on for one in days] == sorted(one.on for one in days)


@pytest.mark.django_db
def test_today_says_whose_turn_it_is_only_where_somebody_waits(
    keeper: Client, yard: Yard
) -> None:
    make_horse(yard, name="Rue")
    make_horse(yard, name="Tansy", foaled="2024-04-01")  # the older goes first
    address = reverse("starting:today", args=[yard.slug])
    planned(yard)
    assert "Whose turn" not in keeper.get(address).content.decode()
    Yard.objects.filter(pk=yard.pk).update(sessions_a_day=1)
    yard.refresh_from_db()
    planned(yard)
    page = keeper.get(address).content.decode()
    assert "One session a day here: Tansy goes today" in page
    assert "Rue waits until" in page
    names = [f'/{name}/">' for name in ("tansy", "rue")]
    assert page.index(names[0]) < page.index(names[1])
    strap = page.partition('class="strap"')[2].partition(">")[0]
    assert "/horses/tansy/session/" in strap
