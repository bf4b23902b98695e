"""Adding, correcting and deleting a horse."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Measurement, Yard
from starting.models import Plan
from tests.make import make_horse, make_measurement

FORM = {
    "name": "Pennyroyal",
    "sex": "filly",
    "foaled": "2024-04",
    "horse_type": "pony",
    "dam_height": "13.0 1/2",
    "sire_height": "",
    "token": "once",
}


def at(name: str, *args: Any) -> str:
    return reverse(f"fitting:{name}", args=["sallow-end", *args])


def text_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status
    return response.content.decode()


def test_a_youngster_is_added_with_its_plan(keeper: Client, yard: Yard) -> None:
    response = keeper.post(at("add-horse"), FORM)
    assert response.status_code == 302
    assert response.headers["Location"] == at("horse", "pennyroyal")
    horse = Horse.objects.get()
    assert (horse.foaled, horse.dam_height_written) == ("2024-04", "13.0 1/2")
    assert horse.dam_height_mm == pytest.approx(1333.5)
    assert Plan.objects.filter(horse=horse).exists()


def test_a_grown_horse_is_added_without_a_plan(keeper: Client, yard: Yard) -> None:
    keeper.post(at("add-horse"), {**FORM, "grown": "on"})
    assert Horse.objects.get().grown
    assert not Plan.objects.exists()


def test_a_retry_adds_one_horse(keeper: Client, yard: Yard) -> None:
    first = keeper.post(at("add-horse"), FORM)
    again = keeper.post(at("add-horse"), FORM)
    assert again.headers["Location"] == first.headers["Location"]
    assert Horse.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("foaled", "19 April", "A foaling date is written 2024-04-19"),
        ("foaled", "2199", "still to come"),
        ("dam_height", "13.4", "four inches"),
        ("name", "", "required"),
        ("horse_type", "dragon", "dragon"),
    ],
)
def test_what_cannot_be_read_is_refused_and_the_rest_is_kept(
    keeper: Client, yard: Yard, field: str, typed: str, said: str
) -> None:
    response = keeper.post(
        at("add-horse"), {**FORM, field: typed, "sire_height": "14.1"}
    )
    page = response.content.decode()
    assert response.status_code == 422
    assert said in page
    assert 'value="14.1"' in page
    assert not Horse.objects.exists()


def test_two_horses_never_share_a_name(keeper: Client, yard: Yard) -> None:
    make_horse(yard, name="Pennyroyal")
    response = keeper.post(at("add-horse"), FORM)
    assert response.status_code == 422
    assert "A horse of that name stands here already." in response.content.decode()


def test_a_corrected_horse_keeps_its_address_and_what_was_typed(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(
        yard, name="Pennyroyal", dam_height_mm=1333.5, dam_height_written="13.0 1/2"
    )
    page = text_of(keeper, at("edit-horse", "pennyroyal"))
    assert 'value="13.0 1/2"' in page
    changed = {**FORM, "name": "Penny", "seen_revision": horse.revision}
    response = keeper.post(at("edit-horse", "pennyroyal"), changed)
    assert response.headers["Location"] == at("horse", "pennyroyal")
    horse.refresh_from_db()
    assert (horse.name, horse.key) == ("Penny", "pennyroyal")


def test_a_horse_found_to_be_grown_loses_its_plan(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    given = {**FORM, "grown": "on", "seen_revision": horse.revision}
    keeper.post(at("edit-horse", "pennyroyal"), given)
    assert not Plan.objects.filter(horse=horse).exists()


def test_who_comes_second_sees_what_changed_meanwhile(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    seen = horse.revision
    horse.foaled = "2023"
    horse.save()
    response = keeper.post(
        at("edit-horse", "pennyroyal"), {**FORM, "seen_revision": seen}
    )
    assert response.status_code == 422
    assert "Somebody changed this meanwhile" in response.content.decode()
    horse.refresh_from_db()
    assert horse.foaled == "2023"


def test_deleting_says_what_goes_and_asks_once(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    for _ in range(3):
        make_measurement(horse)
    page = text_of(keeper, at("delete-horse", "pennyroyal"))
    assert "3 measurements" in page
    assert Horse.objects.filter(pk=horse.pk).exists()
    response = keeper.post(at("delete-horse", "pennyroyal"))
    assert response.headers["Location"] == at("horses")
    assert not Horse.objects.exists()
    assert not Measurement.objects.exists()
