"""An entry's text, parted again into its reason, what is done, and by whom."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from starting.diary import (
    BRING,
    FORECAST,
    NEVER_PERMISSION,
    NOTEBOOK,
    OVERDUE,
    Entry,
    EntryKind,
)
from starting.settling import NOT_DONE

NEXT: Final = "Next: "
WHO: Final = "Who must be there: "
WORN: Final = "What must be worn: "
ASK: Final = "Ask on the day: "
_SAID_ELSEWHERE: Final = frozenset({FORECAST, NOTEBOOK, NEVER_PERMISSION, NOT_DONE})
# How a kind of task is said in the little room of a month's day.
_SHORT: Final[Mapping[EntryKind, str]] = {
    "measure": "measure",
    "try_on": "try on {what}",
    "care": "{what}",
    "get": "get {what}",
    "stage_opens": "{what} opens",
    "stage_starts": "{what} starts",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What an entry says, part by part; a part that is empty was not said."""

    reason: str
    do: str
    who: str
    worn: str
    asks: tuple[str, ...]
    cautions: tuple[str, ...]
    of_a_step: bool  # then an entry is never permission


def told_of(entry: Entry) -> Told:
    """Return the parts of an entry's text."""
    lines = entry.text.split("\n")
    at = next((n for n, line in enumerate(lines) if line.startswith(NEXT)), len(lines))
    rest = lines[at + 1 :]
    marks = (WHO, WORN, ASK, BRING)
    do = lines[at].removeprefix(NEXT) if at < len(lines) else ""
    return Told(
        reason=" ".join(lines[:at]),
        do=_begun(do),
        who=_after(WHO, rest),
        worn=_after(WORN, rest),
        asks=tuple(_asked(_after(ASK, rest))),
        cautions=tuple(
            line
            for line in rest
            if line not in _SAID_ELSEWHERE and not line.startswith(marks)
        ),
        of_a_step=NEVER_PERMISSION in rest,
    )


def _after(mark: str, lines: list[str]) -> str:
    found = (line.removeprefix(mark) for line in lines if line.startswith(mark))
    return _begun(next(found, ""))


def _asked(said: str) -> Iterator[str]:
    if said:
        yield from (_begun(one) for one in said.removesuffix(".").split("; "))


def _begun(said: str) -> str:
    """Return words as the beginning of a sentence."""
    return said[:1].upper() + said[1:]


def what_of(entry: Entry) -> str:
    """Return what an entry's title names after the horse."""
    title = entry.title.removesuffix(OVERDUE)
    return title.partition(f" {entry.horse}: ")[2] or title


def short_title(entry: Entry) -> str:
    """Return the title as short as it can be, without the horse."""
    if entry.title.startswith("Give back"):
        return f"give back {what_of(entry)}"
    return _SHORT[entry.kind].format(what=what_of(entry))
