"""Revised entries become the bytes of a calendar file."""

from __future__ import annotations

import gzip
import hashlib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Final

from icalendar import Alarm, Calendar, Event, Todo

from starting.diary import OVERDUE, Entry, EntryKind, horse_key_of
from starting.feed.revision import Revised, whole_seconds
from starting.feed.wire import Text, bytes_of, clean, one_line

PRODID: Final = "-//Longrein//Yard diary//EN"
COLOUR: Final = "saddlebrown"  # a CSS name: leather
REFRESH: Final = timedelta(hours=6)  # ours: clients poll less often, never more
REFRESH_TEXT: Final = "PT6H"
ALARMS: Final[Mapping[str, timedelta]] = {
    "day": timedelta(hours=7),
    "eve": timedelta(hours=-6),  # 18:00 on the day before
}
KIND_WORDS: Final[Mapping[EntryKind, str]] = {
    "measure": "Measuring day",
    "try_on": "Try on",
    "care": "Care",
    "get": "Get tack",
    "stage_opens": "Step opens",
    "stage_starts": "Planned start",
}
_END: Final = b"END:VCALENDAR\r\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedOptions:
    """What one calendar link asks for."""

    alarm: str = ""  # "", "day" (07:00 on the day), "eve" (18:00 the day before)
    kinds: tuple[str, ...] = ()  # empty: every kind
    horses: tuple[str, ...] = ()  # horses' keys, not names; empty: every horse
    plain_titles: bool = False  # the title says the kind only, no horse
    as_tasks: bool = False  # to-dos with a day, not events
    revision: int = 0
    changed: datetime | None = None  # when the options last changed

    def __post_init__(self) -> None:
        """Check the switch of the alarm.

        Raises:
            ValueError: an alarm that is not known.
        """
        if self.alarm and self.alarm not in ALARMS:
            raise ValueError(f"alarm is {self.alarm!r}, may be '', {', '.join(ALARMS)}")


class TaskOnADay(Todo):
    """A to-do, its lines in the order of an event's."""

    canonical_order = Event.canonical_order  # type: ignore[assignment] # None there


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedHead:
    """What stands at the head of the file."""

    name: str
    description: str
    site_url: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """A calendar file, and the keys of entries that could not be written.

    ``otherwise``: an event of the last file is written otherwise now, in the same
    revision.
    """

    body: bytes
    skipped: tuple[str, ...] = ()
    otherwise: bool = False


def render(head: FeedHead, entries: Sequence[Revised], options: FeedOptions) -> bytes:
    """Return the whole calendar file, UTF-8 with CRLF line ends."""
    return render_all(head, entries, options).body


def render_all(
    head: FeedHead, entries: Sequence[Revised], options: FeedOptions
) -> Rendered:
    """Return the whole calendar file; an entry that cannot be written is left out."""
    events: list[bytes] = []
    skipped: list[str] = []
    for revised in wanted(entries, options):
        event = try_event(revised, options, head)
        if event is None:
            skipped.append(revised.entry.key)
        else:
            events.append(event)
    return Rendered(body=splice(render_head(head), events), skipped=tuple(skipped))


def try_event(revised: Revised, options: FeedOptions, head: FeedHead) -> bytes | None:
    """Return one event or task, or nothing where it cannot be written."""
    try:
        return render_event(revised, options, head)
    except Exception:  # whatever is wrong with one entry, the others are served
        return None


def wanted(entries: Iterable[Revised], options: FeedOptions) -> list[Revised]:
    """Return the entries that a link asks for, by day and key."""
    chosen = (
        revised
        for revised in entries
        if (not options.kinds or revised.entry.kind in options.kinds)
        and (not options.horses or horse_key_of(revised.entry.key) in options.horses)
    )
    return sorted(chosen, key=lambda revised: (revised.entry.on, revised.entry.key))


def splice(head_bytes: bytes, events: Iterable[bytes]) -> bytes:
    """Return the calendar file of a rendered head and rendered events."""
    return b"".join((head_bytes, *events, _END))


@lru_cache(maxsize=256)  # a yard is published again and again
def render_head(head: FeedHead) -> bytes:
    """Return the calendar file up to its first event.

    It has no METHOD (a snapshot, no invitation), no UID (some programs then take
    all events for one) and no SOURCE (that would write the secret address).
    """
    calendar = Calendar()
    name, description = Text(one_line(head.name)), Text(clean(head.description))
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODID)
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)
    calendar.add("description", description)
    calendar.add("x-wr-caldesc", description)
    calendar.add("color", COLOUR)
    calendar.add("refresh-interval", REFRESH, {"VALUE": "DURATION"})
    calendar.add("x-published-ttl", REFRESH_TEXT)
    return bytes_of(calendar).removesuffix(_END)


