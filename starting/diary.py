"""Outlooks become dated entries of the diary."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

EntryKind = Literal["measure", "try_on", "care", "get", "stage_opens", "stage_starts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One dated entry. ``key`` names the task, not the day: a re-plan moves it."""

    key: str  # e.g. "pennyroyal/stage_starts/roller"
    horse: str
    on: date
    kind: EntryKind
    title: str
    text: str
    forecast: bool
    path: str = ""  # the page it leads to, below the site's address
    due_since: date | None = None  # an entry due keeps its day, then says overdue
    after: tuple[str, ...] = ()  # keys of entries this one depends on


def entry_uid(yard: str, key: str, site_host: str) -> str:
    """Return the UID: a UUID of yard and task, at the public host."""
    raise NotImplementedError


def settle(
    before: Sequence[Entry], now: Sequence[Entry], today: date
) -> tuple[Entry, ...]:
    """Return the entries to publish: forecasts keep still, due ones keep their day."""
    raise NotImplementedError
