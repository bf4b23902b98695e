"""How old a horse is: true age for every gate, season age as a label only."""

from __future__ import annotations

import math
import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Final, Literal

DAYS_A_MONTH: Final = 30.4375  # 365.25 / 12
MONTHS_A_YEAR: Final = 12
DECEMBER: Final = 12

# Ours: how age is said, and which years are believed of a living horse's foaling.
SAID_IN_DAYS_UNDER_MONTHS: Final = 2
SAID_IN_YEARS_FROM_MONTHS: Final = 60
EARLIEST_YEAR: Final = 1950
LATEST_YEAR: Final = 2199

# The day on which all horses turn a year older. Source: common practice of racing
# authorities, no published source read; breeds differ, so it is a label only.
SEASON_BEGINS: Final = {"north": 1, "south": 8}  # month; always its first day
RISING_LAST_MONTHS: Final = 6  # ours

# How many equally likely days stand for a foaling day not known exactly; ours.
DAYS_FOR_A_MONTH: Final = 3
DAYS_FOR_A_YEAR: Final = 12

_ISO: Final = re.compile(r"([0-9]{4})(?:-([0-9]{2})(?:-([0-9]{2}))?)?")
_IN_WORDS: Final = (
    *("nought", "one", "two", "three", "four", "five", "six", "seven"),
    *("eight", "nine", "ten", "eleven", "twelve"),
)

