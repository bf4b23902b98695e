"""One youngster month by month: what was written behind, what is planned ahead."""

from starting.months.ahead import lines_ahead
from starting.months.behind import lines_behind
from starting.months.charting import chart_of, steps_shown
from starting.months.table import MonthRow, age_said, month_rows
from starting.months.values import (
    Ahead,
    Dated,
    EntrySeen,
    GateSeen,
    Line,
    Records,
    Spell,
    StepSeen,
)

__all__ = [
    "Ahead",
    "Dated",
    "EntrySeen",
    "GateSeen",
    "Line",
    "MonthRow",
    "Records",
    "Spell",
    "StepSeen",
    "age_said",
    "chart_of",
    "lines_ahead",
    "lines_behind",
    "month_rows",
    "steps_shown",
]
