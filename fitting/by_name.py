"""Names in the order a person looks for them: peg 2 before peg 10."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, Final, TypeVar

Order = tuple[tuple[str, float], ...]
Row = TypeVar("Row", bound=tuple[Any, ...])
# A size may be written 4.5 or 4,5: then 4.25 stands before it.
_NUMBER: Final = re.compile(r"(\d+(?:[.,]\d+)?)")
_NONE: Final = -1.0


@lru_cache(maxsize=4096)  # each is put in order in many lists
def by_name(name: str) -> Order:
    """Return what orders a name: its words without case, its numbers by their size."""
    words = _NUMBER.split(" ".join(name.casefold().split()))
    numbers = [float(number.replace(",", ".")) for number in words[1::2]]
    return tuple(zip(words[::2], [*numbers, _NONE], strict=True))


def in_order(rows: Iterable[Row]) -> list[Row]:
    """Return rows whose name stands first, in the order of their names."""
    return sorted(rows, key=lambda row: by_name(row[0]))
