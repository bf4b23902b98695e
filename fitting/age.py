"""How old a horse is: true age for every gate, season age as a label only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

DAYS_A_MONTH: Final = 30.4375

Precision = Literal["day", "month", "year"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Foaled:
    """The days a horse may have been foaled on; both ends belong to it."""

    first: date
    last: date

    @property
    def precision(self) -> Precision:
        """How exactly the day is known."""
        raise NotImplementedError


class UnreadableDayError(ValueError):
    """Typed text that is no foaling date; says what would be."""


def read_foaled(text: str) -> Foaled:
    """Return the days that ``2024-04-19``, ``2024-04`` or ``2024`` may mean."""
    raise NotImplementedError


def write_foaled(foaled: Foaled) -> str:
    """Return the text that ``read_foaled`` reads back."""
    raise NotImplementedError


def completed_months(foaled: Foaled, on: date) -> int:
    """Return completed months of true age, counted from the last possible day."""
    raise NotImplementedError


def reaches_months(foaled: Foaled, months: float) -> date:
    """Return the first day on which the horse has completed ``months``."""
    raise NotImplementedError


def months_old(born: date, on: date) -> float:
    """Return age in months for growth: days / 30.4375."""
    raise NotImplementedError


def season_age(foaled: Foaled, on: date, hemisphere: str) -> int:
    """Return the label age (years): 1 January in the north, 1 August in the south."""
    raise NotImplementedError


def say_age(foaled: Foaled, on: date) -> str:
    """Return age in words: ``31 months``, ``12 days``, ``about 9 years``."""
    raise NotImplementedError
