"""Weighings for tests: say only what matters."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from fitting.age import Foaled
from fitting.body import Taken
from fitting.weight import Whom

ON = date(2026, 11, 25)


def whom(months: float = 30, **changes: Any) -> Whom:
    """Return a pony of so many months on the day."""
    born = ON - timedelta(days=round(months * 30.4375))
    changes.setdefault("foaled", Foaled(first=born, last=born))
    changes.setdefault("horse_type", "pony")
    return Whom(**changes)


def ago(days: int) -> date:
    return ON - timedelta(days=days)


def weighed(kg: float, days: int = 0, method: str = "weigh_tape") -> Taken:
    return Taken(measure="weight", on=ago(days), readings=(kg,), method=method)


def girth(cm: float, days: int = 0) -> Taken:
    mm = cm * 10
    return Taken(measure="heart_girth", on=ago(days), readings=(mm,), method="tape")


def length(cm: float, days: int = 0) -> Taken:
    mm = cm * 10
    return Taken(measure="body_length", on=ago(days), readings=(mm,), method="tape")


def height(cm: float, days: int = 0, method: str = "stick") -> Taken:
    mm = cm * 10
    return Taken(measure="withers_height", on=ago(days), readings=(mm,), method=method)


def scored(score: float, days: int = 0) -> Taken:
    day = ago(days)
    return Taken(measure="condition_score", on=day, readings=(score,), method="eye")
