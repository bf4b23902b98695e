"""What would bring a step's end forward, and by how much: each tried by itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from starting.schedule.days import WEEKDAYS
from starting.schedule.jobs import yard_at_work
from starting.schedule.listing import list_days
from starting.schedule.values import HorseAhead, HorsePlan, StageAhead, YardDays

WinKind = Literal["free_day", "helper_day", "early", "gate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Win:
    """One change that would bring the end forward; ``days`` None: no end without it."""

    kind: WinKind
    subject: str  # a weekday, a gate's key, nothing
    finish: date
    days: int | None


Change = tuple[WinKind, str, HorseAhead, YardDays]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """How many sessions each day has in the plan: all horses', and each one's own."""

    of_all: Counter[date]
    of_each: dict[str, Counter[date]]

    def by_others(self, horse: str) -> Counter[date]:
        """Return how many sessions of each day go to other horses."""
        return self.of_all - self.of_each.get(horse, Counter())


def sessions_taken(plans: Sequence[HorsePlan], horses: Sequence[HorseAhead]) -> Taken:
    """Return how many sessions of each day the plan gives to whom."""
    of_each = {}
    of_all: Counter[date] = Counter()
    for plan, horse in zip(plans, horses, strict=True):
        kinds = {ahead.stage.key: ahead.stage.kind for ahead in horse.stages}
        asks = (one for one in plan.stages if kinds[one.stage] == "sessions")
        own = Counter(day for one in asks for day in one.days)
        of_each[plan.horse] = own
        of_all.update(own)
    return Taken(of_all=of_all, of_each=of_each)


def wins(
    horse: HorseAhead, days: YardDays, today: date, taken: Taken, stage: str
) -> tuple[Win, ...]:
    """Return what would end a step sooner, what wins most first, one of each kind.

    The other horses keep the days the plan gives them.
    """
    others = taken.by_others(horse.horse)
    usual = _finish(horse, days, today, others, (stage, None))
    found: dict[tuple[WinKind, str], Win] = {}
    for kind, subject, changed, with_days in _changes(horse, days, today, stage):
        finish = _finish(changed, with_days, today, others, (stage, usual))
        if finish is None or (usual is not None and finish >= usual):
            continue
        won = (usual - finish).days if usual else None
        win = Win(kind=kind, subject=subject, finish=finish, days=won)
        which = (kind, subject if kind == "gate" else "")
        if which not in found or finish < found[which].finish:
            found[which] = win
    return tuple(sorted(found.values(), key=lambda win: (win.finish, win.kind)))


def _finish(
    horse: HorseAhead,
    days: YardDays,
    today: date,
    others: Mapping[date, int],
    asked: tuple[str, date | None],
) -> date | None:
    """Return when a step ends; None: not before the horizon, or the day named."""
    stage, before = asked
    yard = yard_at_work([horse], days, today)
    for on, count in others.items():
        day = (on - today).days
        yard.taken[day] = yard.taken.get(day, 0) + count
    jobs = yard.as_given[0].jobs
    job = next((one for one in jobs if one.stage.key == stage), None)
    if job is None:
        return None
    list_days(yard, until=job, last=(before - today).days if before else None)
    return yard.span(job)[1]


def _changes(
    horse: HorseAhead, days: YardDays, today: date, stage: str
) -> Iterator[Change]:
    for weekday, name in enumerate(WEEKDAYS):
        if weekday not in days.free:
            more = replace(days, free=days.free | {weekday})
            yield "free_day", name, horse, more
        elif days.helper and weekday not in days.helper:
            helped = replace(days, helper=days.helper | {weekday})
            yield "helper_day", name, horse, helped
    if not horse.as_early_as_allowed:
        yield "early", "", replace(horse, as_early_as_allowed=True), days
    for gate in _gates(horse, today, stage):
        yield "gate", gate, _without(horse, gate), days


def _gates(horse: HorseAhead, today: date, stage: str) -> list[str]:
    """Return the gates that hold the step, or one that comes before it."""
    ahead = {one.stage.key: one for one in horse.stages}
    before, found = [stage], {stage}
    while before:
        one = ahead.get(before.pop())
        asked = {*one.stage.prerequisites} - found if one else set()
        found |= asked
        before += asked
    return sorted(
        {
            gate
            for key, one in ahead.items()
            if key in found
            for gate in _shut(one, today)
        }
    )


def _shut(one: StageAhead, today: date) -> Iterator[str]:
    """Yield the gates that keep a step shut, now or again later."""
    yield from (h.gate for h in one.holds if h.until is None or h.until > today)
    yield from (closed.gate for closed in one.closed)


def _without(horse: HorseAhead, gate: str) -> HorseAhead:
    """Return the horse as if a gate were met today, wherever it is asked."""
    stages = tuple(
        replace(
            one,
            holds=tuple(hold for hold in one.holds if hold.gate != gate),
            closed=tuple(closed for closed in one.closed if closed.gate != gate),
        )
        for one in horse.stages
    )
    return replace(horse, stages=stages)
