"""Months as they lie along a drawing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from fitting.age import MONTHS_A_YEAR


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Days from first to last."""

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise ValueError(f"{self.last} comes before {self.first}")


def month_of(on: date) -> date:
    """Return the first day of a day's month."""
    return on.replace(day=1)


def month_after(first: date, months: int = 1) -> date:
    """Return the first day of the month so many months on, or back."""
    count = first.year * MONTHS_A_YEAR + first.month - 1 + months
    year, month = divmod(count, MONTHS_A_YEAR)
    return date(year, month + 1, 1)


def months_from(first: date, count: int) -> tuple[date, ...]:
    """Return the first days of so many months, from the month of a day."""
    return tuple(month_after(month_of(first), at) for at in range(count))


def months_between(firsts: Iterable[date]) -> Span:
    """Return the days from the first of the first month to the end of the last."""
    every = tuple(firsts)
    return Span(first=every[0], last=month_after(every[-1]))


def share_of(span: Span, on: date) -> float:
    """Return how far along a span a day lies: 0 at its first, 1 at its last."""
    whole = (span.last - span.first).days
    return (on - span.first).days / whole if whole else 0.0
