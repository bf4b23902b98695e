"""What other programs make of a calendar file, and a watch over every file made."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import date
from unittest import mock

import vobject
from ical.calendar_stream import IcsCalendarStream
from ical.event import Event
from ical.todo import Todo

from starting.feed import rendering
from tests.starting.line_checker import Seen, events_of, faults_of


def by_vobject(body: bytes) -> list[Seen]:
    calendar = vobject.readOne(body.decode())
    kept = calendar.contents
    return [
        Seen(
            uid=event.uid.value,
            on=(event.due if event.name == "VTODO" else event.dtstart).value,
            end=(event.due if event.name == "VTODO" else event.dtend).value,
            title=event.summary.value,
            text=event.description.value,
            sequence=int(event.sequence.value),
        )
        for event in (*kept.get("vevent", []), *kept.get("vtodo", []))
    ]


def by_ical(body: bytes) -> list[Seen]:
    calendar = IcsCalendarStream.calendar_from_ics(body.decode())
    events = [(event, event.start, event.end) for event in calendar.events]
    tasks = [
        (task, task.due or date.min, task.due or date.min) for task in calendar.todos
    ]
    both: list[tuple[Event | Todo, date, date]] = [*events, *tasks]
    return [
        Seen(
            uid=one.uid or "",
            on=on,
            end=end,
            title=one.summary or "",
            text=one.description or "",
            sequence=one.sequence or 0,
        )
        for one, on, end in both
    ]


READERS: tuple[Callable[[bytes], list[Seen]], ...] = (by_vobject, by_ical)


def all_faults(body: bytes) -> list[str]:
    """Return what the checker finds, and where another program reads otherwise."""
    faults = faults_of(body)
    if faults:
        return faults
    ours = sorted(events_of(body))
    return [fault for read in READERS for fault in _otherwise(read, body, ours)]


def _otherwise(
    read: Callable[[bytes], list[Seen]], body: bytes, ours: list[Seen]
) -> Iterator[str]:
    try:
        theirs = sorted(read(body))
    except Exception as fault:  # whatever another program raises is a fault
        yield f"{read.__name__} cannot read it: {fault!r}"
        return
    for mine, other in zip(ours, theirs, strict=False):
        if mine != other:
            yield f"{read.__name__} reads {other}, not {mine}"
    if len(ours) != len(theirs):
        yield f"{read.__name__} reads {len(theirs)} events of {len(ours)}"


class Watch:
    """Every calendar file that is put together while it looks: each is read once."""

    def __init__(self) -> None:
        self.faults: list[str] = []
        self.bodies: set[bytes] = set()

    def look(self, body: bytes) -> bytes:
        if body not in self.bodies:
            self.bodies.add(body)
            self.faults += all_faults(body)
        return body


@contextmanager
def watched() -> Iterator[Watch]:
    """Read every file made inside; a fault is kept, as a raised one may be caught."""
    watch, splice = Watch(), rendering.splice

    def spliced(head_bytes: bytes, events: Iterable[bytes]) -> bytes:
        return watch.look(splice(head_bytes, events))

    with mock.patch.object(rendering, "splice", spliced):
        yield watch
