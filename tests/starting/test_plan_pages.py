"""A horse's plan: what is hoped for by when, with whom, with how heavy tack."""

from __future__ import annotations

import pytest
from django.test import Client

from fitting.models import Horse
from starting.models import Person, Plan
from tests.make import make_yard
from tests.starting.making_log import page, words


def test_the_plan_keeps_aim_people_and_a_light_weight_of_tack(
    keeper: Client, tansy: Horse
) -> None:
    jo = Person.objects.create(yard=tansy.yard, name="Jo")
    there = page("edit-plan", tansy)
    assert "earliest starting points, not targets" in words(keeper, there)
    plan = Plan.objects.get(horse=tansy)
    sent = {
        "aim_stage": "saddle",
        "aim_by": "2031-05-01",
        "rider": str(jo.pk),
        "trainer": "",
        "tack_weight": "6.5 kg",
        "as_early_as_allowed": "on",
        "seen_revision": str(plan.revision),
    }
    assert keeper.post(there, sent).status_code == 302
    plan.refresh_from_db()
    assert (plan.aim_stage, plan.rider, plan.trainer) == ("saddle", jo, None)
    assert plan.as_early_as_allowed
    assert (plan.tack_weight_kg, plan.tack_weight_written) == (6.5, "6.5 kg")
    assert 'value="6.5 kg"' in words(keeper, there)


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"aim_stage": "no_step"}, "Select a valid choice"),
        ({"aim_by": "2031-05-01"}, "Say which step is hoped for by that day."),
        ({"tack_weight": "1e999"}, "1e999"),
        ({"rider": "99999"}, "Select a valid choice"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(
    keeper: Client, tansy: Horse, more: dict[str, str], why: str
) -> None:
    answer = keeper.post(page("edit-plan", tansy), {"trainer": "", **more})
    assert answer.status_code == 422
    assert why in answer.content.decode()
    assert Plan.objects.get(horse=tansy).aim_stage == ""


def test_another_yards_people_are_not_offered(keeper: Client, tansy: Horse) -> None:
    ann = Person.objects.create(yard=make_yard(), name="Ann Elsewhere")
    assert "Ann Elsewhere" not in words(keeper, page("edit-plan", tansy))
    answer = keeper.post(page("edit-plan", tansy), {"rider": str(ann.pk)})
    assert answer.status_code == 422
