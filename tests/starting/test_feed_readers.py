from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import NamedTuple

import icalendar
import pytest
import recurring_ical_events
import vobject
from ical.calendar_stream import IcsCalendarStream

from starting.diary import Entry, Step, Task, entry_uid, stage_starts_entry
from starting.feed import KIND_WORDS, FeedHead, FeedOptions, Revised, render, revise

NOW = datetime(2025, 12, 1, 6, 30, tzinfo=UTC)
HEAD = FeedHead(
    name="Long Meadow; diary, ½",
    description="The site is always right.",
    site_url="https://yard.example/",
)
ASTRIDE = Step(key="astride", name="Astride, standing", work="mounted", people=2)
PLAIN = FeedOptions()


class Seen(NamedTuple):
    """What a calendar program makes of one event."""

    uid: str
    on: date
    end: date
    title: str
    text: str
    sequence: int


def uid_of(key: str) -> str:
    return entry_uid("Long Meadow", key, "yard.example")


def make_entry(**only_what_matters: object) -> Entry:
    task = Task(
        horse="Pennyroyal",
        horse_key="pennyroyal",
        on=date(2025, 12, 31),
        because="Gannet's saddle is free; so Pennyroyal's turn is now, at 36 months.",
        path="/horses/pennyroyal/",
        after=("pennyroyal/care/teeth",),
        others=("Gannet",),
    )
    return replace(stage_starts_entry(task, ASTRIDE), **only_what_matters)  # type: ignore[arg-type]


def publish(*entries: Entry) -> tuple[Revised, ...]:
    return revise((), entries, uid_of=uid_of, now=NOW)


def a_yard() -> tuple[Revised, ...]:
    days = [date(2025, 12, 31), date(2026, 2, 28), date(2028, 2, 29)]
    entries = [
        make_entry(key=f"{horse}/{kind}/x", kind=kind, on=on, forecast=on.year > 2025)
        for horse in ("pennyroyal", "gannet")
        for kind in KIND_WORDS
        for on in days[: 1 + (horse == "gannet")][-1:]
    ]
    return tuple(
        replace(revised, sequence=n) for n, revised in enumerate(publish(*entries))
    )


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
