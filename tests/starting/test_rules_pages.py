"""The pages say in words which rule holds a step back, and where to go on."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Tack, Yard
from starting.models import Incident, SessionWorn
from starting.reads.facts import yard_facts
from starting.reads.worn_facts import altered
from tests.starting.making_log import (
    make_session,
    make_youngster,
    page,
    planned,
    today,
)

WENT_BACK = (
    "a sign asked for a step back. First come 2 good sessions of Manners in hand"
)


@pytest.fixture
def lost(yard: Yard) -> Horse:
    horse = make_youngster(yard)
    make_session(horse, 1, stop_sign="Head shy", stop_level="go_back")
    planned(yard)
    return horse


def text_of(client: Client, path: str) -> str:
    return " ".join(client.get(path).content.decode().split())


def test_steps_step_and_today_say_that_it_went_back(
    keeper: Client, lost: Horse
) -> None:
    today_page = reverse("starting:today", args=[lost.yard.slug])
    for path in (page("steps", lost), page("step", lost, "bridle"), today_page):
        assert WENT_BACK in text_of(keeper, path)
    assert "Not yet. Bridle without a bit went back" in text_of(
        keeper, page("step", lost, "bridle")
    )


def test_a_session_of_what_went_back_is_warned_of(keeper: Client, lost: Horse) -> None:
    form = text_of(keeper, page("log-session", lost) + "?step=bridle")
    assert WENT_BACK in form


def test_an_incident_holds_work_on_lines_on_its_page(
    keeper: Client, yard: Yard
) -> None:
    horse = make_youngster(yard)
    on = today(yard) - timedelta(days=2)
    Incident.objects.create(horse=horse, on=on, what="bolt")
    planned(yard)
    shown = text_of(keeper, page("step", horse, "roller"))
    assert "Tansy bolted on" in shown
    assert "wait 14 days (ours)" in shown


def test_what_was_worn_in_a_session_is_told_with_it(yard: Yard) -> None:
    horse = make_youngster(yard)
    item = Tack.objects.create(yard=yard, name="Brown bridle", kind="bridle")
    SessionWorn.objects.create(session=make_session(horse), tack=item)
    (facts,) = yard_facts(yard).horses
    assert facts.sessions[0].worn == ("Brown bridle",)


def test_only_another_size_on_a_later_day_alters_tack(yard: Yard) -> None:
    item = Tack.objects.create(yard=yard, name="Brown bridle", kind="bridle")
    part = item.parts.create(part="whole", length_mm=900)
    part.length_mm = 905
    part.save()
    assert altered(yard) == ()  # a slip of the pen, mended on its first day
    part.history.update(history_date="2021-01-05T12:00:00Z")
    part.hole = 3
    part.save()
    assert altered(yard) == ()  # another hole is no other size
    part.length_mm = 930
    part.save()
    ((name, _),) = altered(yard)
    assert name == "Brown bridle"
