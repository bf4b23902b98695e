"""Real calendar programs subscribe to a link on this machine, and keep up with it."""

from __future__ import annotations

import gzip
import http.client
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

import pytest
from django.utils import timezone
from pytest_django.live_server_helper import LiveServer

from starting.models import CareVisit
from starting.writes import today_in
from starting.writes.links import end_link
from starting.writes.publish import published
from tests.make import make_plan
from tests.starting.line_checker import faults_of
from tests.starting.subscribing import Link, Subscriber, make_subscribed

SHOWING = """
[calendars]
[[yard]]
path = {folder}/kept
readonly = True
[locale]
local_timezone = Europe/London
default_timezone = Europe/London
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {folder}/shown.db
"""


class Shown(NamedTuple):
    """An entry as it is shown: its first and its last day."""

    on: date
    until: date
    status: str


def _shown(row: Mapping[str, str]) -> Shown:
    first, last = (date.fromisoformat(row[f"{end}-date"]) for end in ("start", "end"))
    return Shown(on=first, until=last, status=row["status"].strip())


class Calendar(Subscriber):
    """A calendar program on the machine that subscribes."""

    def shown(self) -> dict[str, Shown]:
        """Return the entries as they are shown, by title."""
        fields = ("title", "start-date", "end-date", "status")
        asked = [word for field in fields for word in ("--json", field)]
        since = (timezone.now().date() - timedelta(days=30)).isoformat()
        config = str(self.folder / "showing")
        said = self.run("khal", "-c", config, "list", *asked, since, "800d")
        rows = [row for line in said.splitlines() for row in json.loads(line)]
        entries = {row["title"]: _shown(row) for row in rows}
        assert len(entries) == len(rows), "an entry is shown on more than one day"
        return entries


@pytest.fixture
def link(live_server: LiveServer) -> Link:
    return make_subscribed(live_server.url, as_tasks=False)


@pytest.fixture
def subscriber(link: Link, tmp_path: Path) -> Calendar:
    subscriber = Calendar(tmp_path)
    told = SHOWING.format(folder=tmp_path)
    (tmp_path / "showing").write_text(told, encoding="utf-8")
    subscriber.subscribe(link.address)
    return subscriber


def test_a_subscriber_sees_every_entry_on_its_one_day(
    link: Link, subscriber: Calendar
) -> None:
    make_plan(link.horse)
    link.plan()
    subscriber.sync()
    entries = [revised.entry for revised in published(link.horse.yard)]
    assert len(entries) > 30
    assert {entry.forecast for entry in entries} == {True, False}
    assert subscriber.shown() == {
        entry.title: Shown(
            on=entry.on,
            until=entry.on,
            status="TENTATIVE" if entry.forecast else "CONFIRMED",
        )
        for entry in entries
    }


def test_a_sync_with_nothing_new_changes_nothing(
    link: Link, subscriber: Calendar
) -> None:
    before = subscriber.kept()
    link.plan()
    assert len(before) == link.horse.yard.diary.count()
    assert subscriber.sync() == ""
    assert subscriber.kept() == before


def test_what_moved_came_or_went_is_seen_at_the_next_sync(
    link: Link, subscriber: Calendar
) -> None:
    before, files = subscriber.shown(), subscriber.kept()
    link.visit("vet", 47)
    link.visit("other", 33)
    CareVisit.objects.filter(kind="vaccination").delete()
    link.plan()
    said = subscriber.sync()
    after = subscriber.shown()
    vet, other = after.pop("Tansy: vet"), after.pop("Tansy: visit")
    assert (said.count("Copying"), said.count("Deleting")) == (2, 2)
    assert vet.on - before.pop("Tansy: vet").on == timedelta(days=7)
    assert other.on == today_in(link.horse.yard) + timedelta(days=33)
    assert before.pop("Tansy: vaccination")
    assert after == before
    assert "Tansy: worming" in after
    still = files.keys() & subscriber.kept().keys()
    assert len(still) == len(after)
    assert all(subscriber.kept()[name] == files[name] for name in still)


@dataclass(frozen=True)
class Answer:
    """What came over the wire."""

    status: int
    headers: Mapping[str, str]
    body: bytes


def ask(address: str, method: str = "GET", **headers: str) -> Answer:
    """Ask as a program does: nothing is sent but what is named here."""
    parts = urlsplit(address)
    wire = http.client.HTTPConnection(parts.netloc, timeout=30)
    try:
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        wire.request(method, parts.path, headers={"Accept-Encoding": "", **named})
        answer = wire.getresponse()
        return Answer(answer.status, dict(answer.headers), answer.read())
    finally:
        wire.close()


def test_the_file_comes_plain_and_packed_and_once(link: Link) -> None:
    plain = ask(link.address)
    packed = ask(link.address, Accept_Encoding="gzip, deflate")
    head = ask(link.address, "HEAD")
    assert [plain.status, packed.status, head.status] == [200] * 3
    assert faults_of(plain.body) == []
    assert gzip.decompress(packed.body) == plain.body
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert head.body == b""
    assert head.headers["ETag"] == packed.headers["ETag"] == plain.headers["ETag"]
    for stamp, said in (
        ("If-None-Match", "ETag"),
        ("If-Modified-Since", "Last-Modified"),
    ):
        again = ask(link.address, **{stamp: plain.headers[said]})
        assert (again.status, again.body) == (304, b"")


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE", "PROPFIND"])
def test_a_program_cannot_write_into_the_file(link: Link, method: str) -> None:
    before = ask(link.address).body
    assert ask(link.address, method).status == 405
    assert ask(link.address).body == before


def test_a_wrong_address_and_an_ended_link_say_no_more_than_that(link: Link) -> None:
    folder, _, _ = link.address.rpartition("/")
    unknown = ask(f"{folder}/{'x' * 43}.ics")
    end_link(link.key)
    ended = ask(link.address)
    assert (unknown.status, ended.status) == (404, 410)
    assert unknown.body == ended.body == b""
