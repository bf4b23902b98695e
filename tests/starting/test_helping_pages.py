"""The helper's page: for who looks, for a named person, for any helper."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from playwright.sync_api import expect
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Yard
from starting.models import CareVisit, Person
from tests.browser import phone_of, whole
from tests.make import SIGNED_IN, make_horse, make_measurement, make_member
from tests.starting.making_log import planned, today

QUERIES = 4  # people, outlooks, horses with their plans, diary


def address(yard: Yard, person: Person | None = None) -> str:
    if person is None:
        return reverse("starting:helping", args=[yard.slug])
    return reverse("starting:helping-person", args=[yard.slug, person.pk])


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """Return a filly whose first step needs a second person, on any day."""
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse, on=today(yard) - timedelta(days=90))
    planned(yard)
    return horse


def text_of(client: Client, path: str) -> str:
    return " ".join(client.get(path).content.decode().split())


def test_a_helper_is_told_what_is_theirs_and_what_to_bring(
    helper: Client, tansy: Horse
) -> None:
    shown = text_of(helper, address(tansy.yard))
    assert "For the helper" in shown
    assert "Stand by as the second person. About 5 minutes, two people." in shown
    assert "Wear: hat to a current standard, gloves, boots." in shown
    assert "Tansy: measure " in shown
    assert "Have ready: headcollar and rope; " in shown
    assert "Write up the session" in shown
    assert "never alone" in shown


def test_who_signs_in_by_a_listed_name_sees_their_own(
    helper: Client, tansy: Horse
) -> None:
    user = User.objects.get(memberships__role="helper")
    Person.objects.create(yard=tansy.yard, name=user.username.upper(), can=["help"])
    assert f"{user.username.upper()}: yours to do" in text_of(
        helper, address(tansy.yard)
    )


def test_a_keeper_sees_a_named_persons_and_a_viewer_is_offered_no_form(
    keeper: Client, viewer: Client, tansy: Horse
) -> None:
    sam = Person.objects.create(yard=tansy.yard, name="Sam", can=["help"])
    assert "<h1>For Sam</h1>" in text_of(keeper, address(tansy.yard, sam))
    shown = text_of(viewer, address(tansy.yard, sam))
    assert "Stand by as the second person" in shown
    assert "/session/" not in shown
    assert "Write it in" not in shown


def test_a_child_and_one_who_is_not_down_as_helping_are_told_why_nothing_is_asked(
    keeper: Client, tansy: Horse
) -> None:
    child = Person.objects.create(yard=tansy.yard, name="Pip", can=["help"], child=True)
    shown = text_of(keeper, address(tansy.yard, child))
    assert "A child is asked to hold nothing" in shown
    assert "Stand by" not in shown
    rides = Person.objects.create(yard=tansy.yard, name="Sam", can=["ride"])
    shown = text_of(keeper, address(tansy.yard, rides))
    assert "Nothing says that Sam helps" in shown
    assert reverse("starting:edit-person", args=[tansy.yard.slug, rides.pk]) in shown
    assert "Stand by" not in shown


def test_only_the_helpers_days_are_named_and_today_with_what_is_overdue(
    keeper: Client, tansy: Horse
) -> None:
    yard, on = tansy.yard, today(tansy.yard)
    later = on + timedelta(days=3)
    yard.helper_days = [f"{later:%a}".lower()]
    yard.save()
    CareVisit.objects.create(
        horse=tansy, kind="farrier", on=on - timedelta(days=30), next_due=later
    )
    planned(yard)
    shown = text_of(keeper, address(yard))
    assert f"days here: {later:%A}." in shown
    assert "Not one of the helper's days" in shown
    ahead = shown.partition(f"{later:%a} {later.day} {later:%b}</h2>")[2]
    assert "Tansy: farrier" in ahead
    assert f"{on + timedelta(days=1):%a} {(on + timedelta(days=1)).day} " not in shown


def test_an_empty_yard_says_so_and_leads_to_who_helps(
    keeper: Client, yard: Yard
) -> None:
    shown = text_of(keeper, address(yard))
    assert "Nothing today." in shown
    assert "List who helps here" in shown


def test_it_is_reached_from_today_and_from_who_helps(
    keeper: Client, helper: Client, tansy: Horse
) -> None:
    sam = Person.objects.create(yard=tansy.yard, name="Sam")
    there = address(tansy.yard)
    first = reverse("starting:today", args=[tansy.yard.slug])
    people = reverse("starting:people", args=[tansy.yard.slug])
    assert f'href="{there}"' in keeper.get(first).content.decode()
    assert "What is yours to do" in helper.get(first).content.decode()
    for client in (keeper, helper):
        assert address(tansy.yard, sam) in client.get(people).content.decode()


def test_nobody_of_another_yard_is_found(
    keeper: Client, stranger: Client, tansy: Horse
) -> None:
    other = Yard.objects.create(name="Elsewhere", slug="elsewhere")
    theirs = Person.objects.create(yard=other, name="Ash")
    assert keeper.get(address(tansy.yard, theirs)).status_code == 404
    assert stranger.get(address(tansy.yard)).status_code == 404


@pytest.mark.parametrize("horses", [1, 12])
def test_queries_do_not_grow_with_the_yard(
    keeper: Client, yard: Yard, django_assert_num_queries: Any, horses: int
) -> None:
    for number in range(horses):
        make_measurement(make_horse(yard))
        Person.objects.create(yard=yard, name=f"Person {number}")
    planned(yard)
    keeper.get(address(yard))
    with django_assert_num_queries(SIGNED_IN + QUERIES):
        keeper.get(address(yard))


@pytest.mark.django_db(transaction=True)
def test_on_a_phone_and_on_paper(live_server: LiveServer, tansy: Horse) -> None:
    Person.objects.create(yard=tansy.yard, name="Sam", can=["help"])
    with phone_of(make_member(tansy.yard, "helper"), live_server.url) as phone:
        phone.goto(reverse("starting:today", args=[tansy.yard.slug]))
        whole(phone)
        phone.click("text=What is yours to do")
        expect(phone.locator("h1")).to_have_text("For the helper")
        whole(phone)
        phone.click("text=Sam")
        expect(phone.locator("h1")).to_have_text("For Sam")
        phone.emulate_media(media="print")
        assert not phone.get_by_role("heading", name="For whom").is_visible()
        assert phone.get_by_text("Wear: hat").first.is_visible()
        assert phone.pdf(prefer_css_page_size=True)


def test_where_no_helpers_days_are_named_the_free_days_are_told(
    keeper: Client, yard: Yard
) -> None:
    page = keeper.get(reverse("starting:helping", args=[yard.slug])).content.decode()
    assert "The yard&#x27;s free days: every day." in page
