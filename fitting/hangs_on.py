"""What hangs on an item or a made-up set, in words, so that no history is lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

SHOWN: Final = 5  # records of a kind; the others are counted; ours


class StillHangsError(ValueError):
    """Something hangs on an item or a set: it is taken down, not deleted."""

    def __init__(self, name: str, hangs: Sequence[HangsOn]) -> None:
        super().__init__(f"{name}: {', '.join(one.said for one in hangs)}")
        self.hangs = tuple(hangs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One record that names an item or a set; ``href``: the page where it is mended."""

    said: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HangsOn:
    """The records of one kind; ``more``: how many are not shown."""

    said: str
    records: tuple[Record, ...]
    more: int


def hangs_on(one: str, many: str, records: Sequence[Record]) -> tuple[HangsOn, ...]:
    """Return the records of a kind with their count in words; nothing if none."""
    if not records:
        return ()
    count = len(records)
    return (
        HangsOn(
            said=f"{count} {one if count == 1 else many}",
            records=tuple(records[:SHOWN]),
            more=max(0, count - SHOWN),
        ),
    )
