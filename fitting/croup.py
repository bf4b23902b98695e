"""Croup and withers, taken on one day: how far the one stands over the other.

A youngster's croup is normally the higher one. What counts is a croup that has shot
up: by itself, or over what is usual for this horse, and on two readings running.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import erf, hypot, sqrt
from statistics import median
from typing import Final, Literal

from fitting.body import HorseType, Taken, measure_by_key
from fitting.growth.observed import Observation, observations

WITHERS: Final = "withers_height"
CROUP: Final = "croup_height"
SOURCES: Final = (
    "thompson_1995", "ardennes_thesis", "radunautafundur_1994", "lamas_2007", "ours",
)  # fmt: skip

# All ours. One trainer is said to stop at 5 cm, for about four weeks; heavy breeds
# stand higher behind: about 6 cm in Ardennes foals of 8 to 18 months (thesis, n = 32).
HIGH_MM: Final = 50.0
HIGH_HEAVY_MM: Final = 60.0
OVER_USUAL_MM: Final = 20.0
SURE: Final = 0.80
APART_DAYS: Final = 7
HOLD_DAYS: Final = 28
# Ours: the usual is the middle of so many earlier pairs; one that was high joins them
# after twelve weeks, for by then it is usual.
USUAL_OF: Final = 5
JOINS_AFTER_DAYS: Final = 84
# SD of the middle of one to five normal readings, in SDs of one of them.
_MEDIAN_SDS: Final = (1.0, 0.7071, 0.6698, 0.5461, 0.5356)
# A level (stick or laser) speaks before a tape of the same day; the two never mix.
_LEVEL: Final = "level"

Rule = Literal["over_withers", "over_usual"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Croup and withers of one day by one family of methods; mm.

    ``over_mm``: how far the croup stands over the withers, negative if under.
    ``error_mm``: one SD of that. ``who`` empty: not written down, or two people.
    """

    on: date
    family: str
    withers_mm: float
    croup_mm: float
    error_mm: float
    who: str = ""
    usual_person: bool = False

    @property
    def over_mm(self) -> float:
        """How far the croup stands over the withers."""
        return self.croup_mm - self.withers_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """How far this horse's croup usually stands over its withers; mm, one SD."""

    over_mm: float
    error_mm: float
    pairs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A pair beside what is usual; ``chance`` that it is high, by the nearer rule."""

    pair: Pair
    usual: Usual | None
    chance: float
    rule: Rule

    @property
    def high(self) -> bool:
        """Whether it is high: sure enough to count."""
        return self.chance >= SURE


@dataclass(frozen=True, slots=True, kw_only=True)
class Pause:
    """High on two readings running; ``ends`` is the first day after the pause."""

    first: Judged
    second: Judged

    @property
    def ends(self) -> date:
        """The day on which to measure again, and the first that is not held."""
        return self.second.pair.on + timedelta(days=HOLD_DAYS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Croup:
    """Croup over withers as known on a day; ``newest`` None: never taken together.

    ``again_from``: the first day on which taking both again tells something, where a
    pause holds or the newest was high.
    """

    newest: Judged | None = None
    pause: Pause | None = None
    again_from: date | None = None


def pairs_of(taken: Iterable[Taken], horse_type: HorseType) -> tuple[Pair, ...]:
    """Return croup and withers of the same days, in order of the day; mm.

    Only methods of one family are paired. Of a day on which both the usual person and
    somebody else measured, the usual person's readings count.

    Raises:
        UnknownMeasureError: a height was taken by a method that nobody uses for it.
    """
    days: dict[tuple[date, str], dict[str, list[Taken]]] = defaultdict(dict)
    for one in taken:
        if one.measure in (WITHERS, CROUP):
            family = measure_by_key(one.measure).method(one.method).family
            days[one.on, family].setdefault(one.measure, []).append(one)
    found = [
        _pair(on, family, both[WITHERS], both[CROUP], horse_type)
        for (on, family), both in days.items()
        if len(both) > 1
    ]
    return tuple(sorted(found, key=lambda pair: (pair.on, pair.family == _LEVEL)))


def _pair(
    on: date,
    family: str,
    withers: Sequence[Taken],
    croup: Sequence[Taken],
    horse_type: HorseType,
) -> Pair:
    withers, croup = _by_the_usual(withers), _by_the_usual(croup)
    low, high = _surest(withers, horse_type), _surest(croup, horse_type)
    both = (*withers, *croup)
    names = {one.who.strip().casefold() for one in both}
    return Pair(
        on=on,
        family=family,
        withers_mm=low.value,
        croup_mm=high.value,
        error_mm=hypot(low.error, high.error),
        who=names.pop() if len(names) == 1 else "",
        usual_person=all(one.same_person for one in both),
    )


def _surest(taken: Sequence[Taken], horse_type: HorseType) -> Observation:
    ((_, found),) = observations(taken, horse_type)
    return min(found, key=lambda one: one.error)


def _by_the_usual(taken: Sequence[Taken]) -> list[Taken]:
    return [one for one in taken if one.same_person] or list(taken)


def judge(taken: Iterable[Taken], horse_type: HorseType) -> tuple[Judged, ...]:
    """Return every pair beside what was usual before it, in order of the day.

    Raises:
        UnknownMeasureError: a height was taken by a method that nobody uses for it.

    Source: ours; the errors as beside the methods in ``body``.
    """
    edge = edge_mm(horse_type)
    judged: list[Judged] = []
    for pair in pairs_of(taken, horse_type):
        same = (one for one in judged if one.pair.family == pair.family)
        judged.append(_judge(pair, _usual(same, pair.on), edge))
    return tuple(judged)


def edge_mm(horse_type: HorseType) -> float:
    """Return from where on a croup is high by itself, mm over the withers.

    Source: ours.
    """
    return HIGH_HEAVY_MM if horse_type == "heavy" else HIGH_MM


def _usual(earlier: Iterable[Judged], on: date) -> Usual | None:
    joined = [
        one.pair
        for one in earlier
        if not one.high or (on - one.pair.on).days > JOINS_AFTER_DAYS
    ][-USUAL_OF:]
    if not joined:
        return None
    mean_square = sum(pair.error_mm**2 for pair in joined) / len(joined)
    return Usual(
        over_mm=median(pair.over_mm for pair in joined),
        error_mm=sqrt(mean_square) * _MEDIAN_SDS[len(joined) - 1],
        pairs=len(joined),
    )


def _judge(pair: Pair, usual: Usual | None, edge: float) -> Judged:
    by_itself = _chance_over(pair.over_mm - edge, pair.error_mm)
    if usual is not None:
        over = pair.over_mm - usual.over_mm - OVER_USUAL_MM
        by_usual = _chance_over(over, hypot(pair.error_mm, usual.error_mm))
        if by_usual > by_itself:
            return Judged(pair=pair, usual=usual, chance=by_usual, rule="over_usual")
    return Judged(pair=pair, usual=usual, chance=by_itself, rule="over_withers")


def _chance_over(over_mm: float, error_mm: float) -> float:
    """Return the chance that a size read so far over an edge is truly over it."""
    return (1 + erf(over_mm / (error_mm * sqrt(2)))) / 2


def same_person(one: Pair, other: Pair) -> bool:
    """Return whether one person took both: by name, else by the usual person."""
    if one.who and other.who:
        return one.who == other.who
    return one.usual_person and other.usual_person


def croup_on(judged: Sequence[Judged], on: date) -> Croup:
    """Return the newest pair up to a day, and the pause that holds on it.

    A pause begins with the second of two high readings by one person, a week or more
    apart, none between them not high; each further one begins it anew. Nothing but
    time ends it.

    Source: ours.
    """
    known = [one for one in judged if one.pair.on <= on]
    last = max(pauses_of(known), key=lambda pause: pause.ends, default=None)
    newest = known[-1] if known else None
    return Croup(
        newest=newest,
        pause=last if last and on < last.ends else None,
        again_from=_again_from(newest, last, on),
    )


def _again_from(newest: Judged | None, last: Pause | None, on: date) -> date | None:
    if last is not None and (on < last.ends or last.second == newest):
        return last.ends
    if newest is not None and newest.high:
        return newest.pair.on + timedelta(days=APART_DAYS)
    return None


def pauses_of(judged: Sequence[Judged]) -> tuple[Pause, ...]:
    """Return every pause that was ever begun, over or not.

    Source: ours.
    """
    families = dict.fromkeys(one.pair.family for one in judged)
    return tuple(
        pause
        for family in families
        for pause in _pauses(one for one in judged if one.pair.family == family)
    )


def _pauses(judged: Iterable[Judged]) -> list[Pause]:
    """Return every pause that pairs of one family began, in order of the day."""
    found: list[Pause] = []
    run: list[Judged] = []
    for one in judged:
        run = [*run, one] if one.high else []
        first = next((before for before in run if _twice(before, one)), None)
        if first is not None:
            found.append(Pause(first=first, second=one))
    return found


def _twice(first: Judged, second: Judged) -> bool:
    apart = (second.pair.on - first.pair.on).days
    return apart >= APART_DAYS and same_person(first.pair, second.pair)
