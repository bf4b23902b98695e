"""The yard's page, its days and units, its people."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.models import Person
from starting.reads.members import person_rows
from tests.make import make_horse, make_member
from tests.starting.making_settings import at, text_of

DAYS = {
    "name": "Sallow End",
    "timezone": "Europe/Dublin",
    "hemisphere": "north",
    "height_unit": "cm",
    "length_unit": "cm",
    "weight_unit": "kg",
    "free_days": ["tue", "sun"],
    "helper_days": ["sun"],
    "sessions_a_day": "3",
    "covered_area": "on",
}

JO = {
    "name": "Jo",
    "can": ["handle", "ride"],
    "weight": "62.5",
    "has_backed_horses": "on",
}


def test_the_yards_name_leads_to_all_that_is_settled(
    keeper: Client, yard: Yard
) -> None:
    page = text_of(keeper, at("yard-settings", yard))
    for name in ("edit-yard", "people", "members", "calendar-links"):
        assert f'href="{at(name, yard)}"' in page
    assert f'href="{reverse("password_change")}"' in page
    assert "Every day; 2 sessions a day." in page
    assert "Hands, inches, kilograms." in page
    assert "1 keeper." in page
    assert "Europe/London, northern hemisphere." in page


@pytest.mark.parametrize("how_many", [1, 6])
def test_the_yards_page_asks_as_often_for_one_as_for_six(
    keeper: Client,
    yard: Yard,
    how_many: int,
    django_assert_num_queries: Callable[[int], AbstractContextManager[Any]],
) -> None:
    keeper.get(at("yard-settings", yard))  # the day's planning is done once
    for number in range(how_many):
        Person.objects.create(yard=yard, name=f"Person {number}")
        make_member(yard, "viewer")
    with django_assert_num_queries(7):  # session, user, membership; the page's 4
        keeper.get(at("yard-settings", yard))


@pytest.mark.parametrize(("page", "own"), [("people", 2), ("members", 1)])
@pytest.mark.parametrize("how_many", [1, 6])
def test_lists_ask_as_often_for_one_as_for_six(
    keeper: Client,
    yard: Yard,
    page: str,
    own: int,
    how_many: int,
    django_assert_num_queries: Callable[[int], AbstractContextManager[Any]],
) -> None:
    keeper.get(at(page, yard))
    for number in range(how_many):
        plan = make_horse(yard, name=f"Horse {number}").plan
        plan.rider = Person.objects.create(yard=yard, name=f"Person {number}")
        plan.save()
        make_member(yard, "viewer")
    keeper.get(at(page, yard))
    with django_assert_num_queries(3 + own):  # session, user, membership; the list
        keeper.get(at(page, yard))


@pytest.mark.parametrize("role", ["helper", "viewer"])
def test_other_members_read_but_see_no_forms(
    signed_in: Callable[[str], Client], yard: Yard, role: str
) -> None:
    person = Person.objects.create(yard=yard, name="Jo", weight_kg=62)
    client = signed_in(role)
    for name in ("yard-settings", "people", "members"):
        page = text_of(client, at(name, yard))
        for form in ("edit-yard", "add-person", "add-member", "calendar-links"):
            assert at(form, yard) not in page
        assert at("edit-person", yard, person.pk) not in page
        assert "62 kg" not in page


def test_days_and_units_are_written_in_and_the_planning_is_left_alone(
    keeper: Client, yard: Yard
) -> None:
    done = keeper.post(at("edit-yard", yard), DAYS)
    assert done.headers["Location"] == at("yard-settings", yard)
    now = Yard.objects.get()
    assert (now.free_days, now.helper_days) == (["tue", "sun"], ["sun"])
    assert (now.timezone, now.height_unit) == ("Europe/Dublin", "cm")
    assert (now.sessions_a_day, now.covered_area) == (3, True)
    assert (now.slug, now.version) == (yard.slug, yard.version + 1)
    assert "Tuesday and Sunday; 3 sessions a day; a covered place" in text_of(
        keeper, at("yard-settings", yard)
    )


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("sessions_a_day", "13", "less than or equal to 12"),
        ("sessions_a_day", "0", "greater than or equal to 1"),
        ("free_days", [], "Tick at least one day"),
        ("name", " ", "This field is required"),
    ],
)
def test_days_that_cannot_be_are_refused_and_nothing_is_saved(
    keeper: Client, yard: Yard, field: str, typed: Any, said: str
) -> None:
    page = keeper.post(at("edit-yard", yard), {**DAYS, field: typed})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert Yard.objects.get().free_days == yard.free_days
    assert 'value="tue" id="id_free_days_1" checked' in page.content.decode() or (
        field == "free_days"
    )


def test_the_second_of_two_keepers_sees_what_the_first_changed(
    keeper: Client, yard: Yard
) -> None:
    seen = yard.revision
    Yard.objects.update(name="Sallow Far End")
    sent = {**DAYS, "name": "Sallow Near End", "seen_revision": seen}
    page = keeper.post(at("edit-yard", yard), sent)
    said = page.content.decode()
    assert page.status_code == 422
    assert "It says now: Name of the yard: Sallow Far End" in said
    assert 'value="Sallow Near End"' in said
    now = Yard.objects.get()
    assert now.name == "Sallow Far End"
    again = {**sent, "seen_revision": now.revision}
    assert keeper.post(at("edit-yard", yard), again).status_code == 302
    assert Yard.objects.get().name == "Sallow Near End"


def test_somebody_is_listed_with_what_they_can_do(keeper: Client, yard: Yard) -> None:
    assert "Nobody is listed yet" in text_of(keeper, at("people", yard))
    keeper.post(at("add-person", yard), JO)
    jo = Person.objects.get()
    assert (jo.can, jo.weight_kg, jo.weight_written) == (
        ["handle", "ride"],
        62.5,
        "62.5",
    )
    page = text_of(keeper, at("people", yard))
    assert "Handles youngsters, rides; has backed horses before." in page
    assert "62.5 kg dressed." in page


def test_somebody_sent_twice_is_listed_once(keeper: Client, yard: Yard) -> None:
    for _ in range(2):
        done = keeper.post(at("add-person", yard), {**JO, "token": "once"})
        assert done.headers["Location"] == at("people", yard)
    assert Person.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("weight", "sixty", "sixty cannot be read."),
        ("weight", "-5", "cannot be read"),
        (
            "weight",
            "6",
            "Weights here run from 15 kg",
        ),  # for 60: lighter than any rider
        ("name", "Sam", "Somebody of that name is listed already."),
    ],
)
def test_somebody_who_cannot_be_so_is_refused(
    keeper: Client, yard: Yard, field: str, typed: str, said: str
) -> None:
    Person.objects.create(yard=yard, name="Sam")
    page = keeper.post(at("add-person", yard), {**JO, field: typed})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert f'value="{typed}"' in page.content.decode()
    assert Person.objects.count() == 1


def test_a_weight_is_corrected_and_taken_away(keeper: Client, yard: Yard) -> None:
    jo = Person.objects.create(yard=yard, name="Jo", weight_kg=70, weight_written="70")
    address = at("edit-person", yard, jo.pk)
    assert 'value="70"' in text_of(keeper, address)
    keeper.post(address, {**JO, "weight": ""})
    jo.refresh_from_db()
    assert (jo.weight_kg, jo.weight_written) == (None, "")


def test_two_keepers_correcting_one_person_lose_nothing(
    keeper: Client, yard: Yard
) -> None:
    jo = Person.objects.create(yard=yard, name="Jo")
    seen = jo.revision
    jo.weight_kg, jo.weight_written = 70, "70"
    jo.save()
    sent = {**JO, "seen_revision": seen}
    page = keeper.post(at("edit-person", yard, jo.pk), sent)
    assert page.status_code == 422
    assert "Weight, dressed to ride: 70" in page.content.decode()
    jo.refresh_from_db()
    assert jo.weight_kg == 70


def test_deleting_somebody_says_which_plans_name_them(
    keeper: Client, yard: Yard
) -> None:
    jo = Person.objects.create(yard=yard, name="Jo")
    horse = make_horse(yard, name="Pennyroyal")
    horse.plan.rider = jo
    horse.plan.save()
    address = at("delete-person", yard, jo.pk)
    steps = at("steps", yard, horse.key)
    for name in ("people", "edit-person", "delete-person"):
        args = () if name == "people" else (jo.pk,)
        page = text_of(keeper, at(name, yard, *args))
        assert f'rider of <a class="inline" href="{steps}">Pennyroyal</a>' in page
    assert Person.objects.exists()
    keeper.post(address)
    assert not Person.objects.exists()
    horse.plan.refresh_from_db()
    assert horse.plan.rider is None


def test_each_person_is_named_once_for_each_horse_and_as_what(
    keeper: Client, viewer: Client, yard: Yard
) -> None:
    jo = Person.objects.create(yard=yard, name="Jo")
    Person.objects.create(yard=yard, name="Sam")
    for name, fields in (
        ("Pennyroyal", ("rider", "trainer")),
        ("Bracken", ("trainer",)),
    ):
        plan = make_horse(yard, name=name).plan
        for field in fields:
            setattr(plan, field, jo)
        plan.save()
    row, *_ = [one for one in person_rows(yard) if one.named]
    assert [(one.horse, one.what) for one in row.named] == [
        ("Bracken", "trainer"),
        ("Pennyroyal", "rider and trainer"),
    ]
    assert "No plan names Sam." in text_of(viewer, at("people", yard))
