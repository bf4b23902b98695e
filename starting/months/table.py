"""Lines put under their months, with the age; quiet months fold into one row."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from fitting.age import (
    MONTHS_A_YEAR,
    SAID_IN_YEARS_FROM_MONTHS,
    Foaled,
    completed_months,
)
from fitting.drawings.months import month_after, month_of
from starting.months.values import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthRow:
    """One month with its lines; ``last`` later than ``first``: quiet months as one."""

    first: date
    last: date  # the first day of the last month
    age: str
    lines: tuple[Line, ...] = ()

    @property
    def many(self) -> bool:
        """Whether it stands for several months."""
        return self.last > self.first


def month_rows(
    lines: Iterable[Line], first: date, last: date, foaled: Foaled
) -> tuple[MonthRow, ...]:
    """Return the months from that of ``first`` to that of ``last``, lines by day."""
    by_month: dict[date, list[Line]] = defaultdict(list)
    for line in lines:
        by_month[month_of(line.on)].append(line)
    return tuple(_rows(by_month, month_of(first), month_of(last), foaled))


def _rows(
    by_month: dict[date, list[Line]], first: date, last: date, foaled: Foaled
) -> Iterator[MonthRow]:
    quiet: date | None = None
    month = first
    while month <= last:
        lines = by_month.get(month, [])
        if lines and quiet:
            yield _quiet(quiet, month_after(month, -1), foaled)
            quiet = None
        if lines:
            yield MonthRow(
                first=month,
                last=month,
                age=age_said(foaled, month),
                lines=tuple(sorted(lines, key=lambda one: one.on)),
            )
        else:
            quiet = quiet or month
        month = month_after(month)
    if quiet:
        yield _quiet(quiet, last, foaled)


def _quiet(first: date, last: date, foaled: Foaled) -> MonthRow:
    return MonthRow(first=first, last=last, age=age_said(foaled, first))


def age_said(foaled: Foaled, month: date) -> str:
    """Return the age reached within a month: ``31 mo``, ``22 to 33 mo``, ``14 yr``.

    In years from five years on, as everywhere; then nothing where they are not known.
    """
    end = month_after(month) - timedelta(days=1)
    if end < foaled.first:
        return ""
    least = completed_months(foaled, end)
    most = completed_months(Foaled(first=foaled.first, last=foaled.first), end)
    if least >= SAID_IN_YEARS_FROM_MONTHS:
        years = {months // MONTHS_A_YEAR for months in (least, most)}
        return f"{years.pop()} yr" if len(years) == 1 else ""
    return f"{least} mo" if least == most else f"{least} to {most} mo"
