"""The admin, for repair: every row of ours can be found and opened there."""

from __future__ import annotations

import pytest
from django.apps import apps
from django.contrib import admin
from django.contrib.auth.models import User
from django.db.models import Model
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from tests.make import make_bit, make_horse, make_measurement, make_member

OURS = [
    model
    for app in ("fitting", "starting")
    for model in apps.get_app_config(app).get_models()
    if not model.__name__.startswith("Historical")
]
NAMES = [model._meta.model_name for model in OURS]


@pytest.fixture
def repairer(db: None) -> Client:
    client = Client()
    client.force_login(User.objects.create_superuser("repairer"))
    return client


def page_of(model: type[Model], page: str, *args: object) -> str:
    meta = model._meta
    return reverse(f"admin:{meta.app_label}_{meta.model_name}_{page}", args=args)


@pytest.mark.parametrize("model", OURS, ids=NAMES)
def test_every_kind_of_row_is_listed_searched_and_added(
    repairer: Client, model: type[Model]
) -> None:
    assert admin.site.is_registered(model)
    listed = page_of(model, "changelist")
    assert repairer.get(listed).status_code == 200
    assert repairer.get(listed, {"q": "Pennyroyal"}).status_code == 200
    assert repairer.get(page_of(model, "add")).status_code == 200


def test_a_rows_page_and_its_history_open(repairer: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    bit = make_bit(yard)
    for row in (yard, horse, make_measurement(horse), bit, horse.plan):
        opened = repairer.get(page_of(type(row), "change", row.pk))
        assert opened.status_code == 200
        assert repairer.get(page_of(type(row), "history", row.pk)).status_code == 200


def test_a_version_of_a_programme_is_read_and_never_changed(
    repairer: Client, yard: Yard
) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    version = horse.plan.programme
    there = page_of(type(version), "change", version.pk)
    assert repairer.get(there).status_code == 200
    sent = {"key": version.key, "name": "Mine", "digest": "0", "text": "x"}
    assert repairer.post(there, sent).status_code == 403
    before = version.text
    version.refresh_from_db()
    assert version.text == before


@pytest.mark.parametrize("how_many", [1, 6])
def test_the_list_of_measurements_asks_as_often_for_one_as_for_six(
    repairer: Client, yard: Yard, how_many: int, django_assert_num_queries: object
) -> None:
    for _ in range(how_many):
        make_measurement(make_horse(yard))
    with django_assert_num_queries(6):  # type: ignore[operator]
        repairer.get(page_of(apps.get_model("fitting", "Measurement"), "changelist"))


def test_a_keeper_is_no_repairer(keeper: Client, yard: Yard) -> None:
    member = make_member(yard)
    assert not member.is_staff
    assert keeper.get(reverse("admin:index")).status_code == 302
