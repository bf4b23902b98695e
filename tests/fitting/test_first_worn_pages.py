"""What was first worn: written in by hand."""

from __future__ import annotations

from datetime import date

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import FirstWorn, Horse, Yard
from tests.make import make_bit, make_horse, make_yard

pytestmark = pytest.mark.django_db
DAY = date(2026, 5, 2)


def new(horse: Horse) -> str:
    return reverse("fitting:add-first-worn", args=[horse.yard.slug, horse.key])


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy", foaled="2024-04-19")


def test_no_kind_of_tack_is_taken_for_worn_before_it_is_chosen(
    helper: Client, tansy: Horse
) -> None:
    assert '<option value="" selected>choose</option>' in (
        helper.get(new(tansy)).content.decode()
    )
    said = {"kind": "", "on": DAY.isoformat(), "who": "Jo", "token": "a"}
    page = helper.post(new(tansy), said)
    assert page.status_code == 422
    assert "Choose what was worn." in page.content.decode()
    assert 'value="Jo"' in page.content.decode()
    assert not FirstWorn.objects.exists()


def test_a_first_time_is_written_with_its_item_and_once(
    helper: Client, tansy: Horse
) -> None:
    bit = make_bit(tansy.yard)
    said = {"kind": "bit", "tack": str(bit.pk), "on": DAY.isoformat(), "token": "b"}
    for _ in range(2):
        assert helper.post(new(tansy), said).status_code == 302
    row = FirstWorn.objects.get()
    assert (row.kind, row.tack, row.on) == ("bit", bit, DAY)


def test_nobody_overwrites_a_first_time_unseen(helper: Client, tansy: Horse) -> None:
    row = FirstWorn.objects.create(horse=tansy, kind="bit", on=DAY, who="Jo")
    address = reverse(
        "fitting:edit-first-worn", args=[tansy.yard.slug, tansy.key, row.pk]
    )
    shown = helper.get(address).content.decode()
    seen = shown.partition('name="seen" value="')[2].partition('"')[0]
    assert seen == "bit, 2 May 2026, Jo"
    said = {"kind": "bit", "on": DAY.isoformat(), "seen": seen}
    FirstWorn.objects.filter(pk=row.pk).update(who="Sam", how_it_went="Quiet.")
    page = helper.post(address, {**said, "who": "Jo", "how_it_went": "Chewed."})
    body = page.content.decode()
    assert page.status_code == 422
    assert "It says now: bit, 2 May 2026, Sam, Quiet. Yours is kept" in body
    assert 'value="Chewed."' in body
    assert 'name="seen" value="bit, 2 May 2026, Sam, Quiet."' in body
    row.refresh_from_db()
    assert row.who == "Sam"
    now = {**said, "seen": "bit, 2 May 2026, Sam, Quiet.", "how_it_went": "Chewed."}
    assert helper.post(address, now).status_code == 302
    row.refresh_from_db()
    assert row.how_it_went == "Chewed."


def test_an_item_that_is_not_here_is_refused_in_plain_words(
    helper: Client, tansy: Horse
) -> None:
    theirs = make_bit(make_yard())
    said = {"kind": "bit", "tack": str(theirs.pk), "on": DAY.isoformat()}
    page = helper.post(new(tansy), said)
    assert page.status_code == 422
    assert "No such item is here now: choose again." in page.content.decode()
    assert not FirstWorn.objects.exists()


def test_a_horse_of_which_nothing_is_written_is_not_said_to_have_worn_nothing(
    helper: Client, viewer: Client, tansy: Horse
) -> None:
    address = reverse("fitting:worn", args=[tansy.yard.slug, tansy.key])
    for client in (helper, viewer):
        page = client.get(address).content.decode()
        assert "Nothing written of it yet" in page
        assert "may have been worn all the same" in page
        assert "Nothing worn" not in page
