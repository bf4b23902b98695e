"""How long an answer stays good, and each size asked of growth only once."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cache, lru_cache
from math import ceil
from typing import TYPE_CHECKING, Final, Protocol

from fitting.age import DAYS_A_MONTH
from fitting.fit.answers import (
    GOOD_AT_LEAST,
    GOOD_NO_UNDER,
    Answer,
    Finding,
    Judged,
    Rule,
    middle_of,
)
from fitting.growth import Growth, Spread

if TYPE_CHECKING:
    from collections.abc import Callable

LOOK_MONTHS: Final = 24  # ours: how far ahead is looked
STEP_DAYS: Final = 28  # ours: the days between two looks; then by guess
NEAR_DAYS: Final = 14  # ours: of a step, asked of growth at once
GUESSES: Final = 3  # ours: at the day on which it turns, before halving
# Ours: how many looks make one, by the doubt that both ends leave at most.
STRIDES: Final = ((8, 0.1), (4, 0.3), (2, 0.6))


class SizeOn(Protocol):
    """A body's size on a day."""

    def on(self, day: date) -> Spread | None:
        """Return the size (mm); None: nothing is known of it."""


def last_day_looked(on: date) -> date:
    """Return the last day that is looked at from ``on``."""
    return on + timedelta(days=round(LOOK_MONTHS * DAYS_A_MONTH))


