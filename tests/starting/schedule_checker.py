"""Every rule of a plan, checked from the facts and the plan alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from fitting.age import Foaled, reaches_months
from starting.schedule import (
    HorseAhead,
    HorsePlan,
    PlannedStage,
    StageAhead,
    YardDays,
)

ONE_DAY = timedelta(days=1)


def broken_rules(
    horses: Sequence[HorseAhead],
    days: YardDays,
    today: date,
    plans: Sequence[HorsePlan],
) -> list[str]:
    """Return every rule that a plan breaks, in words; none if it is sound."""
    found = list(_yard_rules(horses, days, today, plans))
    for horse, plan in zip(horses, plans, strict=True):
        if plan.horse != horse.horse:
            found.append(f"{plan.horse} stands where {horse.horse} should")
        if [one.stage for one in plan.stages] != [
            one.stage.key for one in horse.stages
        ]:
            found.append(f"{horse.horse}: steps missing or out of order")
            continue
        found += _horse_rules(horse, plan, today)
        for ahead, planned in zip(horse.stages, plan.stages, strict=True):
            if planned.start is None:
                found += _undated_rules(ahead, planned)
                continue
            found += _start_rules(horse, plan, ahead, planned, today)
            if ahead.stage.kind == "rest":
                found += _rest_rules(horse, ahead, planned)
                found += _begins_open(ahead, planned)
            else:
                found += _day_rules(horse, plan, ahead, planned, days)
    return found


def _yard_rules(
    horses: Sequence[HorseAhead],
    days: YardDays,
    today: date,
    plans: Sequence[HorsePlan],
) -> Iterator[str]:
    taken: Counter[date] = Counter()
    for horse, plan in zip(horses, plans, strict=True):
        taken[today] += horse.recent_days.count(today)
        for ahead, planned in zip(horse.stages, plan.stages, strict=True):
            if ahead.stage.kind == "sessions":
                taken.update(planned.days)
    done = sum(horse.recent_days.count(today) for horse in horses)
    for on, count in taken.items():
        if count > max(days.sessions_a_day, done if on == today else 0):
            yield f"{on}: {count} sessions, the people have {days.sessions_a_day}"


def _horse_rules(horse: HorseAhead, plan: HorsePlan, today: date) -> Iterator[str]:
    on_day: dict[date, list[StageAhead]] = {}
    for ahead, planned in zip(horse.stages, plan.stages, strict=True):
        if ahead.stage.kind == "sessions":
            for on in planned.days:
                on_day.setdefault(on, []).append(ahead)
    for on, aheads in on_day.items():
        most = 2 if all(one.stage.two_a_day for one in aheads) else 1
        if len(aheads) > most:
            yield f"{horse.horse} {on}: {len(aheads)} sessions"
    if today in horse.recent_days and today in on_day:
        yield f"{horse.horse}: a second session today"


def _undated_rules(ahead: StageAhead, planned: PlannedStage) -> Iterator[str]:
    if planned.days or planned.finish:
        yield f"{planned.stage}: days but no start"
    if not planned.because.text:
        yield f"{planned.stage}: no date and no reason"
    shut = any(hold.until is None for hold in ahead.holds)
    if shut and planned.because.kind != "cannot_say":
        yield f"{planned.stage}: nobody can say, but {planned.because.kind}"


def _start_rules(
    horse: HorseAhead,
    plan: HorsePlan,
    ahead: StageAhead,
    planned: PlannedStage,
    today: date,
) -> Iterator[str]:
    start, stage, name = planned.start, ahead.stage, planned.stage
    assert start is not None
    foaled = Foaled(first=today, last=today)
    if not today <= start <= reaches_months(foaled, 60):
        yield f"{name}: starts {start}, outside the plan"
    for hold in ahead.holds:
        if hold.until is None or start < hold.until:
            yield f"{name}: starts {start}, {hold.gate} opens {hold.until}"
    asked = {*stage.prerequisites, *stage.prerequisites_once} - {*horse.done}
    for other in plan.stages:
        if other.stage in asked and (other.finish is None or other.finish >= start):
            yield f"{name}: starts {start}, {other.stage} ends {other.finish}"
    if not ahead.under_way and start < _old_enough(horse, ahead):
        yield f"{name}: starts {start}, too young"


def _old_enough(horse: HorseAhead, ahead: StageAhead) -> date:
    foaled = Foaled(first=horse.born, last=horse.born)
    if ahead.stage.earliest_days is None:
        on = reaches_months(foaled, ahead.stage.earliest_months)
    else:
        on = horse.born + timedelta(days=ahead.stage.earliest_days)
    if horse.as_early_as_allowed:
        return on
    return max(on, reaches_months(foaled, ahead.stage.typical_months[0]))


def _rest_rules(
    horse: HorseAhead, ahead: StageAhead, planned: PlannedStage
) -> Iterator[str]:
    assert planned.start is not None
    if planned.days:
        yield f"{planned.stage}: a rest has no session days"
    if planned.finish is None or ahead.under_way:
        return
    if planned.finish < planned.start:
        yield f"{planned.stage}: ends before it starts"
    if ahead.stage.ends_at_months is not None:
        foaled = Foaled(first=horse.born, last=horse.born)
        ends = reaches_months(foaled, ahead.stage.ends_at_months)
        if planned.finish != max(ends, planned.start):
            yield f"{planned.stage}: ends {planned.finish}, not {ends}"
    elif (planned.finish - planned.start).days + 1 != ahead.stage.rest_days:
        yield f"{planned.stage}: not {ahead.stage.rest_days} days long"


def _begins_open(ahead: StageAhead, planned: PlannedStage) -> Iterator[str]:
    """A rest begins on a day no gate shuts; one under way goes on."""
    assert planned.start is not None
    for shut in () if ahead.under_way else ahead.closed:
        if shut.first <= planned.start <= shut.last:
            yield f"{planned.stage}: rests from {planned.start}, {shut.gate} shut"


def _day_rules(
    horse: HorseAhead,
    plan: HorsePlan,
    ahead: StageAhead,
    planned: PlannedStage,
    days: YardDays,
) -> Iterator[str]:
    needed = max(1, ahead.sessions_left) if ahead.stage.kind == "sessions" else 1
    name, taken = planned.stage, planned.days
    if planned.start != taken[0] or list(taken) != sorted(taken):
        yield f"{name}: days out of order"
    if (planned.finish is None) != (len(taken) < needed) or len(taken) > needed:
        yield f"{name}: {len(taken)} of {needed} days, ends {planned.finish}"
    if planned.finish not in {None, taken[-1]}:
        yield f"{name}: ends {planned.finish}, last day {taken[-1]}"
    for n, on in enumerate(taken):
        yield from _one_day_rules(horse, plan, ahead, on, days)
        if _asks_for_help(ahead, n) and days.helper and on.weekday() not in days.helper:
            yield f"{name} {on}: no helper"
    if ahead.stage.kind != "sessions" or not ahead.under_way:
        yield from _new_rules(horse, name, taken[0])
    if ahead.stage.kind == "sessions":
        yield from _pace_rules(ahead, taken)


def _asks_for_help(ahead: StageAhead, sessions_before: int) -> bool:
    asked = ahead.stage.gates_on_the_day
    at_first = "second_person_first" in asked and ahead.good_sessions < 2
    return (
        ahead.stage.people >= 2
        or "second_person" in asked
        or (at_first and ahead.good_sessions + sessions_before < 2)
    )


def _new_rules(horse: HorseAhead, name: str, new_on: date) -> Iterator[str]:
    for on in horse.vaccinated:
        if on <= new_on <= on + 2 * ONE_DAY:
            yield f"{name}: new on {new_on}, vaccinated {on}"
    for first, last in horse.gelded:
        if first <= new_on <= (last or date.max):
            yield f"{name}: new on {new_on}, gelded {first}"


def _one_day_rules(
    horse: HorseAhead, plan: HorsePlan, ahead: StageAhead, on: date, days: YardDays
) -> Iterator[str]:
    stage = ahead.stage
    if on.weekday() not in days.free:
        yield f"{stage.key} {on}: not a free day"
    if any(first <= on <= (last or date.max) for first, last in horse.rests):
        yield f"{stage.key} {on}: resting"
    if any(first <= on and (not end or on <= end) for first, end in horse.off_work):
        yield f"{stage.key} {on}: off work"
    if on in horse.care_days:
        yield f"{stage.key} {on}: a care day"
    for shut in ahead.closed:
        if shut.first <= on <= shut.last:
            yield f"{stage.key} {on}: {shut.gate} shut to {shut.last}"
    if any(first <= on <= last for first, last in _turned_away(horse, plan)):
        yield f"{stage.key} {on}: turned away"


def _turned_away(horse: HorseAhead, plan: HorsePlan) -> Iterator[tuple[date, date]]:
    for ahead, planned in zip(horse.stages, plan.stages, strict=True):
        if ahead.stage.rest_days is not None and planned.start is not None:
            yield planned.start, planned.finish or date.max


def _pace_rules(ahead: StageAhead, taken: Sequence[date]) -> Iterator[str]:
    stage, new = ahead.stage, set(taken)
    days = sorted(new | set(ahead.recent_days))
    weeks: dict[date, list[date]] = {}
    for on in days:
        weeks.setdefault(on - timedelta(days=on.weekday()), []).append(on)
    for monday, in_week in weeks.items():
        over = len(in_week) > (stage.days_a_week[1] or 7)
        if over and in_week[-1] in new:
            yield f"{stage.key}: {len(in_week)} days in the week of {monday}"
    for on in new:
        row = 1
        while on - row * ONE_DAY in days:
            row += 1
        if stage.days_in_a_row and row > stage.days_in_a_row:
            yield f"{stage.key} {on}: day {row} in a row"
