import gzip
import re
from dataclasses import replace
from datetime import date, timedelta

import pytest

from starting.diary import OVERDUE
from starting.feed import (
    FeedOptions,
    gzipped,
    render,
    render_all,
    render_event,
    render_head,
    splice,
    weak_etag,
)
from tests.starting.making_feed import (
    HEAD,
    NOW,
    PLAIN,
    a_yard,
    make_entry,
    publish,
    uid_of,
)


def lines_of(body: bytes) -> list[str]:
    return body.decode().replace("\r\n ", "").split("\r\n")


def test_an_event_says_all_that_a_calendar_asks() -> None:
    entry = make_entry(title="Planned start", text="Ask; then go, or not.", path="/a/")
    body = render_event(publish(entry)[0], PLAIN, HEAD)
    uid, after = uid_of(entry.key), uid_of("pennyroyal/care/teeth")
    assert sorted(lines_of(body)) == sorted(
        [
            "BEGIN:VEVENT",
            f"UID:{uid}",
            "DTSTAMP:20251201T063000Z",
            "LAST-MODIFIED:20251201T063000Z",
            "CREATED:20251201T063000Z",
            "SEQUENCE:0",
            "STATUS:CONFIRMED",
            "DTSTART;VALUE=DATE:20251231",
            "DTEND;VALUE=DATE:20260101",
            "TRANSP:TRANSPARENT",
            "CLASS:PRIVATE",
            "SUMMARY:Planned start",
            r"DESCRIPTION:Ask\; then go\, or not.\nhttps://yard.example/a/",
            "URL:https://yard.example/a/",
            "CATEGORIES:Planned start",
            f"RELATED-TO;RELTYPE=DEPENDS-ON:{after}",
            "END:VEVENT",
            "",
        ]
    )


def test_a_task_says_its_day_and_that_it_is_to_be_done() -> None:
    entry = make_entry(title="Planned start", text="Ask.", path="/a/", forecast=True)
    options = FeedOptions(as_tasks=True, alarm="day")
    assert sorted(lines_of(render_event(publish(entry)[0], options, HEAD))) == sorted(
        [
            "BEGIN:VTODO",
            f"UID:{uid_of(entry.key)}",
            "DTSTAMP:20251201T063000Z",
            "LAST-MODIFIED:20251201T063000Z",
            "CREATED:20251201T063000Z",
            "SEQUENCE:0",
            "STATUS:NEEDS-ACTION",
            "DUE;VALUE=DATE:20251231",
            "CLASS:PRIVATE",
            "SUMMARY:Planned start",
            r"DESCRIPTION:Ask.\nhttps://yard.example/a/",
            "URL:https://yard.example/a/",
            "CATEGORIES:Planned start",
            "BEGIN:VALARM",
            "ACTION:DISPLAY",
            "DESCRIPTION:Planned start",
            "TRIGGER;RELATED=END:PT7H",
            "END:VALARM",
            "END:VTODO",
            "",
        ]
    )


def test_a_forecast_is_tentative() -> None:
    body = render(HEAD, publish(make_entry(forecast=True)), PLAIN)
    assert "STATUS:TENTATIVE" in lines_of(body)


def test_the_head_names_the_calendar_and_invites_nobody() -> None:
    assert sorted(lines_of(render_head(HEAD))) == sorted(
        [
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:-//Longrein//Yard diary//EN",
            "CALSCALE:GREGORIAN",
            r"NAME:Long Meadow\; diary\, ½",
            r"X-WR-CALNAME:Long Meadow\; diary\, ½",
            "DESCRIPTION:The site is always right.",
            "X-WR-CALDESC:The site is always right.",
            "COLOR:saddlebrown",
            "REFRESH-INTERVAL;VALUE=DURATION:PT6H",
            "X-PUBLISHED-TTL:PT6H",
            "",
        ]
    )


