"""What several horses have on one day, told in one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from starting.dated.rows import DiaryRow

TOGETHER_FROM: Final = 3  # ours: two horses are read as fast one by one


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Rows of one day that differ in their horses only, or one row by itself."""

    rows: tuple[DiaryRow, ...]

    @property
    def first(self) -> DiaryRow:
        """The row whose task, sign and state are those of all."""
        return self.rows[0]

    @property
    def is_one(self) -> bool:
        """Whether it is one row by itself."""
        return len(self.rows) == 1


def together(rows: Sequence[DiaryRow]) -> tuple[Together, ...]:
    """Return a day's rows, those told in one line where the first of them stood."""
    alike: dict[tuple[str, str], list[DiaryRow]] = {}
    for row in rows:
        alike.setdefault((row.short, row.standing), []).append(row)
    told: list[tuple[DiaryRow, ...]] = []
    for same in alike.values():
        at_once = len({row.horse_key for row in same}) >= TOGETHER_FROM
        told += [tuple(same)] if at_once else [(row,) for row in same]
    order = {row.href: place for place, row in enumerate(rows)}
    told.sort(key=lambda of: order[of[0].href])
    return tuple(Together(rows=of) for of in told)