@lru_cache(maxsize=64)  # of every part that is good on that day
def days_looked(on: date) -> tuple[date, ...]:
    """Return the days looked at: ``on``, every four weeks, and the last."""
    last = last_day_looked(on)
    count = (last - on).days // STEP_DAYS + 1
    days = [on + timedelta(days=STEP_DAYS * step) for step in range(count)]
    return tuple(days) if days[-1] == last else (*days, last)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """One horse's sizes, reckoned from one day on; remembers what it was asked."""

    growth: Growth
    start: date
    _found: dict[tuple[str, date], Spread | None] = field(
        default_factory=dict, repr=False, compare=False
    )

    def at(self, measure: str, day: date) -> Spread | None:
        """Return the size of a measure on a day (mm)."""
        found = self._found
        if (measure, day) in found:
            return found[measure, day]
        if (measure, self.start) not in found:
            self._look_ahead(measure)
        if (measure, day) not in found:
            self._look_near(measure, day)
        return found[measure, day]

    def median(self, measure: str, day: date) -> float | None:
        """Return the middle size of a measure on a day (mm)."""
        size = self.at(measure, day)
        return None if size is None else middle_of(size)

    def _look_ahead(self, measure: str) -> None:
        self._look_on(measure, days_looked(self.start))

    def _look_near(self, measure: str, day: date) -> None:
        """Look at a day, and at the days about it: more of them are asked for."""
        if not self.start < day < last_day_looked(self.start):
            self._look_on(measure, (day,))
            return
        first = day - timedelta(days=(day - self.start).days % NEAR_DAYS)
        near = (first + timedelta(days=count) for count in range(NEAR_DAYS))
        self._look_on(measure, tuple(near))

    def _look_on(self, measure: str, days: tuple[date, ...]) -> None:
        found = self.growth.at_days(measure, days)
        self._found.update({(measure, day): None for day in days})
        self._found.update(
            {(measure, day): size for day, size in zip(days, found, strict=False)}
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A measure's size on any day, as growth has it."""

    sizes: Sizes
    measure: str

    def on(self, day: date) -> Spread | None:
        """Return the size (mm)."""
        return self.sizes.at(self.measure, day)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenToFit:
    """A body's size told by a try-on that sat right, grown on from that day.

    Ours: on that day the body was what the part sits best on (the middle of its good
    window), with half the window's half width as SD; on other days it is larger or
    smaller by the ratio of growth's middle sizes.
    """

    sizes: Sizes
    measure: str
    seen_on: date
    fitted_mm: float
    half_mm: float

    def on(self, day: date) -> Spread | None:
        """Return the size (mm); None where growth can say nothing of the measure."""
        then = self.sizes.median(self.measure, self.seen_on)
        now = self.sizes.median(self.measure, day)
        if then is None or now is None:
            return None
        grown = now / then
        return Spread(
            weights=(1.0,),
            means=(self.fitted_mm * grown,),
            sds=(self.half_mm / 2 * grown,),
        )


def lasting(
    rule: Rule, found: Finding, size: SizeOn, on: date, *, worn: bool = False
) -> Finding:
    """Return a good finding with the first day its answer is no longer good."""

    @cache
    def judge_on(day: date) -> Judged:
        return _judge(rule, size, day, worn=worn)

    until = good_until(judge_on, on)
    if until is None:
        return replace(found, looked_until=last_day_looked(on))
    return replace(found, good_until=until, until_chance=judge_on(until).chance_no)


def coming(rule: Rule, found: Finding, size: SizeOn, on: date) -> Finding:
    """Return a finding that is not good with the days from and to which it will be.

    A body only grows: what is too small for it already never comes.
    """
    low = found.needs_from_mm
    if low is not None and found.size_mm is not None and found.size_mm < low:
        return found

    @cache
    def judge_on(day: date) -> Judged:
        return _judge(rule, size, day, worn=False)

    first = good_from(judge_on, on)
    if first is None:
        return found
    return replace(
        found,
        good_from=first,
        from_chance=judge_on(first).chance_no,
        from_until=good_until(judge_on, on, since=first),
    )


def _judge(rule: Rule, size: SizeOn, day: date, *, worn: bool) -> Judged:
    body = size.on(day)
    if body is None:
        return Judged(answer=Answer.NOT_KNOWN, chance_no=0.0)
    return rule.judge(body, day, worn=worn)


def good_from(judge_on: Callable[[date], Judged], on: date) -> date | None:
    """Return the first day to come with a good answer; None: none as far as looked.

    It is not good on the day itself. Looks every four weeks and seeks in the step
    in which it changes: a good time shorter than that can be missed.
    """
    before = on
    for day in days_looked(on)[1:]:
        if judge_on(day).answer is Answer.GOOD:
            return _turn(judge_on, before, day)
        before = day
    return None


def good_until(
    judge_on: Callable[[date], Judged], on: date, since: date | None = None
) -> date | None:
    """Return the first day the answer is no longer good; None: good as far as looked.

    It is good on the day itself, or ``since`` a later one. Looks every four weeks and
    seeks in the step in which it changes; looks are left out between two that leave
    hardly a doubt. A change for the worse that mends again in that time can
    be missed.
    """
    days = days_looked(on)
    if since is not None:
        days = (since, *(day for day in days if day > since))
    at, now = 0, judge_on(days[0])
    while at < len(days) - 1:
        far = _stride(judge_on, days[at:], now)
        if far is not None:
            at, now = at + far[0], far[1]
            continue
        now = judge_on(days[at + 1])
        if now.answer is not Answer.GOOD:
            return _turn(judge_on, days[at], days[at + 1])
        at += 1
    return None


def _stride(
    judge_on: Callable[[date], Judged], days: tuple[date, ...], now: Judged
) -> tuple[int, Judged] | None:
    """Return how many looks may be left behind, and the answer there; None: none."""
    for steps, hardly in STRIDES:
        if _doubt(now) <= hardly and steps < len(days):
            then = judge_on(days[steps])
            if then.answer is Answer.GOOD and _doubt(then) <= hardly:
                return steps, then
    return None


def _doubt(good: Judged) -> float:
    """Return how near an answer is to being good no more: under 1 as long as it is."""
    too_few = (1.0 - good.chance_good) / (1.0 - GOOD_AT_LEAST)
    return max(good.chance_no / GOOD_NO_UNDER, too_few)


def _turn(judge_on: Callable[[date], Judged], before: date, after: date) -> date:
    """Return the first day on which it is good as it is ``after``, or is not.

    Three guesses by the doubt of both ends, which grows nearly evenly; then by halving.
    """
    good = judge_on(after).answer is Answer.GOOD
    guesses = GUESSES
    while (after - before).days > 1:
        share = _guess(judge_on(before), judge_on(after)) if guesses else 0.5
        days = (after - before).days
        middle = before + timedelta(days=min(max(ceil(days * share), 1), days - 1))
        if (judge_on(middle).answer is Answer.GOOD) is good:
            after = middle
        else:
            before = middle
        guesses -= guesses > 0
    return after


def _guess(before: Judged, after: Judged) -> float:
    """Return after which share of the days between two the doubt comes to 1."""
    low, high = _doubt(before), _doubt(after)
    if (low < 1) is (high < 1):  # it turned by something else
        return 0.5
    return (1 - low) / (high - low)