@pytest.mark.parametrize("name", ["a\r\nMETHOD:CANCEL", "a\rb", "a\nb", "a\x85b"])
def test_the_name_cannot_write_a_line_of_its_own(name: str) -> None:
    head = replace(HEAD, name=name, description=name)
    assert len(lines_of(render_head(head))) == len(lines_of(render_head(HEAD)))


@pytest.mark.parametrize(("alarm", "trigger"), [("day", "PT7H"), ("eve", "-PT6H")])
def test_an_alarm_rings_where_the_reader_is(alarm: str, trigger: str) -> None:
    lines = lines_of(render(HEAD, publish(make_entry()), FeedOptions(alarm=alarm)))
    assert f"TRIGGER:{trigger}" in lines
    assert lines.count("BEGIN:VALARM") == lines.count("ACTION:DISPLAY") == 1


def test_alarms_are_off_unless_asked_for() -> None:
    assert b"VALARM" not in render(HEAD, a_yard(), PLAIN)


def test_an_unknown_alarm_is_refused() -> None:
    with pytest.raises(ValueError, match="alarm is 'noon', may be '', day, eve"):
        FeedOptions(alarm="noon")


def test_plain_titles_name_no_horse_anywhere() -> None:
    entry = make_entry(title=f"Planned start for Pennyroyal{OVERDUE}")
    body = render(HEAD, publish(entry), FeedOptions(plain_titles=True, alarm="day"))
    lines = lines_of(body)
    assert f"SUMMARY:Planned start{OVERDUE}" in lines
    assert "URL:https://yard.example/" in lines
    assert not re.search("pennyroyal|gannet", "\n".join(lines), re.IGNORECASE)
    assert r"DESCRIPTION:The horse's saddle is free\; so the horse's turn" in "\n".join(
        lines
    )


def test_plain_titles_leave_words_that_hold_a_name() -> None:
    entry = make_entry(horse="Sam", others=(), text="The same with Sam. Sam waits.")
    lines = lines_of(render(HEAD, publish(entry), FeedOptions(plain_titles=True)))
    said = r"The same with the horse. The horse waits.\nhttps://yard.example/"
    assert f"DESCRIPTION:{said}" in lines


def test_changed_options_date_every_event_anew() -> None:
    later = NOW + timedelta(days=1)
    options = FeedOptions(alarm="day", revision=1, changed=later)
    lines = lines_of(render(HEAD, publish(make_entry()), options))
    assert {"SEQUENCE:1", "LAST-MODIFIED:20251202T063000Z"} < set(lines)
    assert {"DTSTAMP:20251202T063000Z", "CREATED:20251201T063000Z"} < set(lines)


@pytest.mark.parametrize(
    "fault", [{"on": date.max}, {"path": "/a\r\nATTACH:b"}, {"kind": "party"}]
)
def test_one_entry_that_cannot_be_written_leaves_the_others(
    fault: dict[str, object],
) -> None:
    yard = a_yard()
    bad = publish(make_entry(key="pennyroyal/care/bad", **fault))
    rendered = render_all(HEAD, (*bad, *yard), PLAIN)
    assert rendered.skipped == ("pennyroyal/care/bad",)
    assert rendered.body == render(HEAD, yard, PLAIN)


def test_kept_events_splice_to_the_same_bytes() -> None:
    yard = sorted(a_yard(), key=lambda r: (r.entry.on, r.entry.key))
    kept = [render_event(revised, PLAIN, HEAD) for revised in yard]
    assert splice(render_head(HEAD), kept) == render(HEAD, yard, PLAIN)


def test_the_etag_is_weak_and_of_the_body_alone() -> None:
    # FIPS 180-4: SHA-256 of "abc" begins with these 32 digits
    assert weak_etag(b"abc") == 'W/"ba7816bf8f01cfea414140de5dae2223"'


def test_gzipped_bytes_are_the_same_each_time_and_much_fewer() -> None:
    body = render(HEAD, a_yard(), PLAIN)
    assert gzip.decompress(gzipped(body)) == body
    assert gzipped(body)[4:8] == bytes(4)  # RFC 1952: the time of writing
    assert len(gzipped(body)) * 4 < len(body)