@lru_cache(maxsize=128)  # the links of a yard ask for the same events
def render_event(revised: Revised, options: FeedOptions, head: FeedHead) -> bytes:
    """Return one VEVENT, or VTODO where tasks are asked for, folded, with line ends.

    It depends on its arguments only, so it may be kept and spliced again.

    Raises:
        ValueError: a time without a zone, or an address that holds line ends.
        OverflowError: the last day that a date can hold, which has no day after it.
    """
    entry = revised.entry
    event = _task(entry) if options.as_tasks else _event(revised)
    title = Text(_title(entry, options))
    _add_revision(event, revised, options)
    event.add("class", "PRIVATE")
    address = _address(entry, options, head)
    event.add("summary", title)
    event.add("description", Text(_text_and_link(entry, options, address)))
    event.add("url", address)
    event.add("categories", [KIND_WORDS[entry.kind]])
    if options.alarm:
        # counted from the start of an event; a task has its day as its end only
        related = {"RELATED": "END"} if options.as_tasks else {}
        event.add_component(_alarm(ALARMS[options.alarm], title, related))
    return bytes_of(event)


def _event(revised: Revised) -> Event:
    entry, event = revised.entry, Event()
    event.add("dtstart", entry.on)
    event.add("dtend", entry.on + timedelta(days=1))  # the first day after it
    event.add("status", "TENTATIVE" if entry.forecast else "CONFIRMED")
    event.add("transp", "TRANSPARENT")  # the day stays free
    for uid in revised.after_uids:
        event.add("related-to", uid, {"RELTYPE": "DEPENDS-ON"})
    return event


def _task(entry: Entry) -> Todo:
    """A relation would nest tasks where a program knows no DEPENDS-ON: it has none."""
    task = TaskOnADay()
    task.add("due", entry.on)
    task.add("status", "NEEDS-ACTION")  # a task cannot be TENTATIVE
    return task


def _add_revision(event: Event | Todo, revised: Revised, options: FeedOptions) -> None:
    """Without METHOD, DTSTAMP equals LAST-MODIFIED (RFC 5545 section 3.8.7.2)."""
    sequence, changed = revision_of(revised, options)
    event.add("uid", revised.uid)
    event.add("dtstamp", changed)
    event.add("last-modified", changed)
    event.add("created", whole_seconds(revised.created))
    event.add("sequence", sequence)


def revision_of(revised: Revised, options: FeedOptions) -> tuple[int, datetime]:
    """Return an entry's SEQUENCE and LAST-MODIFIED in one link's file."""
    changed = whole_seconds(revised.changed)
    if options.changed:  # some programs look at this only, not at SEQUENCE
        changed = max(changed, whole_seconds(options.changed))
    return revised.sequence + options.revision, changed


def _alarm(trigger: timedelta, title: Text, related: Mapping[str, str]) -> Alarm:
    """Return an alarm counted from midnight where the reader is."""
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", title)
    alarm.add("trigger", trigger, dict(related))
    return alarm


def _title(entry: Entry, options: FeedOptions) -> str:
    if not options.plain_titles:
        return one_line(entry.title)
    late = OVERDUE if entry.title.endswith(OVERDUE) else ""
    return KIND_WORDS[entry.kind] + late


def _text_and_link(entry: Entry, options: FeedOptions, address: str) -> str:
    """Return the text and the page's address: many calendars show no URL."""
    return "\n".join(line for line in (_text(entry, options), address) if line)


def _text(entry: Entry, options: FeedOptions) -> str:
    """Return the text; a plain one says "the horse" for every name it is told of."""
    text = clean(entry.text)
    names = {clean(name) for name in (entry.horse, *entry.others)} - {""}
    if not options.plain_titles or not names:
        return text
    longest_first = sorted(names, key=lambda name: (-len(name), name))
    either = "|".join(re.escape(name) for name in longest_first)
    plain = re.sub(rf"(?<!\w)(?:{either})(?!\w)", "the horse", text)
    return re.sub(r"(^|[.] )the horse", r"\1The horse", plain, flags=re.MULTILINE)


def _address(entry: Entry, options: FeedOptions, head: FeedHead) -> str:
    """Return the page's address; a plain entry leads to the site only."""
    path = "/" if options.plain_titles else entry.path
    return head.site_url.rstrip("/") + path


def weak_etag(body: bytes) -> str:
    """Return the ETag of a body; weak, as plain and gzipped bytes share it."""
    return f'W/"{hashlib.sha256(body).hexdigest()[:32]}"'


def gzipped(body: bytes) -> bytes:
    """Return the gzipped body: same body, same bytes."""
    return gzip.compress(body, compresslevel=3, mtime=0)  # 5 takes twice as long
