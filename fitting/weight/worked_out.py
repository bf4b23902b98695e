"""Weights worked out from girth and body length, without anybody typing them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.body import Taken, middle
from fitting.weight.formulas import GIRTH, LENGTH, Formula, OutsideFormulaError, kg_by

APART: Final = timedelta(days=7)  # ours: girth and length may be that far apart


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """A weight (kg) by a formula, from a girth of its day and a length near it (mm)."""

    on: date
    kg: float
    formula: Formula
    girth_mm: float
    length_mm: float | None = None
    length_on: date | None = None


def by_day(taken: Sequence[Taken], measure: str, on: date) -> dict[date, float]:
    """Return the middle of each day's readings of a measure, up to a day."""
    days: dict[date, list[float]] = defaultdict(list)
    for one in taken:
        if one.measure == measure and one.on <= on:
            days[one.on].extend(one.readings)
    return {day: middle(tuple(days[day])) for day in sorted(days)}


def worked_out(
    taken: Sequence[Taken], formula: Formula, on: date
) -> tuple[WorkedOut, ...]:
    """Return every weight that one formula makes of the tape, oldest first.

    A girth goes with the body length nearest to its day, within seven days; one that
    the formula was not made on is left out.
    """
    lengths = by_day(taken, LENGTH, on) if LENGTH in formula.needs else None
    found = (
        _of_day(formula, day, girth, lengths)
        for day, girth in by_day(taken, GIRTH, on).items()
    )
    return tuple(one for one in found if one is not None)


def _of_day(
    formula: Formula, day: date, girth: float, lengths: dict[date, float] | None
) -> WorkedOut | None:
    near = _nearest(day, lengths) if lengths is not None else None
    if lengths is not None and near is None:
        return None
    length = lengths[near] if lengths is not None and near is not None else None
    try:
        kg = kg_by(formula, girth, length)
    except OutsideFormulaError:
        return None
    return WorkedOut(
        on=day,
        kg=kg,
        formula=formula,
        girth_mm=girth,
        length_mm=length,
        length_on=near,
    )


def _nearest(day: date, lengths: dict[date, float]) -> date | None:
    near = [other for other in lengths if abs(other - day) <= APART]
    return min(near, key=lambda other: (abs(other - day), other), default=None)
