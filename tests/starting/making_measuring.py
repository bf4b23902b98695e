"""Windows in which measures fall due, in days from one day."""

from __future__ import annotations

from datetime import date, timedelta

from starting.measuring import Due

# 2 Mar 2026 is a Monday.
TODAY = date(2026, 3, 2)
EVERY_DAY = frozenset(range(7))


def day(n: int) -> date:
    return TODAY + timedelta(days=n)


def make_due(first: int, last: int, measure: str = "brow", horse: str = "") -> Due:
    return Due(
        measure=measure,
        useful_from=day(first),
        due_by=day(last),
        because="stands 56 days",
        horse=horse,
    )
