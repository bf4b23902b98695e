"""Days of a yard file: ISO, or told from the day of loading."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Final

from fitting.age import UnreadableDayError, read_foaled
from fitting.models.yard import WEEKDAYS
from fitting.yardfile.place import Place, shown

DAYS_A_WEEK: Final = 7
ALLOWED: Final = (
    'a day such as "2026-04-19", or told from the day of loading: "-400d", "-57w tue"'
    ' (the last Tuesday on or before), "+2w sat" (the first Saturday on or after)'
)
_ISO: Final = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_RELATIVE: Final = re.compile(
    rf"(?P<sign>[+-])(?P<count>\d{{1,5}})(?P<unit>[dw])"
    rf"(?: (?P<weekday>{'|'.join(WEEKDAYS)}))?",
    re.ASCII,
)


def read_day(where: Place, text: str, on: date) -> date:
    """Return the day that a text means; ``on`` is the day of loading.

    Raises:
        YardFileError: it is no day.
    """
    try:
        if _ISO.fullmatch(text):
            return date.fromisoformat(text)
        if found := _RELATIVE.fullmatch(text):
            return _relative(found, on)
    except (ValueError, OverflowError) as error:
        raise where.error(f"{shown(text)}, {error}", ALLOWED) from error
    raise where.error(shown(text), ALLOWED)


def _relative(found: re.Match[str], on: date) -> date:
    """Return the day; a weekday is looked for away from the day of loading."""
    ahead = found["sign"] == "+"
    count = int(found["count"]) * (DAYS_A_WEEK if found["unit"] == "w" else 1)
    day = on + timedelta(days=count if ahead else -count)
    if found["weekday"] is None:
        return day
    wanted = WEEKDAYS.index(found["weekday"])
    if ahead:
        return day + timedelta(days=(wanted - day.weekday()) % DAYS_A_WEEK)
    return day - timedelta(days=(day.weekday() - wanted) % DAYS_A_WEEK)


def day_or_none(where: Place, text: str | None, on: date) -> date | None:
    """Return the day that a text means; None where nothing is written.

    Raises:
        YardFileError: it is no day.
    """
    return None if text is None else read_day(where, text, on)


def read_foaling(where: Place, text: str, on: date) -> str:
    """Return the foaling date as a yard keeps it: a day, a month or a year.

    Raises:
        YardFileError: it is none of these.
    """
    if text[:1] in {"+", "-"}:
        return read_day(where, text, on).isoformat()
    try:
        read_foaled(text)
    except UnreadableDayError as error:
        raise where.error(
            f"{shown(text)}. {error}", f"{ALLOWED}, or 2024-04 or 2024"
        ) from error
    return text.strip()


def not_before(where: Place, day: date | None, first: date, what: str) -> None:
    """Check that a day does not come before another.

    Raises:
        YardFileError: it does.
    """
    if day is not None and day < first:
        raise where.error(f"found {day}", f"a day on or after {what}, {first}")


def after(where: Place, day: date | None, before: date, what: str) -> None:
    """Check that a day comes later than another.

    Raises:
        YardFileError: it does not.
    """
    if day is not None and day <= before:
        raise where.error(f"found {day}", f"a day after {what}, {before}")
