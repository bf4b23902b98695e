"""An entry's text, parted again into its reason, what is done, and by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from starting.diary import (
    BRING,
    FORECAST,
    NEVER_PERMISSION,
    NOTEBOOK,
    Entry,
    said_in_title,
)
from starting.settling import NOT_DONE

NEXT: Final = "Next: "
WHO: Final = "Who must be there: "
WORN: Final = "What must be worn: "
ASK: Final = "Ask on the day: "
_SAID_ELSEWHERE: Final = frozenset({FORECAST, NOTEBOOK, NEVER_PERMISSION, NOT_DONE})


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


def short_title(entry: Entry) -> str:
    """Return the title without the horse; of measuring, without what is measured."""
    if entry.kind == "measure":
        return "measure"
    return said_in_title(entry.title, entry.horse)
