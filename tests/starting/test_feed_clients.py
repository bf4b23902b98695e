"""Real calendar programs subscribe to a link on this machine, and keep up with it."""

from __future__ import annotations

import gzip
import http.client
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from pytest_django.live_server_helper import LiveServer

from starting.writes.links import end_link
from starting.writes.publish import published
from tests.make import make_plan
from tests.starting.line_checker import faults_of
from tests.starting.showing import Calendar, ShownEntry
from tests.starting.subscribing import Link, make_subscribed


@pytest.fixture
def link(live_server: LiveServer) -> Link:
    return make_subscribed(live_server.url, as_tasks=False)


@pytest.fixture
def subscriber(link: Link, tmp_path: Path) -> Calendar:
    subscriber = Calendar(tmp_path)
    subscriber.subscribe(link.address)
    return subscriber


def test_a_subscriber_sees_every_entry_on_its_one_day(
    link: Link, subscriber: Calendar
) -> None:
    make_plan(link.horse)
    link.plan()
    subscriber.sync()
    entries = [revised.entry for revised in published(link.horse.yard)]
    assert len(entries) > 20
    assert {entry.forecast for entry in entries} == {True, False}
    assert subscriber.shown() == {
        entry.title: ShownEntry(
            on=entry.on,
            until=entry.on,
            status="TENTATIVE" if entry.forecast else "CONFIRMED",
        )
        for entry in entries
    }


@dataclass(frozen=True)
class Answer:
    """What came over the wire."""

    status: int
    headers: Mapping[str, str]
    body: bytes


def ask(address: str, method: str = "GET", **headers: str) -> Answer:
    """Ask as a program does: nothing is sent but what is named here."""
    parts = urlsplit(address)
    wire = http.client.HTTPConnection(parts.netloc, timeout=600)
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
