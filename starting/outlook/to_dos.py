"""What is to be done for a horse, planned backwards from the steps that need it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from fitting.teeth import beginning
from fitting.wanted import Thing, Wants, things_of
from fitting.wanted.telling import back_words
from starting.diary import task_key
from starting.gates import Gate, GateFacts, gate_name, gates_of, holds
from starting.outlook.care_due import named_next, next_care
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.values import StageLook

AHEAD_DAYS: Final = 400  # the calendar file reaches this far
CARE_BEFORE_DAYS: Final = 21  # ours: time to get somebody to come
TRY_BEFORE_DAYS: Final = 21  # ours: time to get another item if this one does not fit
TRY_NEW_BEFORE_DAYS: Final = 14  # ours: what is got first is tried on after that
# How much sooner each may be done, where that saves a day; ours.
SOONER_DAYS: Final = {"care": 28, "try_on": 21, "get": 28}
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
MOUTH_WATCH: Final = "watch the mouth"
SADDLE_GATE: Final = "fit:saddle"
VISIT_GATES: Final = {
    "teeth": "teeth",
    "wolf_teeth": "teeth",
    "vet": "vet",
    "farrier": "farrier",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """One thing to be done: useful from, due by; ``name`` is the task's in its key.

    ``fixed``: its day stands, and is shared with nothing else. ``late``: it should
    have been done before today.
    """

    kind: Literal["care", "try_on", "get"]
    name: str
    what: str
    useful_from: date
    due_by: date
    because: str
    path: str
    stage: str = ""
    fixed: bool = False
    late: bool = False
    cautions: tuple[str, ...] = ()

    def key(self, horse: HorseFacts) -> str:
        """The key of its entry in the diary."""
        return task_key(horse.key, self.kind, self.name)


def to_dos_of(
    yard: YardFacts,
    horse: HorseFacts,
    facts: GateFacts | None,
    stages: Sequence[StageLook],
    wanted: Wants,
    on: date,
) -> tuple[ToDo, ...]:
    """Return what is to be done for one horse, each for every step that asks for it.

    Of a grown horse, kept for comparison, nothing is asked.
    """
    getting = list(_to_get(yard, horse, wanted, on))
    if facts is None:
        return tuple(getting)
    got_first = {one.name.partition("-")[0] for one in getting}
    care = (one for one in _care(yard, horse, on) if _is_near(one.due_by, on))
    found: list[ToDo] = [*getting, *care]
    for look in stages:
        if look.start and _is_near(look.start, on):
            found += _visits(yard, horse, facts, look, on)
            found += _try_ons(yard, horse, facts, look, on, got_first)
    return tuple(found)


def care_name(horse: HorseFacts, kind: str) -> str:
    """Return the task's name of the next visit of a kind."""
    return f"{kind}-{sum(care.kind == kind for care in horse.care) + 1}"


def _sooner(kind: str, by: date) -> date:
    return by - timedelta(days=SOONER_DAYS[kind])


def _care_path(yard: YardFacts, horse: HorseFacts) -> str:
    return f"/{yard.slug}/horses/{horse.key}/care/"


def _care(yard: YardFacts, horse: HorseFacts, on: date) -> Iterator[ToDo]:
    """Yield what is due whatever the steps ask: teeth, feet, what was left open."""
    path = _care_path(yard, horse)
    for due in next_care(horse.care, horse.foaled, on):
        yield ToDo(
            kind="care",
            name=care_name(horse, due.kind),
            what=CARE_NAMES[due.kind],
            useful_from=due.useful_from,
            due_by=max(due.due_by, on),
            because=due.because,
            path=path,
            late=due.due_by < on or due.useful_from == due.due_by,
        )
    for day, changes in beginning(horse.foaled, on):
        names = " and ".join(change.name for change in changes)
        yield ToDo(
            kind="care",
            name=f"tooth_change-from-{changes[0].from_months}",
            what=MOUTH_WATCH,
            useful_from=day,
            due_by=day,
            because=f"From about now these teeth may change: {names}.",
            path=path,
            fixed=True,
        )


