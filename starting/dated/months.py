"""A month of the diary: its days in weeks, the months beside it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

YEARS: Final = range(2000, 2100)  # ours: further off no horse of today is brought on
_MONTH: Final = re.compile(r"([0-9]{4})-(0[1-9]|1[0-2])")


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """One month of the calendar, known by its first day."""

    first: date

    @property
    def key(self) -> str:
        """The month as an address has it: 2026-11."""
        return f"{self.first:%Y-%m}"

    @property
    def last(self) -> date:
        """Its last day."""
        return self.after.first - timedelta(days=1)

    @property
    def before(self) -> Month:
        """The month before."""
        return month_of(self.first - timedelta(days=1))

    @property
    def after(self) -> Month:
        """The month after."""
        return month_of(self.first.replace(day=28) + timedelta(days=4))

    @property
    def days(self) -> tuple[date, ...]:
        """Its days, ascending."""
        return tuple(
            self.first + timedelta(days=n)
            for n in range((self.last - self.first).days + 1)
        )

    @property
    def blanks(self) -> range:
        """The empty days before the first in a week that begins on Monday."""
        return range(self.first.weekday())

    @property
    def can_go_back(self) -> bool:
        """Whether the month before has an address."""
        return self.before.first.year in YEARS

    @property
    def can_go_on(self) -> bool:
        """Whether the month after has an address."""
        return self.after.first.year in YEARS


def month_of(on: date) -> Month:
    """Return the month that a day lies in."""
    return Month(first=on.replace(day=1))


def read_month(text: str, today: date) -> Month:
    """Return the month of an address; what is no month is read as this one."""
    found = _MONTH.fullmatch(text)
    if found is None or int(found[1]) not in YEARS:
        return month_of(today)
    return Month(first=date(int(found[1]), int(found[2]), 1))
