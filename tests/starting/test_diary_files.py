"""The diary as a file to keep: sound, whole, and only for who may read it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import DiaryEntry
from starting.writes import replan, today_in
from tests.make import make_horse, make_measurement, make_yard
from tests.starting.line_checker import Seen, events_of
from tests.starting.reading_feed import READERS, all_faults

LONG = "Mæ,rj;oram \\ of the\nThistlethwaitesbottom Meadows ½"


@pytest.fixture
def today(yard: Yard) -> date:
    return today_in(yard)


@pytest.fixture
def tansy(yard: Yard, today: date) -> Horse:
    horse = make_horse(yard, name="Tansy", foaled=f"{today - timedelta(days=900)}")
    other = make_horse(yard, name=LONG, foaled=f"{today - timedelta(days=230)}")
    for each in (horse, other):
        make_measurement(each, on=today - timedelta(days=50))
    assert replan(yard, today)
    return horse


def whole(query: str = "") -> str:
    return reverse("starting:diary-file", args=["sallow-end"]) + query


def one(row: DiaryEntry) -> str:
    number = row.uid.partition("@")[0]
    return reverse("starting:diary-entry-file", args=["sallow-end", number])


def fetched(client: Client, there: str) -> list[Seen]:
    """Return the events of a sound file, read alike by the checker and two parsers."""
    answer = client.get(there)
    assert answer.status_code == 200
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert answer["Content-Disposition"].startswith('attachment; filename="')
    assert answer["Content-Disposition"].endswith('.ics"')
    assert answer["Cache-Control"] == "private, no-store"
    assert not all_faults(answer.content)
    ours = sorted(events_of(answer.content))
    for read in READERS:
        assert sorted(read(answer.content)) == ours
    return ours


def test_the_whole_file_holds_every_entry_once(keeper: Client, tansy: Horse) -> None:
    events = fetched(keeper, whole())
    rows = DiaryEntry.objects.all()
    assert [e.uid for e in sorted(events)] == sorted(row.uid for row in rows)
    assert {e.uid: e.on for e in events} == {row.uid: row.on for row in rows}
    assert len(events) > 10


def test_each_entry_has_a_file_of_its_own(keeper: Client, tansy: Horse) -> None:
    for row in DiaryEntry.objects.all():
        (event,) = fetched(keeper, one(row))
        assert event.uid == row.uid
        assert event.on == row.on
        assert event.end == row.on + timedelta(days=1)


def test_the_file_leaves_out_what_the_page_leaves_out(
    keeper: Client, tansy: Horse
) -> None:
    of_one = fetched(keeper, whole(f"?horse={tansy.key}"))
    assert {e.uid for e in of_one} == {
        row.uid for row in DiaryEntry.objects.filter(horse=tansy)
    }
    measuring = fetched(keeper, whole("?kind=measure&horse="))
    assert measuring
    assert all(": measure " in event.title for event in measuring)
    assert keeper.get(whole("?horse=nobody")).status_code == 404


def test_a_file_says_the_same_bytes_twice(keeper: Client, tansy: Horse) -> None:
    assert keeper.get(whole()).content == keeper.get(whole()).content


def test_no_secret_and_nobodys_own_words_stand_in_a_header(
    keeper: Client, tansy: Horse
) -> None:
    for row in DiaryEntry.objects.exclude(horse=tansy)[:1]:
        said = keeper.get(one(row))["Content-Disposition"]
        assert said.isascii()
        assert "\n" not in said
        assert b"/calendar/" not in keeper.get(one(row)).content


def test_an_empty_diary_is_still_a_file(keeper: Client, yard: Yard) -> None:
    assert fetched(keeper, whole()) == []


def test_only_members_fetch_it_and_only_of_their_own_yard(
    stranger: Client, client: Client, viewer: Client, keeper: Client, tansy: Horse
) -> None:
    row = DiaryEntry.objects.filter(horse=tansy)[0]
    for there in (whole(), one(row)):
        assert client.get(there).status_code == 302
        assert stranger.get(there).status_code == 404
        assert viewer.get(there).status_code == 200
    elsewhere = make_yard()
    theirs = make_horse(elsewhere)
    make_measurement(theirs)
    assert replan(elsewhere, today_in(elsewhere))
    foreign = DiaryEntry.objects.filter(horse=theirs)[0]
    assert keeper.get(one(foreign)).status_code == 404
