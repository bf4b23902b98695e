"""What is due in a week, gathered where a yard has many horses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.dated import DiaryRow

FEW: Final = 8  # ours: up to so many entries each has a row of its own


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What is to be done on one day for some horses, by name."""

    on: date
    what: str
    entries: tuple[DiaryRow, ...]

    @property
    def one(self) -> DiaryRow | None:
        """The only entry, where there is but one."""
        return self.entries[0] if len(self.entries) == 1 else None


def gathered(entries: Sequence[DiaryRow]) -> tuple[Gathered, ...]:
    """Return the entries in their order; of many, those alike on one day as one row."""
    few = len(entries) <= FEW
    found: dict[tuple[object, ...], list[DiaryRow]] = {}
    for place, one in enumerate(entries):
        key = (place,) if few else (one.on, one.what)
        found.setdefault(key, []).append(one)
    return tuple(
        Gathered(on=rows[0].on, what=rows[0].what, entries=tuple(rows))
        for rows in found.values()
    )
