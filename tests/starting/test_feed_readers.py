from collections.abc import Callable, Iterable
from datetime import date, timedelta

import icalendar
import pytest
import recurring_ical_events
import vobject
from ical.calendar_stream import IcsCalendarStream

from starting.diary import Entry
from starting.feed import FeedOptions, Revised, render
from tests.starting.line_checker import Seen, faults_of
from tests.starting.making_feed import HEAD, PLAIN, a_yard
from tests.starting.reading_feed import by_ical, by_vobject


def with_link(entry: Entry) -> str:
    return f"{entry.text}\nhttps://yard.example{entry.path}"


def expected(entries: Iterable[Revised], options: FeedOptions = PLAIN) -> list[Seen]:
    return sorted(
        Seen(
            uid=r.uid,
            on=r.entry.on,
            end=r.entry.on + timedelta(days=1),
            title=r.entry.title,
            text=with_link(r.entry),
            sequence=r.sequence + options.revision,
        )
        for r in entries
    )


def by_recurring_ical_events(body: bytes) -> list[Seen]:
    calendar = icalendar.Calendar.from_ical(body)
    events = recurring_ical_events.of(calendar).between((2025, 1, 1), (2030, 1, 1))
    return [
        Seen(
            uid=str(event["UID"]),
            on=event["DTSTART"].dt,
            end=event["DTEND"].dt,
            title=str(event["SUMMARY"]),
            text=str(event["DESCRIPTION"]),
            sequence=int(event["SEQUENCE"]),
        )
        for event in events
    ]


Read = Callable[[bytes], list[Seen]]


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_other_programs_read_every_entry_as_it_is(read: Read) -> None:
    options = FeedOptions(revision=3)
    yard = a_yard()
    assert len(yard) == 12
    assert sorted(read(render(HEAD, yard, options))) == expected(yard, options)


# recurring_ical_events cannot read alarms of whole days
@pytest.mark.parametrize("read", [by_vobject, by_ical])
@pytest.mark.parametrize("alarm", ["day", "eve"])
def test_other_programs_read_entries_with_alarms(read: Read, alarm: str) -> None:
    yard = a_yard()
    body = render(HEAD, yard, FeedOptions(alarm=alarm))
    assert sorted(read(body)) == expected(yard)


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_an_empty_diary_is_a_calendar_without_events(read: Read) -> None:
    body = render(HEAD, (), PLAIN)
    assert read(body) == []
    assert body.startswith(b"BEGIN:VCALENDAR\r\n")
    assert body.endswith(b"\r\nEND:VCALENDAR\r\n")


@pytest.mark.parametrize("read", [by_vobject, by_ical, by_recurring_ical_events])
def test_a_link_may_ask_for_some_kinds_and_horses(read: Read) -> None:
    yard = a_yard()
    care = sorted(read(render(HEAD, yard, FeedOptions(kinds=("care", "get")))))
    assert care == expected(r for r in yard if r.entry.kind in ("care", "get"))
    gannet = sorted(read(render(HEAD, yard, FeedOptions(horses=("gannet",)))))
    assert gannet == expected(r for r in yard if r.entry.key.startswith("gannet/"))
    assert (len(care), len(gannet)) == (4, 6)


def tasks_by_vobject(body: bytes) -> list[tuple[str, date, str, str, int]]:
    calendar = vobject.readOne(body.decode())
    return [
        (
            task.uid.value,
            task.due.value,
            task.summary.value,
            task.description.value,
            int(task.sequence.value),
        )
        for task in calendar.contents["vtodo"]
    ]


def tasks_by_ical(body: bytes) -> list[tuple[str, date, str, str, int]]:
    calendar = IcsCalendarStream.calendar_from_ics(body.decode())
    assert all(task.status == "NEEDS-ACTION" for task in calendar.todos)
    return [
        (
            task.uid or "",
            task.due or date.min,
            task.summary or "",
            task.description or "",
            task.sequence or 0,
        )
        for task in calendar.todos
    ]


@pytest.mark.parametrize("read", [tasks_by_vobject, tasks_by_ical])
@pytest.mark.parametrize("alarm", ["", "eve"])
def test_other_programs_read_every_task_as_it_is(
    read: Callable[[bytes], list[tuple[str, date, str, str, int]]], alarm: str
) -> None:
    yard = a_yard()
    options = FeedOptions(as_tasks=True, alarm=alarm, revision=2)
    body = render(HEAD, yard, options)
    assert faults_of(body) == []
    assert sorted(read(body)) == sorted(
        (r.uid, r.entry.on, r.entry.title, with_link(r.entry), r.sequence + 2)
        for r in yard
    )
