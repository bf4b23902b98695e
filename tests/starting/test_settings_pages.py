"""The yard itself: what its name leads to, days and units, people, members."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from fitting.models import Membership, Yard
from starting.models import Person, ProgrammeVersion
from starting.reads.members import person_rows
from tests.make import PASSWORD, make_horse, make_member, make_user
from tests.starting.addresses import make_rows

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


def at(name: str, yard: Yard, *args: Any) -> str:
    return reverse(f"starting:{name}", args=[yard.slug, *args])


def text_of(client: Client, address: str) -> str:
    return client.get(address).content.decode()


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


NEW = {"has_account": "no", "username": "sam", "email": "", "role": "helper"}


def test_a_new_account_signs_in_with_the_password_that_is_shown_once(
    keeper: Client, yard: Yard
) -> None:
    shown = keeper.post(at("add-member", yard), {**NEW, "token": "once"})
    page = shown.content.decode()
    password = page.partition('id="first-password">')[2].partition("<")[0]
    assert len(password) == 19
    assert "no-store" in shown.headers["Cache-Control"]
    sam = Client()
    assert sam.login(username="sam", password=password, request=shown.wsgi_request)
    assert sam.get(at("people", yard)).status_code == 200
    again = keeper.post(at("add-member", yard), {**NEW, "token": "once"})
    assert again.headers["Location"] == at("members", yard)
    assert password not in text_of(keeper, at("members", yard))


def test_somebody_with_an_account_is_let_in_and_keeps_their_password(
    keeper: Client, yard: Yard
) -> None:
    make_user("sam")
    sent = {**NEW, "has_account": "yes", "role": "viewer"}
    assert keeper.post(at("add-member", yard), sent).status_code == 302
    assert yard.memberships.get(user__username="sam").role == "viewer"
    assert User.objects.get(username="sam").check_password(PASSWORD)


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({"username": "robin"}, "Somebody signs in by that name already."),
        ({"username": "Robin"}, "Somebody signs in by that name already."),
        ({"username": "nobody", "has_account": "yes"}, "Nobody signs in by that name"),
        ({"username": "mate", "has_account": "yes"}, "belong to the yard already"),
        ({"username": "two words"}, "Enter a valid username"),
        ({"role": "owner"}, "Select a valid choice"),
        ({"email": "sam at home"}, "Enter a valid email address"),
    ],
)
def test_letting_in_is_refused_in_words(
    keeper: Client, yard: Yard, sent: dict[str, str], said: str
) -> None:
    make_user("robin")
    make_member(yard, "viewer", make_user("mate"))
    page = keeper.post(at("add-member", yard), {**NEW, **sent})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert yard.memberships.count() == 2
    assert User.objects.count() == 3


def mine(yard: Yard) -> Membership:
    return yard.memberships.get(role="keeper")


@pytest.mark.parametrize("role", ["helper", "viewer"])
def test_the_last_keeper_cannot_be_made_less(
    keeper: Client, yard: Yard, role: str
) -> None:
    make_member(yard, "helper")
    page = keeper.post(at("edit-member", yard, mine(yard).pk), {"role": role})
    assert page.status_code == 422
    assert "A yard needs a keeper" in page.content.decode()
    assert mine(yard).user.username


def test_the_last_keeper_cannot_be_let_go(keeper: Client, yard: Yard) -> None:
    page = keeper.post(at("delete-member", yard, mine(yard).pk))
    assert page.status_code == 422
    assert "A yard needs a keeper" in page.content.decode()
    assert mine(yard).user.username


def test_one_of_two_keepers_may_go_and_is_led_out(keeper: Client, yard: Yard) -> None:
    own = mine(yard)
    make_member(yard, "keeper")
    done = keeper.post(at("delete-member", yard, own.pk), {"token": "t"})
    assert done.headers["Location"] == reverse("yards")
    assert keeper.get(at("members", yard)).status_code == 404


def test_a_members_role_changes_what_they_may_do(keeper: Client, yard: Yard) -> None:
    sam = make_member(yard, "viewer")
    member = yard.memberships.get(user=sam)
    keeper.post(at("edit-member", yard, member.pk), {"role": "keeper"})
    other = Client()
    other.force_login(sam)
    assert other.get(at("add-person", yard)).status_code == 200


def test_who_is_let_go_finds_the_yard_shut(keeper: Client, yard: Yard) -> None:
    sam = make_member(yard, "helper")
    other = Client()
    other.force_login(sam)
    assert other.get(at("people", yard)).status_code == 200
    member = yard.memberships.get(user=sam)
    keeper.post(at("delete-member", yard, member.pk), {"token": "t"})
    assert other.get(at("people", yard)).status_code == 404
    assert User.objects.filter(pk=sam.pk).exists()


def test_another_yards_people_and_members_are_not_there(
    keeper: Client, yard: Yard
) -> None:
    other = Yard.objects.create(name="Far Yard", slug="far-yard")
    jo = Person.objects.create(yard=other, name="Jo")
    make_member(other, "keeper")
    theirs = other.memberships.get()
    for address in (
        at("edit-person", yard, jo.pk),
        at("delete-person", yard, jo.pk),
        at("edit-member", yard, theirs.pk),
        at("delete-member", yard, theirs.pk),
    ):
        assert keeper.get(address).status_code == 404
        assert keeper.post(address).status_code == 404


# deleting a yard


def test_a_yard_is_deleted_only_by_its_name(keeper: Client, yard: Yard) -> None:
    address = reverse("starting:delete-yard", args=[yard.slug])
    refused = keeper.post(address, {"name": "Sallow"})
    assert refused.status_code == 422
    assert "This yard is called Sallow End." in refused.content.decode()
    assert Yard.objects.filter(pk=yard.pk).exists()


def test_a_deleted_yard_leaves_nothing_behind(keeper: Client, yard: Yard) -> None:
    rows = make_rows(yard)
    rows.made_up.parts.create(slot="bit", tack=rows.tack)
    keeper.post(reverse("starting:delete-yard", args=[yard.slug]), {"name": yard.name})
    assert not Yard.objects.filter(pk=yard.pk).exists()
    left = {
        model.__name__: model._default_manager.count()
        for app in ("fitting", "starting")
        for model in apps.get_app_config(app).get_models()
        if model._default_manager.exists() and model is not ProgrammeVersion
    }
    assert left == {}
