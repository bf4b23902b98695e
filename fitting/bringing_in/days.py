"""Days as files write them; the order of day and month is found, never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from typing import Final, Literal

Order = Literal["none", "day", "month", "ask"]

WRITE_A_DAY: Final = "Write 2026-11-25 or 25/11/2026."

_MONTHS: Final = (
    *("january", "february", "march", "april", "may", "june", "july", "august"),
    *("september", "october", "november", "december"),
)
_MOST_MONTHS: Final = 12
_LEAST_LETTERS: Final = 3
_CLOCK: Final = re.compile(r"[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?$", re.ASCII)
_YEAR_FIRST: Final = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", re.ASCII)
_YEAR_LAST: Final = re.compile(r"(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4})", re.ASCII)
_SHORT_YEAR: Final = re.compile(r"\d{1,2}[-/. ]\d{1,2}[-/. ]\d{2}", re.ASCII)
_IN_WORDS: Final = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th)?[-/. ]+([a-z]+)[-/., ]+(\d{4})", re.ASCII
)


class NoDayError(ValueError):
    """Text that is no day; says what would be."""


def find_order(cells: Iterable[str]) -> Order:
    """Return the order in which days are written; ``none``: it does not matter.

    ``ask``: nothing in the file tells day from month, or both orders stand in it.
    """
    firsts, seconds, matters = False, False, False
    for cell in cells:
        if found := _YEAR_LAST.fullmatch(_without_clock(cell)):
            first, second = int(found[1]), int(found[2])
            firsts |= first > _MOST_MONTHS
            seconds |= second > _MOST_MONTHS
            matters |= first != second
    if not matters:
        return "none"
    if firsts == seconds:
        return "ask"
    return "day" if firsts else "month"


def unclear_day(cells: Iterable[str]) -> str:
    """Return the first cell that may mean two days; empty: none."""
    for cell in cells:
        if found := _YEAR_LAST.fullmatch(_without_clock(cell)):
            first, second = int(found[1]), int(found[2])
            if first != second and max(first, second) <= _MOST_MONTHS:
                return cell
    return ""


def read_day(text: str, order: Order) -> date:
    """Return the day that a cell means.

    Raises:
        NoDayError: it is none, or the order of day and month is not known.
    """
    written = _without_clock(text)
    if found := _YEAR_FIRST.fullmatch(written):
        return _day(text, found[1], found[2], found[3])
    if found := _IN_WORDS.fullmatch(written.lower() if written.isascii() else ""):
        return _day(text, found[3], _month(text, found[2]), found[1])
    if found := _YEAR_LAST.fullmatch(written):
        return _in_order(text, found[1], found[2], found[3], order)
    if _SHORT_YEAR.fullmatch(written):
        raise NoDayError(f"{text}: write the year with four figures.")
    raise NoDayError(f"{text} is no day. {WRITE_A_DAY}")


def _in_order(text: str, first: str, second: str, year: str, order: Order) -> date:
    if order == "month":
        return _day(text, year, first, second)
    if order == "day" or first == second:
        return _day(text, year, second, first)
    raise NoDayError(f"{text} may mean two days: say which comes first.")


def _without_clock(text: str) -> str:
    return _CLOCK.sub("", text.strip())


def _month(text: str, word: str) -> int:
    if len(word) >= _LEAST_LETTERS:
        for number, name in enumerate(_MONTHS, start=1):
            if name.startswith(word) or (word == "sept" and name == "september"):
                return number
    raise NoDayError(f"{text} is no day: {word} is no month.")


def _day(text: str, year: str, month: str | int, day: str) -> date:
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        raise NoDayError(f"{text} is no day of the calendar.") from None
