from collections.abc import Callable, Iterable
from datetime import date, timedelta
from typing import NamedTuple

import icalendar
import pytest
import recurring_ical_events
import vobject
from ical.calendar_stream import IcsCalendarStream

from starting.feed import FeedOptions, Revised, render
from tests.starting.making_feed import HEAD, PLAIN, a_yard


class Seen(NamedTuple):
    """What a calendar program makes of one event."""

    uid: str
    on: date
    end: date
    title: str
    text: str
    sequence: int


def expected(entries: Iterable[Revised], options: FeedOptions = PLAIN) -> set[Seen]:
    return {
        Seen(
            uid=r.uid,
            on=r.entry.on,
            end=r.entry.on + timedelta(days=1),
            title=r.entry.title,
            text=r.entry.text,
            sequence=r.sequence + options.revision,
        )
        for r in entries
    }


def by_vobject(body: bytes) -> set[Seen]:
    calendar = vobject.readOne(body.decode())
    return {
        Seen(
            uid=event.uid.value,
            on=event.dtstart.value,
            end=event.dtend.value,
            title=event.summary.value,
            text=event.description.value,
            sequence=int(event.sequence.value),
        )
        for event in calendar.contents.get("vevent", [])
    }


def by_ical(body: bytes) -> set[Seen]:
    calendar = IcsCalendarStream.calendar_from_ics(body.decode())
    return {
        Seen(
            uid=event.uid,
            on=event.start,
            end=event.end,
            title=event.summary or "",
            text=event.description or "",
            sequence=event.sequence or 0,
        )
        for event in calendar.events
    }


def by_recurring_ical_events(body: bytes) -> set[Seen]:
    calendar = icalendar.Calendar.from_ical(body)
    events = recurring_ical_events.of(calendar).between((2025, 1, 1), (2030, 1, 1))
    return {
        Seen(
            uid=str(event["UID"]),
            on=event["DTSTART"].dt,
            end=event["DTEND"].dt,
            title=str(event["SUMMARY"]),
            text=str(event["DESCRIPTION"]),
            sequence=int(event["SEQUENCE"]),
        )
        for event in events
    }


Read = Callable[[bytes], set[Seen]]


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_other_programs_read_every_entry_as_it_is(read: Read) -> None:
    options = FeedOptions(revision=3)
    yard = a_yard()
    assert len(yard) == 12
    assert read(render(HEAD, yard, options)) == expected(yard, options)


# recurring_ical_events cannot read alarms of whole days
@pytest.mark.parametrize("read", [by_vobject, by_ical])
@pytest.mark.parametrize("alarm", ["day", "eve"])
def test_other_programs_read_entries_with_alarms(read: Read, alarm: str) -> None:
    yard = a_yard()
    assert read(render(HEAD, yard, FeedOptions(alarm=alarm))) == expected(yard)


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_an_empty_diary_is_a_calendar_without_events(read: Read) -> None:
    body = render(HEAD, (), PLAIN)
    assert read(body) == set()
    assert body.startswith(b"BEGIN:VCALENDAR\r\n")
    assert body.endswith(b"\r\nEND:VCALENDAR\r\n")


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_a_link_may_ask_for_some_kinds_and_horses(read: Read) -> None:
    yard = a_yard()
    care = read(render(HEAD, yard, FeedOptions(kinds=("care", "get"))))
    assert care == expected(r for r in yard if r.entry.kind in ("care", "get"))
    gannet = read(render(HEAD, yard, FeedOptions(horses=("gannet",))))
    assert gannet == expected(r for r in yard if r.entry.key.startswith("gannet/"))
    assert (len(care), len(gannet)) == (4, 6)
