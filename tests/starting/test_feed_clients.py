"""Real calendar programs subscribe to a link on this machine, and keep up with it."""

from __future__ import annotations

import gzip
import http.client
import json
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

import pytest
from django.urls import reverse
from django.utils import timezone
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse
from starting.models import CalendarKey, CareVisit
from starting.writes import replan, today_in
from starting.writes.links import end_link, make_link
from starting.writes.publish import published
from tests.make import make_horse, make_plan, make_yard
from tests.starting.line_checker import faults_of

PROGRAMS = Path(sys.executable).parent
SYNCING = """
[general]
status_path = "{folder}/status"
[pair yard]
a = "here"
b = "there"
collections = null
[storage here]
type = "filesystem"
path = "{folder}/kept"
fileext = ".ics"
[storage there]
type = "http"
url = "{address}"
"""
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


@dataclass(frozen=True)
class Subscriber:
    """A keeper's own machine: a program that fetches the file, one that shows it."""

    folder: Path

    def sync(self) -> str:
        """Fetch the file; return what changed here, in the program's words."""
        said = self._run("vdirsyncer", "-c", str(self.folder / "syncing"), "sync")
        return "\n".join(line for line in said.splitlines() if "Syncing" not in line)

    def subscribe(self) -> None:
        self._run("vdirsyncer", "-c", str(self.folder / "syncing"), "discover")
        self.sync()

    def shown(self) -> dict[str, Shown]:
        """Return the entries as they are shown, by title."""
        fields = ("title", "start-date", "end-date", "status")
        asked = [word for field in fields for word in ("--json", field)]
        since = (timezone.now().date() - timedelta(days=30)).isoformat()
        config = str(self.folder / "showing")
        said = self._run("khal", "-c", config, "list", *asked, since, "800d")
        rows = [row for line in said.splitlines() for row in json.loads(line)]
        entries = {row["title"]: _shown(row) for row in rows}
        assert len(entries) == len(rows), "an entry is shown on more than one day"
        return entries

    def kept(self) -> dict[str, int]:
        """Return the files kept here, and when each was written."""
        files = (self.folder / "kept").glob("*.ics")
        return {file.name: file.stat().st_mtime_ns for file in files}

    def _run(self, program: str, *arguments: str) -> str:
        own = {"HOME": str(self.folder), "LC_ALL": "C.UTF-8", "NO_PROXY": "*"}
        done = subprocess.run(
            [PROGRAMS / program, *arguments],
            env={"PATH": os.environ["PATH"], **own},
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout + done.stderr


@dataclass(frozen=True)
class Link:
    """A yard's calendar link, and what stands behind it."""

    horse: Horse
    key: CalendarKey
    address: str

    def visit(self, kind: str, in_days: int) -> None:
        """Name the day of the horse's next visit of a kind."""
        today = today_in(self.horse.yard)
        CareVisit.objects.update_or_create(
            horse=self.horse,
            kind=kind,
            on=today - timedelta(days=30),
            defaults={"next_due": today + timedelta(days=in_days)},
        )

    def plan(self) -> None:
        replan(self.horse.yard, today_in(self.horse.yard))


@pytest.fixture
def link(live_server: LiveServer) -> Link:
    horse = make_horse(make_yard(name="Low Fold; é"), name="Tansy", plan=False)
    key, secret = make_link(horse.yard, label="Phone", options={"alarm": "day"})
    address = live_server.url + reverse("calendar", args=[secret])
    link = Link(horse=horse, key=key, address=address)
    for kind, in_days in (("vet", 40), ("vaccination", 12), ("worming", 20)):
        link.visit(kind, in_days)
    link.plan()
    return link


@pytest.fixture
def subscriber(link: Link, tmp_path: Path) -> Subscriber:
    (tmp_path / "kept").mkdir()
    for name, words in (("syncing", SYNCING), ("showing", SHOWING)):
        told = words.format(folder=tmp_path, address=link.address)
        (tmp_path / name).write_text(told, encoding="utf-8")
    subscriber = Subscriber(tmp_path)
    subscriber.subscribe()
    return subscriber


def test_a_subscriber_sees_every_entry_on_its_one_day(
    link: Link, subscriber: Subscriber
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
    link: Link, subscriber: Subscriber
) -> None:
    before = subscriber.kept()
    link.plan()
    assert len(before) == link.horse.yard.diary.count()
    assert subscriber.sync() == ""
    assert subscriber.kept() == before


def test_what_moved_came_or_went_is_seen_at_the_next_sync(
    link: Link, subscriber: Subscriber
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
