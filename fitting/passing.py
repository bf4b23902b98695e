"""When a growing size passes a limit: the chance today, and three days by chance."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.growth import Growth

EARLY: Final = 0.2  # ours: one chance in five that it is passed by then
LIKELY: Final = 0.5
LATE: Final = 0.8
GROWN_BY: Final = timedelta(days=2557)  # ours: seven years, when little is left to grow
LEAST_AHEAD: Final = timedelta(days=730)  # ours
STEP_DAYS: Final = 30  # ours: between two looks; then day by day


@dataclass(frozen=True, slots=True, kw_only=True)
class Passing:
    """How likely a size is past a limit, and by when; chances 0 to 1.

    ``early``, ``likely`` and ``late`` are the first days on which it is past the limit
    with a chance of 20, 50 and 80 %; None: not up to ``looked_until``.
    """

    today: float
    grown: float
    early: date | None
    likely: date | None
    late: date | None
    looked_until: date


def passing(growth: Growth, measure: str, limit: float, on: date) -> Passing | None:
    """Return when a measure passes a limit (mm or kg); None: nothing is known of it.

    Looks from birth on, so that a day already gone by is found as well.
    """
    grown = growth.grown_size(measure)
    born = growth.births[-1]
    last = max(born + GROWN_BY, on + LEAST_AHEAD)

    def chances(days: Sequence[date]) -> list[float]:
        return [1.0 - size.below(limit) for size in growth.at_days(measure, days)]

    now = chances((on,))
    if grown is None or not now:
        return None
    days = _every(born, last, STEP_DAYS)
    found = chances(days)
    early, likely, late = (
        _first_day(days, found, share, chances) for share in (EARLY, LIKELY, LATE)
    )
    return Passing(
        today=now[0],
        grown=1.0 - grown.below(limit),
        early=early,
        likely=likely,
        late=late,
        looked_until=last,
    )


def _every(first: date, last: date, step: int) -> list[date]:
    """Return the days from first to last, a step apart, both ends among them."""
    days = [first + timedelta(days=n) for n in range(0, (last - first).days, step)]
    return [*days, last]


def _first_day(
    days: Sequence[date],
    found: Sequence[float],
    share: float,
    chances: Callable[[Sequence[date]], list[float]],
) -> date | None:
    """Return the first day with that chance: the first look that has it, then daily."""
    at = next((n for n, chance in enumerate(found) if chance >= share), None)
    if not at:
        return None if at is None else days[0]
    between = _every(days[at - 1], days[at], 1)
    reached = zip(between, chances(between), strict=True)
    return next((day for day, chance in reached if chance >= share), days[at])
