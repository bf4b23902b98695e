"""One horse's outlook becomes its entries in the diary."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from fitting.body import MEASURES, measure_by_key
from fitting.lending import on_giving_back, why_back
from starting.dated.bring import TO_A_SHOP, for_a_visit, measuring_tools
from starting.diary import (
    Entry,
    Step,
    Task,
    Work,
    care_entry,
    get_entry,
    give_back_entry,
    measure_entry,
    measure_tasks,
    stage_opens_entry,
    stage_starts_entry,
    task_key,
    try_on_entry,
)
from starting.gates import (
    CareDone,
    Gate,
    GateFacts,
    gate_name,
    gates_of,
    mounted,
)
from starting.measuring import Due, MeasuringDay
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.to_dos import (
    AHEAD_DAYS,
    CARE_NAMES,
    MOUTH_WATCH,
    ToDo,
    care_name,
)
from starting.outlook.values import StageLook
from starting.people import least_people
from starting.programme import Stage

WATCHING: Final = (
    "Next: look with the lips lifted, once a week, never with fingers between the"
    " teeth; write a tooth change in when you see one. A bit that is minded stays out"
    " until your vet or a qualified dental technician has looked."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """The measuring days, and what else is to be done, each on its day.

    ``for_steps``: every to-do with the step that asks for it, shared or not.
    """

    measuring: tuple[MeasuringDay, ...]
    on_their_days: tuple[tuple[ToDo, date], ...]
    for_steps: tuple[ToDo, ...]

    def keys_for(self, horse: HorseFacts, stage: str) -> tuple[str, ...]:
        """Return the keys of the entries that a step waits for."""
        keys = (one.key(horse) for one in self.for_steps if one.stage == stage)
        return tuple(dict.fromkeys(keys))


def diary_of(
    yard: YardFacts,
    horse: HorseFacts,
    facts: GateFacts | None,
    stages: Sequence[StageLook],
    planned: Planned,
    on: date,
) -> tuple[Entry, ...]:
    """Return the entries of one horse, by day and key."""
    days = planned.measuring
    entries = [*_measuring(yard, horse, days, on), *_visits_due(yard, horse, on)]
    entries += _going_back(yard, horse, on)
    entries += (_to_do(horse, one, day, on) for one, day in planned.on_their_days)
    if facts is not None:
        soon = [s for s in stages if s.start and (s.start - on).days <= AHEAD_DAYS]
        starts = {look.stage for look in soon if look.state != "under_way"}
        for look in soon:
            first = _steps_before(facts.programme.stage(look.stage), horse, starts)
            after = (*planned.keys_for(horse, look.stage), *first)
            entries += _of_stage(yard, horse, facts, look, after, on)
    once: dict[str, Entry] = {}
    for entry in sorted(entries, key=lambda e: (e.on, e.forecast)):
        once.setdefault(entry.key, entry)  # a named day before a reckoned one
    return tuple(sorted(once.values(), key=lambda e: (e.on, e.key)))


def _steps_before(
    stage: Stage, horse: HorseFacts, starts: Collection[str]
) -> tuple[str, ...]:
    """Return the keys of planned starts that a step waits for."""
    before = dict.fromkeys((*stage.prerequisites, *stage.prerequisites_once))
    return tuple(
        task_key(horse.key, "stage_starts", one) for one in before if one in starts
    )


def _measuring(
    yard: YardFacts, horse: HorseFacts, days: Sequence[MeasuringDay], on: date
) -> Iterator[Entry]:
    taken = Counter(
        measure
        for measure, _day in {(m.taken.measure, m.taken.on) for m in horse.measured}
    )
    for day, name in zip(days, measure_tasks(days, taken), strict=True):
        if (day.on - on).days > AHEAD_DAYS:
            continue
        first = min(day.due, key=lambda due: (due.due_by, due.measure))
        # Always in one order: another would be a change in somebody's calendar.
        asked = {due.measure for due in day.due}
        measures = [one for one in MEASURES if one.key in asked]
        task = _task(
            horse,
            day.on,
            on,
            because=_measuring_because(first),
            path=f"/{yard.slug}/horses/{horse.key}/measure/",
        )
        tools = measuring_tools([one.key for one in measures])
        names = [one.name.lower() for one in measures]
        yield measure_entry(replace(task, bring=tools), name, names)


def _measuring_because(due: Due) -> str:
    name = measure_by_key(due.measure).name
    return f"{name[:1].upper()}{name[1:]}: {due.because}."


def _visits_due(yard: YardFacts, horse: HorseFacts, on: date) -> Iterator[Entry]:
    """Return the next visits that somebody has named a day for."""
    for kind, name in CARE_NAMES.items():
        last = _last_visit(horse, kind)
        if last is None or last.next_due is None:
            continue
        task = _task(
            horse,
            last.next_due,
            on,
            because=f"Next after {_day(last.on)}. Their dates come first.",
            path=f"/{yard.slug}/horses/{horse.key}/care/",
        )
        booked = replace(task, forecast=False, bring=for_a_visit(kind))
        yield care_entry(booked, care_name(horse, kind), name)


def _to_do(horse: HorseFacts, one: ToDo, day: date, on: date) -> Entry:
    """Return the entry of something to be done, on its day."""
    task = replace(
        _task(horse, day, on, because=one.because, path=one.path),
        cautions=one.cautions,
    )
    if one.kind == "try_on":
        return try_on_entry(task, one.name, one.what)
    if one.kind == "get":
        return get_entry(replace(task, bring=TO_A_SHOP), one.name, one.what)
    if one.what == MOUTH_WATCH:  # by the foaling day: no plan moves it
        task = replace(task, forecast=False)
        return care_entry(task, one.name, one.what, WATCHING)
    visit = for_a_visit(one.name.rpartition("-")[0])
    return care_entry(replace(task, bring=visit), one.name, one.what)


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


def _last_visit(horse: HorseFacts, kind: str) -> CareDone | None:
    """Return the last visit of a kind; of one day, the one that names the next."""
    visits = (care for care in horse.care if care.kind == kind)
    return max(
        visits, key=lambda care: (care.on, care.next_due or date.min), default=None
    )


def _of_stage(
    yard: YardFacts,
    horse: HorseFacts,
    facts: GateFacts,
    look: StageLook,
    after: tuple[str, ...],
    on: date,
) -> list[Entry]:
    stage = facts.programme.stage(look.stage)
    start = look.start
    if start is None:
        return []
    entries: list[Entry] = []
    path = f"/{yard.slug}/horses/{horse.key}/steps/{stage.key}/"
    step = step_of(stage)
    held = _last_to_open(stage, facts, look.gates, on)
    if held is not None and held.opens_on is not None and held.opens_on < start:
        task = _task(horse, held.opens_on, on, because=held.why, path=path)
        entries.append(stage_opens_entry(task, step))
    if look.state != "under_way":
        task = _task(horse, start, on, because=look.because, path=path)
        ready = replace(task, after=after, bring=_worn_by_the_horse(stage))
        entries.append(stage_starts_entry(ready, step))
    return entries


def _worn_by_the_horse(stage: Stage) -> tuple[str, ...]:
    gates = dict.fromkeys((*stage.gates_to_do, *stage.gates_dated))
    return tuple(gate_name(gate) for gate in gates if gate.startswith("fit:"))


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


def step_of(stage: Stage) -> Step:
    """Return what an entry says of a step: who must be there, what must be worn."""
    return Step(
        key=stage.key,
        name=stage.name,
        work=work_of(stage),
        people=least_people(stage, stage.gates_on_the_day),
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
