"""Croup and withers for tests: only what matters is said."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from fitting.body import HorseType, Taken
from fitting.croup import Croup, croup_on, judge

FIRST = date(2026, 3, 2)
WITHERS_MM = 1400.0
OVERS = st.floats(-30, 120, allow_nan=False)


def day(after: int) -> date:
    return FIRST + timedelta(days=after)


def both(
    after: int, over_mm: float, *, method: str = "stick", who: str = "Jo", **more: Any
) -> tuple[Taken, Taken]:
    """Return withers and croup of one day, the croup so far over."""
    more = {"same_person": True, "on": day(after), "method": method, "who": who, **more}
    return (
        Taken(measure="withers_height", readings=(WITHERS_MM,), **more),
        Taken(measure="croup_height", readings=(WITHERS_MM + over_mm,), **more),
    )


def several(*pairs: tuple[int, float], **more: Any) -> tuple[Taken, ...]:
    return tuple(one for after, over in pairs for one in both(after, over, **more))


def seen(
    *pairs: tuple[int, float], on: int, horse_type: HorseType = "light", **more: str
) -> Croup:
    return croup_on(judge(several(*pairs, **more), horse_type), day(on))
