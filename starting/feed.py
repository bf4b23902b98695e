"""Diary entries become iCalendar bytes: same entries, same bytes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from starting.diary import Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Revised:
    """An entry with its revision: what SEQUENCE, CREATED and LAST-MODIFIED say."""

    entry: Entry
    uid: str
    sequence: int
    created: datetime
    changed: datetime
    digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedOptions:
    """What one calendar link asks for."""

    alarm: str = ""  # "", "day" (07:00 on the day), "eve" (18:00 the day before)
    kinds: tuple[str, ...] = ()  # empty: every kind
    horses: tuple[str, ...] = ()  # empty: every horse
    plain_titles: bool = False  # the title says the kind only, no horse
    revision: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedHead:
    """What stands at the head of the file."""

    name: str
    description: str
    site_url: str


def digest(entry: Entry) -> str:
    """Return the SHA-256 (hex) of what is rendered, without its revision."""
    raise NotImplementedError


def render(head: FeedHead, entries: Sequence[Revised], options: FeedOptions) -> bytes:
    """Return the whole calendar file, UTF-8 with CRLF line ends."""
    raise NotImplementedError
