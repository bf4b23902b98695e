"""One horse's outlook becomes its entries in the diary."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from fitting.body import MEASURES, measure_by_key
from fitting.lending import on_giving_back, why_back
from starting.diary import (
    Entry,
    Step,
    Task,
    Work,
    care_entry,
    give_back_entry,
    measure_entry,
    measure_tasks,
    stage_opens_entry,
    stage_starts_entry,
    try_on_entry,
)
from starting.gates import (
    CareDone,
    Gate,
    GateFacts,
    gate_name,
    gates_of,
    holds,
    mounted,
)
from starting.measuring import Due, MeasuringDay
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.values import StageLook
from starting.programme import Stage

AHEAD_DAYS: Final = 400  # the calendar file reaches this far
CARE_BEFORE_DAYS: Final = 21  # ours: time to get somebody to come
TRY_BEFORE_DAYS: Final = 21  # ours: time to get another item if this one does not fit
CARE_NAMES: Final = {
    "vet": "vet",
    "teeth": "teeth",
    "farrier": "farrier",
    "saddle_fitter": "saddle fitter",
    "vaccination": "vaccination",
    "worming": "worming",
    "back": "back",
    "gelding": "gelding",
    "tooth_change": "tooth change",
    "other": "visit",
}
SADDLE_GATE: Final = "fit:saddle"
VISIT_GATES: Final = {
    "teeth": "teeth",
    "wolf_teeth": "teeth",
    "vet": "vet",
    "farrier": "farrier",
}


def diary_of(
    yard: YardFacts,
    horse: HorseFacts,
    facts: GateFacts | None,
    stages: Sequence[StageLook],
    days: Sequence[MeasuringDay],
    on: date,
) -> tuple[Entry, ...]:
    """Return the entries of one horse, by day and key."""
    entries = [*_measuring(yard, horse, days, on), *_visits_due(yard, horse, on)]
    entries += _going_back(yard, horse, on)
    if facts is not None:
        soon = [s for s in stages if s.start and (s.start - on).days <= AHEAD_DAYS]
        for look in soon:
            entries += _of_stage(yard, horse, facts, look, on)
    first: dict[str, Entry] = {}
    for entry in sorted(entries, key=lambda e: (e.on, e.forecast)):
        first.setdefault(entry.key, entry)  # a named day before a reckoned one
    return tuple(sorted(first.values(), key=lambda e: (e.on, e.key)))


def _measuring(
    yard: YardFacts, horse: HorseFacts, days: Sequence[MeasuringDay], on: date
) -> Iterator[Entry]:
    taken = Counter(
        measure
        for measure, _day in {(m.taken.measure, m.taken.on) for m in horse.measured}
    )
    names = measure_tasks(days, taken)
    for day, name in zip(days, names, strict=True):
        if (day.on - on).days > AHEAD_DAYS:
            continue
        first = min(day.due, key=lambda due: (due.due_by, due.measure))
        asked = {due.measure for due in day.due}
        yield measure_entry(
            _task(
                horse,
                day.on,
                on,
                because=_measuring_because(first),
                path=f"/{yard.slug}/horses/{horse.key}/measure/",
            ),
            name,
            # Always in one order: another would be a change in somebody's calendar.
            [one.name.lower() for one in MEASURES if one.key in asked],
        )


def _measuring_because(due: Due) -> str:
    name = measure_by_key(due.measure).name
    return f"{name[:1].upper()}{name[1:]}: {due.because}."


def _visits_due(yard: YardFacts, horse: HorseFacts, on: date) -> Iterator[Entry]:
    """Return the next visits that somebody has named a day for."""
    for kind, name in CARE_NAMES.items():
        last, visits = _last_visit(horse, kind)
        if last is None or last.next_due is None:
            continue
        task = _task(
            horse,
            last.next_due,
            on,
            because=f"Next after {_day(last.on)}. Their dates come first.",
            path=f"/{yard.slug}/horses/{horse.key}/care/",
        )
        booked = replace(task, forecast=False)
        yield care_entry(booked, f"{kind}-{visits + 1}", name)


def _going_back(yard: YardFacts, horse: HorseFacts, on: date) -> Iterator[Entry]:
    """Return what is lent to the horse, on the day each goes back."""
    for lent in horse.borrowed:
        if lent.back_by is None or lent.returned is not None:
            continue
        task = _task(
            horse,
            lent.back_by,
            on,
            because=why_back(lent, on),
            path=f"/{yard.slug}/tack/{lent.key}/",
        )
        named = (lent.lender,) if lent.lender else ()
        yield give_back_entry(
            replace(task, forecast=False, others=named),
            f"lent-{lent.key}-{lent.time}",
            lent.item,
            on_giving_back(lent),
        )


def _last_visit(horse: HorseFacts, kind: str) -> tuple[CareDone | None, int]:
    """Return the last visit of a kind, and how many there were."""
    visits = [care for care in horse.care if care.kind == kind]
    last = max(
        visits, key=lambda care: (care.on, care.next_due or date.min), default=None
    )
    return last, len(visits)


def _of_stage(
    yard: YardFacts, horse: HorseFacts, facts: GateFacts, look: StageLook, on: date
) -> list[Entry]:
    stage = facts.programme.stage(look.stage)
    start = look.start
    if start is None:
        return []
    entries = list(_to_dos(yard, horse, facts, look, on))
    path = f"/{yard.slug}/horses/{horse.key}/steps/{stage.key}/"
    step = step_of(stage)
    held = _last_to_open(stage, facts, look.gates, on)
    if held is not None and held.opens_on is not None and held.opens_on < start:
        task = _task(horse, held.opens_on, on, because=held.why, path=path)
        entries.append(stage_opens_entry(task, step))
    if look.state != "under_way":
        after = tuple(entry.key for entry in entries if entry.kind != "stage_opens")
        task = _task(horse, start, on, because=look.because, path=path)
        entries.append(stage_starts_entry(replace(task, after=after), step))
    return entries


def _last_to_open(
    stage: Stage, facts: GateFacts, gates: Sequence[Gate], on: date
) -> Gate | None:
    """Return the dated gate that opens last, today or later.

    What opens today holds nothing any more; as yesterday had it, it still names the
    day. So the entry stays for the whole of its day.
    """
    dated = [gate for gate in gates if gate.opens_on is not None]
    if not dated:
        yesterday = gates_of(stage, facts, on - timedelta(days=1))
        dated = [gate for gate in yesterday if gate.opens_on == on]
    return max(dated, key=lambda gate: gate.opens_on or on, default=None)


def _to_dos(
    yard: YardFacts, horse: HorseFacts, facts: GateFacts, look: StageLook, on: date
) -> Iterator[Entry]:
    """Return what somebody must do before the step starts: visits and try-ons.

    Visits are asked about on the day the step starts: one that stands today may have
    run out by then. Where somebody named a day before the step, that day stands.
    What does not fit today is tried on three weeks before, and so is a saddle that
    nobody will have looked at for too long by then.
    """
    stage, start = facts.programme.stage(look.stage), look.start
    if start is None:
        return
    visited = VISIT_GATES.keys() & {*stage.gates_to_do, *stage.gates_dated}
    for gate in gates_of(stage, facts, max(start, on)) if visited else ():
        if gate.gate in visited and holds(gate):
            day = max(start - timedelta(days=CARE_BEFORE_DAYS), on)
            kind = VISIT_GATES[gate.gate]
            last, visits = _last_visit(horse, kind)
            if last and last.next_due and last.next_due <= start:
                day = last.next_due
            task = _task(
                horse,
                day,
                on,
                because=f"{look.name} is planned for {_day(start)}. {gate.would_meet}",
                path=f"/{yard.slug}/horses/{horse.key}/care/",
            )
            yield care_entry(task, f"{kind}-{visits + 1}", CARE_NAMES[kind])
    for gate in look.gates:
        wanted = gate.would_meet if holds(gate) else _seen_again(facts, gate, start)
        if gate.gate.startswith("fit:") and wanted:
            day = max(start - timedelta(days=TRY_BEFORE_DAYS), on)
            kind = gate.gate.removeprefix("fit:")
            task = _task(
                horse,
                day,
                on,
                because=f"{look.name} is planned for {_day(start)}. {wanted}",
                path=f"/{yard.slug}/horses/{horse.key}/try-on/",
            )
            yield try_on_entry(task, kind, gate_name(gate.gate))


def _seen_again(facts: GateFacts, gate: Gate, start: date) -> str:
    """Return why a saddle, good today, is looked at before a step; empty: it is not."""
    if gate.gate != SADDLE_GATE:
        return ""
    name = gate.record.partition(":")[2]
    ends = [f.good_until for f in facts.findings if f.item == name and f.good_until]
    if not ends or min(ends) > start:
        return ""
    last = _day(min(ends) - timedelta(days=1))
    return (
        f"What was seen of {name} stands until {last}: have it looked at again by a"
        " qualified saddle fitter."
    )


def step_of(stage: Stage) -> Step:
    """Return what an entry says of a step: who must be there, what must be worn."""
    return Step(
        key=stage.key,
        name=stage.name,
        work=work_of(stage),
        people=stage.people,
        people_better=stage.people_better,
        on_the_day=tuple(gate_name(gate) for gate in stage.gates_on_the_day),
    )


def work_of(stage: Stage) -> Work:
    """Return what kind of work a step is, for what must be worn."""
    if mounted(stage):
        return "mounted"
    if "safety_gear" in stage.gates_on_the_day:
        return "line"
    return "in_hand" if stage.kind == "sessions" else "none"


def _task(
    horse: HorseFacts, day: date, today: date, *, because: str, path: str
) -> Task:
    """Return whose entry it is; what lies ahead is a forecast."""
    return Task(
        horse=horse.name,
        horse_key=horse.key,
        on=day,
        because=because,
        path=path,
        forecast=day > today,
    )


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
