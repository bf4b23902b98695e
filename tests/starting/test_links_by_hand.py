"""A link that was not made on its page: its first poll writes its file."""

from __future__ import annotations

from datetime import timedelta
from importlib import import_module
from typing import Any, Final

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Yard
from fitting.writes import touch
from starting.feed import render_anew
from starting.models import CalendarKey, StoredFeed
from starting.views import feed
from starting.writes import ensure_planned
from starting.writes.calendar_files import calendar_body, next_midnight, options_of
from starting.writes.links import catch_up, end_link, key_hash, make_link
from starting.writes.publish import published
from tests.make import make_horse, make_measurement

SECRET: Final = "By-hand_" * 5 + "abc"
ADDRESS: Final = f"/calendar/{SECRET}.ics"
# By name: the package has a function of that name before the module.
PLANNING: Final = import_module("starting.writes.replan")


@pytest.fixture
def planned(yard: Yard) -> Yard:
    make_measurement(make_horse(yard, name="Tansy"))
    ensure_planned(yard)
    return yard


def by_hand(yard: Yard) -> CalendarKey:
    return yard.calendar_keys.create(label="By hand", key_hash=key_hash(SECRET))


def test_the_first_poll_writes_its_file_though_the_yard_is_planned(
    client: Client, planned: Yard, django_assert_num_queries: Any
) -> None:
    key = by_hand(planned)
    first = client.get(ADDRESS)
    assert first.status_code == 200
    assert first.content == calendar_body(planned, published(planned), options_of(key))
    with django_assert_num_queries(1):
        again = client.get(ADDRESS, headers={"if-none-match": first["ETag"]})
    assert again.status_code == 304


@pytest.mark.parametrize("asks", [{}, {"if-none-match": 'W/"of-before"'}])
def test_a_yard_that_was_never_planned_is_planned_by_it(
    client: Client, yard: Yard, asks: dict[str, str]
) -> None:
    by_hand(yard)
    make_measurement(make_horse(yard, name="Tansy"))
    answer = client.get(ADDRESS, headers=asks)
    assert answer.status_code == 200
    assert b"SUMMARY:Tansy: measure " in answer.content


def test_its_file_is_empty_but_whole_while_the_yard_cannot_be_planned(
    client: Client, yard: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_hand(yard)
    make_measurement(make_horse(yard, name="Tansy"))
    with monkeypatch.context() as broken:
        broken.setattr(PLANNING, "yard_facts", lambda yard: 1 / 0)
        before = client.get(ADDRESS)
    after = client.get(ADDRESS)
    assert (before.status_code, after.status_code) == (200, 200)
    assert before.content.endswith(b"END:VCALENDAR\r\n")
    assert b"BEGIN:VEVENT" not in before.content
    assert b"BEGIN:VEVENT" in after.content, "the next poll asks for a plan again"


def test_a_file_deleted_while_the_yard_cannot_be_planned_asks_again_too(
    client: Client, planned: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = by_hand(planned)
    client.get(ADDRESS)
    StoredFeed.objects.all().delete()
    touch(planned)
    monkeypatch.setattr(PLANNING, "yard_facts", lambda yard: 1 / 0)
    CalendarKey.objects.update(valid_until=None)
    assert client.get(ADDRESS).status_code == 200
    key.refresh_from_db()
    assert key.valid_until is None


def test_a_link_opened_again_shows_the_diary_as_it_is_now(
    client: Client, planned: Yard
) -> None:
    key, secret = make_link(planned, label="Phone", options={})
    address = reverse("calendar", args=[secret])
    before = client.get(address).content
    end_link(key)
    make_measurement(make_horse(planned, name="Wren"))
    touch(planned)
    ensure_planned(Yard.objects.get(pk=planned.pk))
    yesterday = timezone.now() - timedelta(days=1)
    CalendarKey.objects.update(revoked_at=None, valid_until=yesterday)
    after = client.get(address).content
    key.refresh_from_db()
    assert b"SUMMARY:Wren" in after
    assert b"SUMMARY:Wren" not in before
    assert key.valid_until == next_midnight(planned, timezone.now())


def test_two_first_polls_at_once_both_get_the_file(
    client: Client, planned: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_hand(planned)
    others: list[Any] = []

    def meanwhile(*asked: Any, **told: Any) -> Any:
        """Poll once more, after the first has looked for a file and found none."""
        monkeypatch.undo()
        others.append(client.get(ADDRESS))
        return render_anew(*asked, **told)

    monkeypatch.setattr("starting.writes.calendar_files.render_anew", meanwhile)
    answers = [client.get(ADDRESS), *others]
    assert [answer.status_code for answer in answers] == [200, 200]
    assert len({(answer.content, answer["ETag"]) for answer in answers}) == 1


@pytest.mark.parametrize("moment", ["is_planned", "replan"])
def test_a_link_deleted_while_its_yard_is_planned_is_not_there(
    client: Client, yard: Yard, monkeypatch: pytest.MonkeyPatch, moment: str
) -> None:
    key = by_hand(yard)
    before = getattr(PLANNING, moment)

    def deleting(*asked: Any) -> Any:
        CalendarKey.objects.filter(pk=key.pk).delete()
        return before(*asked)

    monkeypatch.setattr(PLANNING, moment, deleting)
    assert client.get(ADDRESS).status_code == 404


def test_a_link_deleted_as_it_is_asked_for_is_not_there(
    client: Client, yard: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = by_hand(yard)
    before = catch_up

    def deleting(link: int) -> None:
        key.delete()
        before(link)

    monkeypatch.setattr(feed, "catch_up", deleting)
    assert client.get(ADDRESS).status_code == 404
