"""How early and how late each step may end: the yard planned by lot, many times."""

from __future__ import annotations

import zlib
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from starting.schedule.jobs import YardAtWork, yard_at_work
from starting.schedule.many import finishes
from starting.schedule.rows import NEVER, Days, Flags, Numbers
from starting.schedule.values import (
    HorseAhead,
    HorsePlan,
    Spread,
    StageAhead,
    YardDays,
)

Lots = NDArray[np.float64]
DRAWS: Final = 400
SEED: Final = 20260302
DAYS_LOST: Final = 0.15  # of the days; ours
EARLY: Final = 0.1  # the share of draws that end sooner; ours
LATE: Final = 0.9


def spreads(
    horses: Sequence[HorseAhead],
    days: YardDays,
    today: date,
    plans: Sequence[HorsePlan],
) -> tuple[dict[str, Spread], ...]:
    """Return each horse's early and late end by step, from seeded draws.

    A draw takes the sessions a step needs from a triangle with its top on the plan's
    own number, and loses some of the days. The same horse, step and day have the same
    lots whatever else changes. The early end is never after the plan's, the late one
    never before it.

    Source: the triangle, the share of days lost, the tenths ours.
    """
    if not horses:
        return ()
    yard = yard_at_work(horses, days, today)
    left = {
        (horse.horse, ahead.stage.key): _sessions(horse.horse, ahead)
        for horse in horses
        for ahead in horse.stages
        if ahead.stage.kind == "sessions"
    }
    ends = finishes(yard, left, _lost(yard))
    return tuple(_spreads(plan, ends, today) for plan in plans)


def _spreads(
    plan: HorsePlan, ends: Mapping[tuple[str, str], Days], today: date
) -> dict[str, Spread]:
    return {
        one.stage: _spread(ends[plan.horse, one.stage], one.finish, today)
        for one in plan.stages
        if one.finish is not None
    }


def _spread(ends: Days, likely: date, today: date) -> Spread:
    ordered = np.sort(ends)
    early = int(ordered[int(EARLY * DRAWS)])
    late = int(ordered[int(LATE * DRAWS) - 1])
    plan = (likely - today).days
    return Spread(
        early=today + timedelta(days=min(early, plan)),
        late=None if late == NEVER else today + timedelta(days=max(late, plan)),
    )


def _sessions(horse: str, ahead: StageAhead) -> Numbers:
    """Return how many sessions a step needs, in each draw."""
    likely = max(1, ahead.sessions_left)
    fewest = likely if ahead.fewest_left is None else ahead.fewest_left
    fewest = min(max(1, fewest), likely)
    most = likely if ahead.most_left is None else max(ahead.most_left, likely)
    if fewest == most:
        return np.full(DRAWS, likely, dtype=np.int64)
    lots = _lots(horse, ahead.stage.key)
    return np.rint(_triangle(lots, fewest, likely, most)).astype(np.int64)


def _triangle(lots: Lots, low: int, top: int, high: int) -> Lots:
    """Return numbers between two ends, most of them near the top."""
    rising = (top - low) / (high - low)
    up = low + np.sqrt(lots * (high - low) * (top - low))
    down = high - np.sqrt((1 - lots) * (high - low) * (high - top))
    return np.where(lots < rising, up, down)


@lru_cache(maxsize=4096)
def _lots(horse: str, step: str) -> Lots:
    name = zlib.crc32(f"{horse}/{step}".encode())
    return np.random.default_rng([SEED, name]).random(DRAWS)


def _lost(yard: YardAtWork) -> Flags:
    """Return on which days nobody gets to work, a row a day, a column a draw."""
    last = yard.on(yard.last)
    years = [_lost_in(year) for year in range(yard.today.year, last.year + 1)]
    first = yard.today.timetuple().tm_yday - 1
    return np.concatenate(years)[first : first + yard.last + 1]


@lru_cache(maxsize=16)
def _lost_in(year: int) -> Flags:
    days = (date(year + 1, 1, 1) - date(year, 1, 1)).days
    lots = np.random.default_rng([SEED, year]).random((days, DRAWS))
    return lots < DAYS_LOST
