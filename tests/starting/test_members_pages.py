"""Who is let into a yard, what they may do, and a yard deleted."""

from __future__ import annotations

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from fitting.models import Membership, Yard
from starting.models import Person, ProgrammeVersion
from tests.make import PASSWORD, make_member, make_user
from tests.starting.addresses import make_rows
from tests.starting.making_settings import at, text_of

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
