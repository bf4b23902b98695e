"""Weight over time: the change in 30 days, always by one and the same method."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import cos, tau
from typing import Final, Literal

from fitting.body import Taken
from fitting.weight.best import METHODS, Weight, WeightMethod, weighings
from fitting.weight.whom import Whom, is_small

PER_DAYS: Final = 30
APART_DAYS: Final = (14, 60)  # ours: two readings that far apart tell a change
DOWN: Final = -0.05  # ours, in 30 days
FAR_DOWN: Final = -0.10  # ours, in 30 days
_ROUNDED: Final = 9  # decimals: 300 to 285 kg is down 5 %, not a hair less
# The winter dip of a horse that lives out: a cosine of 3.5 % of the weight with its top
# on 1 November in the north, 1 May in the south. Ours.
SEASON_SHARE: Final = 0.035
SEASON_TOP: Final = {"north": (11, 1), "south": (5, 1)}
_YEAR_DAYS: Final = 365.25

Level = Literal["steady", "down", "far_down"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """How a weight moved between two readings by one method, scaled to 30 days.

    ``change`` and ``expected``, the part of it that a winter out explains, are shares:
    -0.06 is down 6 %. ``until``: the last day on which the later reading stands.
    """

    method: WeightMethod
    first: Weight
    last: Weight
    change: float
    expected: float
    level: Level

    @property
    def until(self) -> date:
        """The last day on which it tells anything."""
        return self.last.until


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One weight of a row by one method, and its change in 30 days if any."""

    weight: Weight
    change: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Every weight by one method, oldest first; ``worked``: made from the tape."""

    method: WeightMethod
    worked: bool
    readings: tuple[Reading, ...]


def series(taken: Sequence[Taken], whom: Whom, on: date) -> tuple[Series, ...]:
    """Return the weights up to a day by method, each with its change in 30 days.

    Weights worked out from the tape are all by the formula of this day, so that a
    change of formula is not taken for a change of weight.
    """
    weights = weighings(taken, whom, on, small=is_small(taken, whom, on))
    rows = ((method, made) for method in METHODS for made in (False, True))
    found = (
        Series(method=method, worked=made, readings=_readings(of_it))
        for method, made in rows
        if (of_it := _of(weights, method, made=made))
    )
    return tuple(found)


def _of(weights: Sequence[Weight], method: WeightMethod, *, made: bool) -> list[Weight]:
    return [w for w in weights if w.method == method and bool(w.worked) is made]


def _readings(weights: Sequence[Weight]) -> tuple[Reading, ...]:
    found = []
    for weight in weights:
        first = _partner(weight, weights)
        change = change_in_30_days(first, weight) if first else None
        found.append(Reading(weight=weight, change=change))
    return tuple(found)


def _partner(last: Weight, weights: Sequence[Weight]) -> Weight | None:
    """Return the earlier weight nearest to 30 days before, 14 to 60 days off."""
    least, most = (timedelta(days=days) for days in APART_DAYS)
    far = [one for one in weights if least <= last.on - one.on <= most]
    wanted = last.on - timedelta(days=PER_DAYS)
    return min(far, key=lambda one: (abs(one.on - wanted), one.on), default=None)


def change_in_30_days(first: Weight, last: Weight) -> float:
    """Return the change between two weights, as a share in 30 days.

    Raises:
        ValueError: they are of one day, or the later one is given first.
    """
    return _scaled(last.kg / first.kg - 1, first.on, last.on)


def _scaled(change: float, first: date, last: date) -> float:
    days = (last - first).days
    if days <= 0:
        raise ValueError(f"{last} does not come after {first}")
    return round(change * PER_DAYS / days, _ROUNDED)


def season(whom: Whom, on: date) -> float:
    """Return the share of its yearly mean that a horse weighs on a day by season.

    1 for one that does not live out. Source: ours.

    Raises:
        ValueError: the hemisphere is neither north nor south.
    """
    if whom.hemisphere not in SEASON_TOP:
        raise ValueError(f"hemisphere is north or south, not {whom.hemisphere!r}")
    if not whom.lives_out:
        return 1.0
    month, day = SEASON_TOP[whom.hemisphere]
    days = (on - date(on.year, month, day)).days
    return 1.0 + SEASON_SHARE * cos(tau * days / _YEAR_DAYS)


def trends(taken: Sequence[Taken], whom: Whom, on: date) -> tuple[Trend, ...]:
    """Return a trend for each method whose last reading stands, the best first.

    None by eye: it is too often a fifth out to tell a twentieth (ours). None by weigh
    tape under 100 cm.
    """
    small = is_small(taken, whom, on)
    weights = [w for w in weighings(taken, whom, on, small=small) if w.usable]
    rows = ((method, made) for method in METHODS[:-1] for made in (False, True))
    found = (_trend(_of(weights, method, made=made), whom, on) for method, made in rows)
    return tuple(one for one in found if one is not None)


def _trend(weights: Sequence[Weight], whom: Whom, on: date) -> Trend | None:
    last = weights[-1] if weights else None
    first = _partner(last, weights) if last and last.until >= on else None
    if first is None or last is None:
        return None
    change = change_in_30_days(first, last)
    explained = season(whom, last.on) / season(whom, first.on) - 1
    return Trend(
        method=last.method,
        first=first,
        last=last,
        change=change,
        expected=_scaled(explained, first.on, last.on),
        level=level_of(change),
    )


def level_of(change: float) -> Level:
    """Return what a change in 30 days means.

    Source: ours.
    """
    if change <= FAR_DOWN:
        return "far_down"
    return "down" if change <= DOWN else "steady"


def trend(taken: Sequence[Taken], whom: Whom, on: date) -> Trend | None:
    """Return the trend to go by on a day; None: not known.

    A method counts unless a better one was used on its last day or since; of those that
    count, the one that is down most.

    Source: ours.
    """
    count: list[Trend] = []
    for one in trends(taken, whom, on):
        if all(better.last.on < one.last.on for better in count):
            count.append(one)
    return min(count, key=lambda one: one.change, default=None)


def percent(change: float) -> str:
    """Return a change in words: ``down 6 %``, ``up 2 %``, ``as before``."""
    whole = round(abs(change) * 100)
    if not whole:
        return "as before"
    return f"{'down' if change < 0 else 'up'} {whole} %"