def _visits(
    yard: YardFacts, horse: HorseFacts, facts: GateFacts, look: StageLook, on: date
) -> Iterator[ToDo]:
    """Yield the visits a step needs.

    They are asked about on the day the step starts: one that stands today may have
    run out by then. Where somebody named a day before the step, that day stands.
    """
    stage, start = facts.programme.stage(look.stage), look.start
    if start is None:
        return
    visited = VISIT_GATES.keys() & {*stage.gates_to_do, *stage.gates_dated}
    for gate in gates_of(stage, facts, max(start, on)) if visited else ():
        if gate.gate not in visited or not holds(gate):
            continue
        kind, wanted = VISIT_GATES[gate.gate], _before(start, CARE_BEFORE_DAYS)
        by = max(wanted, on)
        booked = named_next(horse.care, kind, on)
        stands = booked is not None and booked <= start
        by = booked if booked is not None and stands else by
        yield ToDo(
            kind="care",
            name=care_name(horse, kind),
            what=CARE_NAMES[kind],
            useful_from=_sooner("care", by),
            due_by=by,
            because=f"{look.name} is planned for {_day(start)}. {gate.would_meet}",
            path=_care_path(yard, horse),
            stage=look.stage,
            fixed=stands,
            late=wanted < on,
        )


def _try_ons(
    yard: YardFacts,
    horse: HorseFacts,
    facts: GateFacts,
    look: StageLook,
    on: date,
    got_first: set[str],
) -> Iterator[ToDo]:
    """Yield the try-ons a step needs: of what does not fit, or not for long enough.

    What has to be got is tried on after that; a saddle that nobody will have looked
    at for too long by the step is looked at again.
    """
    start = look.start
    if start is None:
        return
    for gate in look.gates:
        subject, _, kind = gate.gate.partition(":")
        wanted = gate.would_meet if holds(gate) else _seen_again(facts, gate, start)
        if subject != "fit" or not wanted:
            continue
        sooner = SOONER_DAYS["try_on"]
        by = _before(start, TRY_BEFORE_DAYS)
        if kind in got_first:
            by = _before(start, TRY_NEW_BEFORE_DAYS)
            sooner = TRY_BEFORE_DAYS - TRY_NEW_BEFORE_DAYS
        yield ToDo(
            kind="try_on",
            name=kind,
            what=gate_name(gate.gate),
            useful_from=by - timedelta(days=sooner),
            due_by=max(by, on),
            because=f"{look.name} is planned for {_day(start)}. {wanted}",
            path=f"/{yard.slug}/horses/{horse.key}/try-on/",
            stage=look.stage,
            late=by < on,
        )


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


def _to_get(
    yard: YardFacts, horse: HorseFacts, wants: Wants, on: date
) -> Iterator[ToDo]:
    """Yield what is to be bought or borrowed, and not ticked as got."""
    for thing in things_of(wants.wanted):
        if thing.got_on is not None:
            continue
        yield ToDo(
            kind="get",
            name=f"{thing.kind}-{thing.part}" if thing.part else thing.kind,
            what=thing.with_article,
            useful_from=_sooner("get", thing.by),
            due_by=max(thing.by, on),
            because=_needed(thing),
            path=f"/{yard.slug}/horses/{horse.key}/to-get/",
            late=thing.by < on,
            cautions=_cautions(thing),
        )


def _cautions(thing: Thing) -> tuple[str, ...]:
    every = (caution for one in thing.wanted for caution in one.cautions)
    return tuple(dict.fromkeys(every))


def _needed(thing: Thing) -> str:
    """Return what it is needed for; the days ahead are within a year."""
    wanted = thing.first
    day = f"{wanted.needed_on.day} {wanted.needed_on:%b %Y}"
    back = back_words(thing.wanted)
    if wanted.stage_name:
        said, none = f"{wanted.stage_name} is planned for {day}", "nothing here"
    elif wanted.is_due:
        said, none = f"{wanted.item} is no longer good", "nothing else here"
    else:
        said, none = f"{wanted.item} is good until about {day}", "nothing else here"
    return f"{said}. {back}" if back else f"{said}: {none} is good then."


def _is_near(day: date, on: date) -> bool:
    return (day - on).days <= AHEAD_DAYS


def _before(start: date, days: int) -> date:
    return start - timedelta(days=days)


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