Precision = Literal["day", "month", "year"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Foaled:
    """The days a horse may have been foaled on; both ends belong to it."""

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise ValueError(f"{self.last} comes before {self.first}")

    @property
    def precision(self) -> Precision:
        """How exactly the day is known."""
        if self.first == self.last:
            return "day"
        same_month = self.first.replace(day=1) == self.last.replace(day=1)
        return "month" if same_month else "year"


class UnreadableDayError(ValueError):
    """Typed text that is no foaling date; says what would be."""


def read_foaled(text: str) -> Foaled:
    """Return the days that ``2024-04-19``, ``2024-04`` or ``2024`` may mean.

    Raises:
        UnreadableDayError: it is none of these, or no such day.
    """
    found = _ISO.fullmatch(text.strip())
    if found is None:
        raise UnreadableDayError(
            "A foaling date is written 2024-04-19, or 2024-04 or 2024 when the day"
            " is not known."
        )
    year, month, day = (int(part) if part else None for part in found.groups())
    if year is None or not EARLIEST_YEAR <= year <= LATEST_YEAR:
        raise UnreadableDayError(
            f"The year of a foaling date is {EARLIEST_YEAR} to {LATEST_YEAR}."
        )
    if month is None:
        return Foaled(first=date(year, 1, 1), last=date(year, DECEMBER, 31))
    return _within_month(year, month, day)


def _within_month(year: int, month: int, day: int | None) -> Foaled:
    """Return the day, or all days of the month."""
    if not 1 <= month <= DECEMBER:
        raise UnreadableDayError(f"Months run from 01 to 12; {month:02d} is none.")
    length = monthrange(year, month)[1]
    if day is None:
        return Foaled(first=date(year, month, 1), last=date(year, month, length))
    if not 1 <= day <= length:
        raise UnreadableDayError(f"{year}-{month:02d} has days 01 to {length}.")
    return Foaled(first=date(year, month, day), last=date(year, month, day))


def write_foaled(foaled: Foaled) -> str:
    """Return the text that ``read_foaled`` reads back."""
    shown = {"day": 10, "month": 7, "year": 4}[foaled.precision]
    return foaled.last.isoformat()[:shown]


def possible_days(foaled: Foaled, *, not_after: date | None = None) -> tuple[date, ...]:
    """Return equally likely foaling days that stand for all that are possible.

    One for a known day, three for a month, twelve for a year, each from the middle
    of an equal share of the days.

    Args:
        foaled: the possible days.
        not_after: a day on which the horse was seen alive, if any; later days drop out.
    """
    last = foaled.last
    if not_after is not None and not_after >= foaled.first:
        last = min(last, not_after)
    days = (last - foaled.first).days + 1
    wanted = {"day": 1, "month": DAYS_FOR_A_MONTH, "year": DAYS_FOR_A_YEAR}
    shares = min(days, wanted[foaled.precision])
    middles = ((2 * share + 1) * days // (2 * shares) for share in range(shares))
    return tuple(foaled.first + timedelta(days=middle) for middle in middles)


def completed_months(foaled: Foaled, on: date) -> int:
    """Return completed months of true age, counted from the last possible day.

    A month is completed on the same day of a later month; a horse foaled on the 31st
    completes it on the last day of a shorter month. Before foaling: 0.

    Source: months counted from the foaling day, not from 1 January: German guideline
    on animal welfare in equestrian sport, as revised in 2020 (reported). The last
    possible day makes the horse the youngest it can be: ours.
    """
    return max(0, _months_between(foaled.last, on))


@lru_cache(maxsize=1024)  # asked of one horse for each part on each day
def reaches_months(foaled: Foaled, months: float) -> date:
    """Return the first day on which the horse has completed ``months``.

    Whole months by the calendar, then the fraction of 30.4375 days, rounded up, and
    never later than the next whole month.

    Raises:
        ValueError: ``months`` is negative, infinite or not a number.
    """
    if not 0 <= months < math.inf:
        raise ValueError(f"an age in months is nought or more, not {months}")
    whole = math.floor(months)
    day = _months_later(foaled.last, whole)
    part = months - whole
    if not part:
        return day
    later = day + timedelta(days=math.ceil(part * DAYS_A_MONTH))
    return min(later, _months_later(foaled.last, whole + 1))


def months_old(born: date, on: date) -> float:
    """Return age in months for growth: days / 30.4375 (negative before birth)."""
    return (on - born).days / DAYS_A_MONTH


def season_age(foaled: Foaled, on: date, hemisphere: str) -> int:
    """Return the label age (years): 1 January in the north, 1 August in the south.

    Counted from the last possible day. It never opens a gate.

    Raises:
        ValueError: ``hemisphere`` is neither north nor south.
    """
    begins = _season_begins(hemisphere)
    return max(0, _season(on, begins) - _season(foaled.last, begins))


def rising_words(foaled: Foaled, on: date, hemisphere: str) -> str:
    """Return the label in words: ``foal``, ``yearling``, ``rising two``.

    "Rising" in the last half year before the label turns. Source: common practice, no
    published source.

    Raises:
        ValueError: ``hemisphere`` is neither north nor south.
    """
    begins = _season_begins(hemisphere)
    age = season_age(foaled, on, hemisphere)
    into_season = (on.month - begins) % MONTHS_A_YEAR
    if age and into_season >= MONTHS_A_YEAR - RISING_LAST_MONTHS:
        return f"rising {_in_words(age + 1)}"
    return {0: "foal", 1: "yearling"}.get(age, f"{_in_words(age)}-year-old")


def say_age(foaled: Foaled, on: date) -> str:
    """Return age in words: ``31 months``, ``12 days``, ``about 9 years``.

    Days until two months, months until five years, years from then on. Where the day
    is not known, youngsters get a range (``22 to 33 months``) and grown horses
    ``about``.
    """
    if on < foaled.first:
        return "not foaled yet"
    low = completed_months(foaled, on)
    high = max(0, _months_between(foaled.first, on))
    if high < SAID_IN_DAYS_UNDER_MONTHS:
        return _span(max(0, (on - foaled.last).days), (on - foaled.first).days, "day")
    if low < SAID_IN_YEARS_FROM_MONTHS:
        return _span(low, high, "month")
    if foaled.precision == "year":
        middle = foaled.first + (foaled.last - foaled.first) / 2
        return f"about {round(months_old(middle, on) / MONTHS_A_YEAR)} years"
    return f"{low // MONTHS_A_YEAR} years"


def _span(low: int, high: int, what: str) -> str:
    """Return one number or a range with its word, in the singular where it is one."""
    numbers = str(high) if low == high else f"{low} to {high}"
    return f"{numbers} {what}{'' if high == 1 else 's'}"


def _in_words(number: int) -> str:
    return _IN_WORDS[number] if number < len(_IN_WORDS) else str(number)


def _season_begins(hemisphere: str) -> int:
    """Return the month in which horses turn a year older."""
    if hemisphere not in SEASON_BEGINS:
        raise ValueError(f"hemisphere is north or south, not {hemisphere!r}")
    return SEASON_BEGINS[hemisphere]


def _season(day: date, begins: int) -> int:
    """Return the year in which the day's season began."""
    return day.year if day.month >= begins else day.year - 1


def _months_between(born: date, on: date) -> int:
    """Return completed calendar months; negative before birth."""
    months = (on.year - born.year) * MONTHS_A_YEAR + on.month - born.month
    length = monthrange(on.year, on.month)[1]
    return months if on.day >= min(born.day, length) else months - 1


def _months_later(born: date, months: int) -> date:
    """Return the same day ``months`` later, or the last day of a shorter month."""
    year, month = divmod(born.year * MONTHS_A_YEAR + born.month - 1 + months, 12)
    length = monthrange(year, month + 1)[1]
    return date(year, month + 1, min(born.day, length))
