"""The first visit: a yard and its first horse."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Membership, Yard
from starting.models import Plan
from tests.make import make_horse, make_member, make_user, make_yard

YARD = {
    "name": "Withy Bank",
    "timezone": "Europe/London",
    "hemisphere": "north",
    "height_unit": "hands",
    "length_unit": "in",
    "weight_unit": "kg",
    "free_days": ["mon", "sat"],
    "token": "once",
}
HORSE = {
    "name": "Pennyroyal",
    "sex": "filly",
    "foaled": "2024-04",
    "horse_type": "pony",
    "grown": "False",
    "token": "once-more",
}


@pytest.fixture
def user(db: None) -> User:
    return make_user("newcomer")


@pytest.fixture
def newcomer(user: User) -> Client:
    client = Client()
    client.force_login(user)
    return client


def test_whoever_has_no_yard_is_led_to_make_one(newcomer: Client) -> None:
    assert newcomer.get("/").headers["Location"] == reverse("new-yard")
    page = newcomer.get(reverse("new-yard")).content.decode()
    assert "Name of the yard" in page
    assert "New York (America)" in page
    assert "1 of 3" in page


def test_the_only_yard_opens_at_once(keeper: Client, yard: Yard) -> None:
    assert keeper.get("/").headers["Location"] == yard.get_absolute_url()


def test_several_yards_are_listed_and_no_others(newcomer: Client, user: User) -> None:
    for name in ("North Field", "South Field"):
        make_member(make_yard(name=name), "viewer", user=user)
    make_yard(name="Not Theirs")
    page = newcomer.get("/").content.decode()
    assert "North Field" in page
    assert "South Field" in page
    assert "Not Theirs" not in page


def test_whoever_makes_a_yard_becomes_its_keeper(newcomer: Client) -> None:
    done = newcomer.post(reverse("new-yard"), YARD)
    yard = Yard.objects.get()
    assert done.headers["Location"] == reverse("first-horse", args=["withy-bank"])
    assert yard.free_days == ["mon", "sat"]
    assert yard.memberships.get().role == Membership.Role.KEEPER
    assert yard.memberships.get().user.username == "newcomer"


def test_a_yard_sent_twice_on_poor_signal_is_made_once(newcomer: Client) -> None:
    first = newcomer.post(reverse("new-yard"), YARD)
    again = newcomer.post(reverse("new-yard"), YARD)
    assert again.headers["Location"] == first.headers["Location"]
    assert Yard.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("name", "", "This field is required"),
        ("free_days", [], "Tick at least one day"),
        ("timezone", "Europe/Nowhere", "Select a valid choice"),
    ],
)
def test_a_yard_that_lacks_something_is_refused_and_kept_on_the_page(
    newcomer: Client, field: str, typed: Any, said: str
) -> None:
    page = newcomer.post(reverse("new-yard"), {**YARD, field: typed})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert field == "name" or "Withy Bank" in page.content.decode()
    assert not Yard.objects.exists()


def test_a_name_of_the_sites_own_addresses_gets_another_address(
    newcomer: Client,
) -> None:
    newcomer.post(reverse("new-yard"), {**YARD, "name": "Calendar"})
    assert Yard.objects.get().slug == "calendar-2"


def test_a_name_that_is_taken_is_refused(newcomer: Client) -> None:
    make_yard(name="Withy Bank")
    page = newcomer.post(reverse("new-yard"), YARD)
    assert page.status_code == 422
    assert "A yard of that name is kept here already." in page.content.decode()


def test_a_youngster_gets_a_plan_and_its_height_comes_next(
    keeper: Client, yard: Yard
) -> None:
    done = keeper.post(reverse("first-horse", args=[yard.slug]), HORSE)
    horse = Horse.objects.get()
    assert done.headers["Location"] == reverse(
        "first-measurement", args=[yard.slug, "pennyroyal"]
    )
    assert (horse.foaled, horse.grown, horse.yard) == ("2024-04", False, yard)
    assert Plan.objects.get().horse == horse


def test_a_grown_horse_gets_no_plan(keeper: Client, yard: Yard) -> None:
    keeper.post(reverse("first-horse", args=[yard.slug]), {**HORSE, "grown": "True"})
    assert Horse.objects.get().grown
    assert not Plan.objects.exists()


def test_a_horse_bumps_the_yards_version(keeper: Client, yard: Yard) -> None:
    keeper.post(reverse("first-horse", args=[yard.slug]), HORSE)
    assert Yard.objects.get().version == yard.version + 1


def test_a_horse_sent_twice_stands_there_once(keeper: Client, yard: Yard) -> None:
    for _ in range(2):
        done = keeper.post(reverse("first-horse", args=[yard.slug]), HORSE)
        assert done.status_code == 302
    assert Horse.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("19/4/2024", "A foaling date is written 2024-04-19"),
        ("2024-13", "Months run from 01 to 12"),
        ("2199", "That day is still to come."),
        ("", "This field is required"),
    ],
)
def test_a_foaling_date_that_is_none_is_refused_in_words(
    keeper: Client, yard: Yard, typed: str, said: str
) -> None:
    sent = {**HORSE, "foaled": typed}
    page = keeper.post(reverse("first-horse", args=[yard.slug]), sent)
    assert page.status_code == 422
    assert said in page.content.decode()
    assert 'value="Pennyroyal"' in page.content.decode()
    assert not Horse.objects.exists()


def test_two_horses_never_share_a_name(keeper: Client, yard: Yard) -> None:
    make_horse(yard, name="Pennyroyal")
    page = keeper.post(reverse("first-horse", args=[yard.slug]), HORSE)
    assert page.status_code == 422
    assert "A horse of that name stands here already." in page.content.decode()


def test_the_types_say_their_grown_height_in_the_yards_unit(
    keeper: Client, yard: Yard
) -> None:
    address = reverse("first-horse", args=[yard.slug])
    assert "grown 14.2 to 16.1¾ hands" in keeper.get(address).content.decode()
    Yard.objects.update(height_unit="cm")
    assert "grown 147.1 to 166.9\u2009cm" in keeper.get(address).content.decode()
