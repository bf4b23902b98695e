"""What is due in a week, gathered where a yard has many horses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.diary import EntryKind

FEW: Final = 8  # ours: up to so many entries each has a row of its own
FORMS: Final = ("/measure/", "/try-on/")


@dataclass(frozen=True, slots=True, kw_only=True)
class DayEntry:
    """One entry of the diary, as a row."""

    on: date
    kind: EntryKind
    horse: str
    title: str
    text: str
    path: str
    forecast: bool
    overdue: bool

    @property
    def to_write(self) -> bool:
        """Whether it leads to a form: not for those who only read."""
        return self.path.endswith(FORMS)

    @property
    def what(self) -> str:
        """The title without the horse; of measuring, without what is measured."""
        act, _, thing = self.title.partition(f" {self.horse}: ")
        if not thing:
            return self.title
        act = act.removesuffix(" for")
        return act if self.kind == "measure" else f"{act}: {thing}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What is to be done on one day for some horses, by name."""

    on: date
    what: str
    entries: tuple[DayEntry, ...]

    @property
    def one(self) -> DayEntry | None:
        """The only entry, where there is but one."""
        return self.entries[0] if len(self.entries) == 1 else None


def gathered(entries: Sequence[DayEntry]) -> tuple[Gathered, ...]:
    """Return the entries in their order; of many, those alike on one day as one row."""
    few = len(entries) <= FEW
    found: dict[tuple[object, ...], list[DayEntry]] = {}
    for place, one in enumerate(entries):
        key = (place,) if few else (one.on, one.what)
        found.setdefault(key, []).append(one)
    return tuple(
        Gathered(on=rows[0].on, what=rows[0].what, entries=tuple(rows))
        for rows in found.values()
    )
