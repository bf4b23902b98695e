"""How an entry stands on a day: likely, on a day that is set, due, overdue."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Final, Literal

from starting.diary import OVERDUE, Entry

Standing = Literal["likely", "set", "due", "overdue", "done", "went"]

SIGNS: Final[Mapping[Standing, str]] = {
    "likely": "diary-likely",
    "set": "diary-set",
    "due": "diary-due",
    "overdue": "diary-overdue",
    "done": "diary-done",
    "went": "diary-went",
}


def standing_of(entry: Entry, today: date) -> Standing:
    """Return how a published entry stands; overdue where its title says so."""
    if entry.on > today:
        return "likely" if entry.forecast else "set"
    return "overdue" if entry.title.endswith(OVERDUE) else "due"


def stands_words(entry: Entry, today: date) -> str:
    """Return how an entry stands, in words."""
    standing = standing_of(entry, today)
    if standing in {"likely", "set"}:
        return "likely" if standing == "likely" else "day set"
    if entry.on == today:
        return "due today"
    return f"{standing} since {entry.on.day} {entry.on:%b %Y}"
