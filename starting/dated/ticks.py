"""Ticks of plain tasks, for which there is no record."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from starting.diary import Entry

TICK_HOLDS_DAYS: Final = 28  # ours: a day set further on is asked about once more


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticked:
    """A task that was ticked, and the day it stood on then."""

    key: str
    due_on: date


def without_ticked(
    entries: Sequence[Entry], ticked: Iterable[Ticked]
) -> tuple[Entry, ...]:
    """Return the entries that are not ticked; put off by far, one is asked again."""
    until: dict[str, date] = {}
    for tick in ticked:
        holds = tick.due_on + timedelta(days=TICK_HOLDS_DAYS)
        until[tick.key] = max(holds, until.get(tick.key, holds))
    return tuple(e for e in entries if e.key not in until or e.on > until[e.key])
