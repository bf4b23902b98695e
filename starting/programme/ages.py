"""Ages of a programme in words: months, and weeks where a month is too coarse."""

from __future__ import annotations

from typing import Final

WEEKS_IN_A_MONTH: Final = 365.25 / 7 / 12


def numbered(months: float) -> tuple[str, str]:
    """Return an age as a number and what it counts, weeks under a month."""
    if not 0 < months < 1:
        return f"{months:g}", "month" if months == 1 else "months"
    weeks = max(1, round(months * WEEKS_IN_A_MONTH))
    return f"{weeks}", "week" if weeks == 1 else "weeks"


def said_age(months: float) -> str:
    """Return an age in words, such as "3 weeks" or "30 months"."""
    return " ".join(numbered(months))


def said_span(low: float, high: float) -> str:
    """Return two ages in words, such as "4 to 6 months" or "1 week to 2 months"."""
    (first, what), last = numbered(low), said_age(high)
    alike = low == 0 or what.rstrip("s") == numbered(high)[1].rstrip("s")
    return f"{first} to {last}" if alike else f"{first} {what} to {last}"
