"""What a horse has worn and when, in try-ons and in sessions."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import FirstWorn, Horse, Tack, TackSet, TryOn, Yard
from starting.models import Session, SessionWorn
from tests.fitting.making_tried import (
    at,
    best_bridle,
    measured_filly,
    post,
    read,
    sent,
    today,
)


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return measured_filly(yard)


@pytest.fixture
def made_up(yard: Yard, bit: Tack) -> TackSet:
    return best_bridle(yard, bit)


@pytest.fixture
def session(tansy: Horse, made_up: TackSet) -> Session:
    on = today() - timedelta(days=3)
    row = Session.objects.create(horse=tansy, on=on, stage="bridle_no_bit", who="Maud")
    SessionWorn.objects.create(
        session=row, made_up=made_up, part="cheekpieces", seen="sits_right", hole=4
    )
    return row


def test_a_session_that_says_how_it_sat_stands_among_the_try_ons(
    helper: Client, tansy: Horse, made_up: TackSet, session: Session
) -> None:
    page = read(helper, at("horse-tack", tansy))
    assert "Cheekpieces: sits right, on hole 4." in page
    assert "Said in a session; it counts as a try-on." in page
    args = [tansy.yard.slug, tansy.key, session.pk]
    assert f'href="{reverse("starting:edit-session", args=args)}"' in page


def test_what_was_worn_and_when_counts_each_day_once_and_leads_to_its_record(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet, session: Session
) -> None:
    row = TryOn.objects.create(
        horse=tansy, made_up=made_up, on=session.on, how="worn", who="Jo"
    )
    row.parts.create(part="noseband", seen="rubs")
    TryOn.objects.create(horse=tansy, made_up=made_up, on=today(), how="held")
    struck = TryOn.objects.create(
        horse=tansy, made_up=made_up, on=today(), how="worn", struck="Not she"
    )
    page = read(helper, at("worn", tansy))
    assert page.count("Worn on that day only, by what is written down.") == 2
    assert "in a try-on. Noseband: rubs. With Jo." in page
    assert at("edit-tryon", tansy, struck.pk) not in page
    brown = Tack.objects.get(name="Brown")
    FirstWorn.objects.create(
        horse=tansy, kind="bridle", tack=brown, on=today(), how_it_went="Quiet."
    )
    page = read(helper, at("worn", tansy))
    assert "Worn on 2 days that are written down" in page
    assert "which is later." in page
    assert read(helper, at("horse-tack", tansy)).count(at("worn", tansy)) > 0


def test_what_a_session_wore_is_no_first_time_any_more(
    helper: Client, tansy: Horse, bit: Tack, session: Session
) -> None:
    address = at("try-on", tansy, query=f"item={bit.key}")
    assert "How the first" not in read(helper, address)
    post(helper, address, sent(answer="good"))
    assert not FirstWorn.objects.exists()
