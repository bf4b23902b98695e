"""The strict checker of calendar files, and the watch that it keeps in the tests."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from starting.feed import FeedOptions, render, rendering
from tests.starting.line_checker import events_of, faults_of
from tests.starting.making_feed import HEAD, a_yard, make_entry, publish
from tests.starting.reading_feed import all_faults, watched

SOUND = render(HEAD, publish(make_entry(), make_entry(key="g/care/x")), FeedOptions())
ONE = render(HEAD, publish(make_entry(title="Häh, é")), FeedOptions(alarm="day"))
TASK = render(HEAD, publish(make_entry()), FeedOptions(as_tasks=True))


@pytest.mark.parametrize("alarm", ["", "day", "eve"])
@pytest.mark.parametrize("plain_titles", [False, True])
@pytest.mark.parametrize("as_tasks", [False, True])
def test_what_the_site_writes_has_no_fault(
    alarm: str, plain_titles: bool, as_tasks: bool
) -> None:
    options = FeedOptions(
        alarm=alarm, plain_titles=plain_titles, as_tasks=as_tasks, revision=2
    )
    body = render(HEAD, a_yard(), options)
    assert all_faults(body) == []
    assert len(events_of(body)) == 12


def test_a_calendar_without_events_has_no_fault() -> None:
    assert all_faults(render(HEAD, (), FeedOptions())) == []


@pytest.mark.parametrize(
    ("was", "becomes", "fault"),
    [
        (b"STATUS:CONFIRMED\r\n", b"STATUS:CONFIRMED\n", "holds half a line end"),
        (b"STATUS:CONFIRMED\r\n", b"STATUS:CONFIRMED\r\n\r\n", "is blank"),
        (b"END:VCALENDAR\r\n", b"END:VCALENDAR", "the last line has no end"),
        (b"BEGIN:VCALENDAR", b" BEGIN:VCALENDAR", "goes on from nothing"),
        (b"SUMMARY:H", b"SUMMARY:" + b"H" * 70, "octets"),
        ("ä".encode(), "ä".encode()[:1] + b"\r\n " + "ä".encode()[1:], "a character"),
        (b"\\,", b"\\\r\n ,", "inside an escape"),
        (b"SUMMARY:H", b"SUMMARY:\x07", "control character"),
        (b"SUMMARY:H", b"SUMMARY:\xef\xbb\xbf", "control character"),
        (b"\\,", b",", "NAME is"),
        (b"\\,", b"\\x", "NAME is"),
        (b"SUMMARY:H", b"SUMMARY H", "is no property"),
        (b"UID:", b"X-UID:", "VEVENT has 0 UID"),
        (b"DTSTAMP:", b"X-DTSTAMP:", "VEVENT has 0 DTSTAMP"),
        (b"SEQUENCE:0", b"SEQUENCE:0\r\nSEQUENCE:1", "VEVENT has 2 SEQUENCE"),
        (b"SEQUENCE:0", b"SEQUENCE:-1", "SEQUENCE is"),
        (b"CALSCALE", b"METHOD:PUBLISH\r\nCALSCALE", "VCALENDAR has a METHOD"),
        (b"CALSCALE", b"UID:a\r\nCALSCALE", "VCALENDAR has a UID"),
        (b"DTEND;VALUE=DATE:20260101", b"DTEND;VALUE=DATE:20251231", "not after its"),
        (b"DTEND;VALUE=DATE:20260101", b"DTEND;VALUE=DATE:20260132", "DTEND is"),
        (b"DTEND;VALUE=DATE:20260101", b"DTEND:20260101", "DTEND says"),
        (b"DTSTAMP:20251201T063000Z", b"DTSTAMP:20251201T063000", "DTSTAMP is"),
        (b"DTSTAMP:20251201T063000Z", b"DTSTAMP:20251201T063001Z", "LAST-MODIFIED"),
        (b"CREATED:20251201T063000Z", b"CREATED:20251201T063001Z", "before it was"),
        (b"STATUS:CONFIRMED", b"STATUS:CANCELLED", "STATUS is"),
        (b"URL:https://", b"URL:file://", "URL is"),
        (b"TRIGGER:PT7H", b"TRIGGER:7", "TRIGGER is"),
        (b"END:VALARM", b"END:VEVENT", "ends what did not begin"),
        (b"BEGIN:VALARM", b"BEGIN:VTODO", "VTODO stands inside VEVENT"),
        (b"END:VCALENDAR\r\n", b"", "VCALENDAR does not end"),
    ],
)
def test_what_is_broken_is_named(was: bytes, becomes: bytes, fault: str) -> None:
    assert was in ONE
    found = faults_of(ONE.replace(was, becomes, 1))
    assert any(fault in one for one in found), found


def test_two_events_with_one_name_are_found() -> None:
    uids = [seen.uid.encode() for seen in events_of(SOUND)]
    assert any("2 events" in f for f in faults_of(SOUND.replace(uids[0], uids[1])))


def test_two_calendars_are_found() -> None:
    assert "it is not one calendar" in faults_of(ONE + ONE.replace(b"UID:", b"UID:a"))


@pytest.mark.parametrize("body", [ONE, TASK])
def test_a_file_that_another_program_reads_otherwise_is_found(
    monkeypatch: pytest.MonkeyPatch, body: bytes
) -> None:
    monkeypatch.setattr("tests.starting.reading_feed.READERS", (lambda _: [],))
    (fault,) = all_faults(body)
    assert fault.endswith("reads 0 events of 1")


def test_the_watch_sees_a_fault_in_any_file_that_is_made(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def broken(head_bytes: bytes, events: Iterable[bytes]) -> bytes:
        return b"".join((head_bytes, *events))

    monkeypatch.setattr(rendering, "splice", broken)
    with watched() as watch:
        render(HEAD, a_yard(), FeedOptions())
    assert watch.faults == ["VCALENDAR does not end"]
