"""The yard's first pages: today, what to write, the plan, the diary."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.models import OffWork
from starting.writes import replan, today_in
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement

PAGES = ("today", "write", "plan")


def address(name: str, *args: str) -> str:
    return reverse(f"starting:{name}", args=["sallow-end", *args])


def fill(yard: Yard, horses: int) -> None:
    for number in range(horses):
        horse = make_horse(yard, name=f"Horse {number}")
        make_measurement(horse)
        make_bit(yard)
    replan(yard, today_in(yard))


@pytest.mark.parametrize("name", PAGES)
def test_an_empty_yard_says_what_comes_first(
    keeper: Client, yard: Yard, name: str
) -> None:
    answer = keeper.get(address(name))
    assert answer.status_code == 200
    assert "Add a horse" in answer.content.decode()


def test_today_says_what_to_do_and_why_not_more(keeper: Client, yard: Yard) -> None:
    make_horse(yard, name="Tansy")
    replan(yard, today_in(yard))
    page = keeper.get(address("today")).content.decode()
    assert "First handling" in page
    assert "First headcollar: not yet." in page
    assert "Write up a session" in page


def test_a_viewer_is_offered_no_form(viewer: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Hazel")
    make_measurement(horse)
    replan(yard, today_in(yard))
    for page in (address("today"), address("plan"), address("horse-diary", "hazel")):
        shown = viewer.get(page).content.decode()
        assert "Hazel" in shown
        for form in ("/session/", "/measure/", "/try-on/", "/calendar/"):
            assert form not in shown
    assert viewer.get(address("write")).status_code == 403


def test_a_horse_off_work_is_offered_nothing(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Tansy")
    OffWork.objects.create(
        horse=horse, start=today_in(yard), why="lame in front", cleared_by="the vet"
    )
    replan(yard, today_in(yard))
    page = keeper.get(address("today")).content.decode()
    assert "Off work until cleared by the vet: lame in front." in page
    assert "Write up a session" not in page


def test_the_diary_leads_to_the_measuring_page(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse)
    replan(yard, today_in(yard))
    page = keeper.get(address("horse-diary", horse.key)).content.decode()
    assert "Tansy: measure" in page
    assert reverse("fitting:measure", args=["sallow-end", horse.key]) in page


def test_thirty_horses_with_long_names_stay_one_line_each_where_nothing_is_due(
    keeper: Client, yard: Yard
) -> None:
    for number in range(30):
        horse = make_horse(yard, name=f"Her Ladyship of the Long Meadow the {number}th")
        OffWork.objects.create(horse=horse, start=today_in(yard), why="rain rot")
    replan(yard, today_in(yard))
    page = keeper.get(address("today")).content.decode()
    assert page.count("rain rot") == 30


def test_of_many_horses_those_with_nothing_today_take_one_line_with_their_next_day(
    keeper: Client, yard: Yard
) -> None:
    for number in range(12):
        make_horse(yard, name=f"Horse {number}")
    replan(yard, today_in(yard))
    first, _, rest = (
        keeper.get(address("today")).content.decode().partition("not-today")
    )
    assert "Write up a session" in first
    assert "Not today" not in first
    assert "First handling: next on " in rest


@pytest.mark.parametrize("horses", [1, 30])
@pytest.mark.parametrize(("name", "queries"), [("today", 3), ("write", 1), ("plan", 3)])
def test_queries_do_not_grow_with_the_yard(
    keeper: Client,
    yard: Yard,
    django_assert_num_queries: Any,
    horses: int,
    name: str,
    queries: int,
) -> None:
    fill(yard, horses)
    keeper.get(address("today"))
    with django_assert_num_queries(SIGNED_IN + queries):
        keeper.get(address(name))


def test_a_stranger_finds_no_yard_and_the_signed_out_are_asked_in(
    stranger: Client, client: Client, yard: Yard
) -> None:
    for name in PAGES:
        assert stranger.get(address(name)).status_code == 404
        answer = client.get(address(name))
        assert answer.status_code == 302
        assert answer["Location"].startswith(reverse("sign-in"))


def test_the_plan_says_how_it_stands_to_the_aim(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Tansy")
    horse.plan.aim_stage, horse.plan.aim_by = "company", today_in(yard)
    horse.plan.save()
    Yard.objects.filter(pk=yard.pk).update(free_days=["sat"])
    replan(yard, today_in(yard))
    page = keeper.get(address("plan")).content.decode()
    assert "Aim: First handling by" in page
    assert "too late." in page
    assert "What would win time" in page
    assert "days free as well: " in page
