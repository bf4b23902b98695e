"""Ready to back: every fact that counts before a rider, for one horse."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.age import reaches_months
from fitting.looks import MeasureLook
from fitting.models import Horse
from fitting.readings import show_between, understood
from fitting.reads.facts import taken_fact
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.units import day_words, units_of
from fitting.sources import SOURCES
from starting.experts import QUESTIONS
from starting.gates import Gate, GateAnswer, mounted
from starting.models import Plan
from starting.outlook import Outlook, StageLook
from starting.programme import Programme
from starting.reads.facts import programme_of
from starting.reads.gate_links import places
from starting.reads.outlook import outlook_of
from starting.reads.seats import (
    Seated,
    Seats,
    best_of,
    riders_of,
    seats_of,
    tack_of,
    weighs,
)
from starting.reads.step import GateGroup, gate_groups, sourced
from starting.seats import nobody_ever_light

FIRST_STEPS: Final = 3  # with a rider's floor: the check, the block, leaned over
LONG_REINS: Final = "long_reins"  # the steps of long reins begin so
SPINE_MONTHS: Final = (59, 80)  # Source: Haussler 1997: 4.9 to 6.7 years
BADNESS: Final = (
    GateAnswer.SHUT, GateAnswer.NOT_KNOWN, GateAnswer.CAUTION, GateAnswer.MET,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One fact as a row; ``page``: the address where it is seen."""

    title: str
    said: str
    note: str = ""
    page: str = ""
    link: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRow:
    """One side of a question, with its sources spelt out."""

    says: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Disputed:
    """A question on which experts disagree."""

    asked: str
    sides: tuple[SideRow, ...]
    here: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyPage:
    """Everything to look at before a rider, for one horse."""

    head: HorseHead
    key: str
    stage: str  # the check, as far as this programme has one
    grown: bool
    top: str
    finish: str  # a small pony that may finish at long reins; empty: not so
    facts: tuple[Fact, ...]
    gates: tuple[GateGroup, ...]
    sources: tuple[tuple[str, str], ...]
    seats: Seats | None
    disputed: tuple[Disputed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Of:
    seated: Seated
    programme: Programme | None
    outlook: Outlook | None

    @property
    def horse(self) -> Horse:
        return self.seated.horse


def ready_page(horse: Horse, role: str, on: date) -> ReadyPage:
    """Return every fact that counts before a rider (7 queries).

    Plan twice, outlook, measurements, people, items, sets.
    """
    told = _told(horse, on)
    look = _asked_first(told)
    steps = {s.key: s.name for s in told.programme.stages} if told.programme else {}
    groups = gate_groups(look, places(horse, role, steps), {})
    finish = _finish(told)
    return ReadyPage(
        head=horse_head(horse, on),
        key=horse.key,
        stage=look.stage if look else "",
        grown=horse.grown,
        top="" if finish else _top(told, look),
        finish=finish,
        facts=tuple(_facts(told)),
        gates=groups,
        sources=sourced(groups),
        seats=seats_of(told.seated) if role == "keeper" and not horse.grown else None,
        disputed=disputed(),
    )


def disputed() -> tuple[Disputed, ...]:
    """Return where experts disagree, with the sources of each side spelt out."""
    return tuple(
        Disputed(
            asked=one.asked,
            sides=tuple(
                SideRow(says=side.says, sources=tuple(_spelt(side.sources)))
                for side in one.sides
            ),
            here=one.here,
        )
        for one in QUESTIONS
    )


def _spelt(keys: Iterable[str]) -> Iterator[str]:
    return (SOURCES[key].text for key in keys)


def _told(horse: Horse, on: date) -> _Of:
    plan = Plan.objects.filter(horse=horse).select_related("programme").first()
    whole = plan is not None and not horse.grown
    taken = [taken_fact(row) for row in horse.measurements.filter(struck="")]
    outlook = outlook_of(horse)
    return _Of(
        seated=Seated(
            horse=horse,
            best=best_of(horse, taken, on),
            tack_kg=tack_of(plan),
            riders=riders_of(horse.yard),
            on=on,
            grown_kg=outlook.grown_kg if outlook else None,
        ),
        programme=programme_of(plan.programme) if plan and whole else None,
        outlook=outlook,
    )


def _asked_first(told: _Of) -> StageLook | None:
    """Return the check before a rider, with all that it and the first steps ask."""
    stages = told.programme.stages if told.programme else ()
    keys = [stage.key for stage in stages if mounted(stage)][:FIRST_STEPS]
    looks = [look for key in keys if told.outlook and (look := told.outlook.stage(key))]
    if not looks:
        return None
    return replace(looks[0], gates=worst_of(looks))


def worst_of(looks: Sequence[StageLook]) -> tuple[Gate, ...]:
    """Return each gate of some steps once, as the worst of them answers it.

    Of the steps before, only the first step's own are asked for.
    """
    worst: dict[str, Gate] = {}
    for gate in (gate for look in looks for gate in look.gates):
        if gate.gate == "stages_before" and gate.stage != looks[0].stage:
            continue
        kept = worst.get(gate.gate)
        if kept is None or BADNESS.index(gate.answer) < BADNESS.index(kept.answer):
            worst[gate.gate] = gate
    return tuple(worst.values())


def _top(told: _Of, look: StageLook | None) -> str:
    name = told.horse.name
    if told.horse.grown:
        return f"{name} is grown and has no way up here: nothing is asked."
    if look is None:
        return f"{name} is being planned, or this way up has no step with a rider."
    if look.state == "established":
        since = day_words(look.established_on) if look.established_on else "some day"
        return f"The check is done: {look.name}, {since}."
    held = [
        gate
        for gate in look.gates
        if gate.kind != "on_the_day" and gate.answer != GateAnswer.MET
    ]
    if not held:
        return (
            "Nothing that is written down stands in the way. That is no permission:"
            " your vet, your trainer and the day decide."
        )
    things = "1 thing is" if len(held) == 1 else f"{len(held)} things are"
    return f"Not yet: {things} not a yes. Each says what would make it one."


def _finish(told: _Of) -> str:
    """Return why this horse may finish at long reins; empty: a rider may come."""
    horse, seated = told.horse, told.seated
    none = nobody_ever_light(seated.riders, seated.tack_kg, seated.grown_kg)
    complete = told.outlook.complete if told.outlook else ""
    if complete and not horse.grown:
        return f"{complete} Nothing below has to become a yes."
    if horse.grown or not (none or horse.horse_type == Horse.Type.SMALL_PONY):
        return ""
    why = (
        f"No rider of this yard is light enough for {horse.name}, even grown."
        if none
        else f"{horse.name} is a small pony, and few riders are light enough for one."
    )
    looks = told.outlook.stages if told.outlook else ()
    done = [
        look
        for look in looks
        if look.stage.startswith(LONG_REINS) and look.state == "established"
    ]
    there = (
        f"{done[-1].name} is established: the way up is done as far as it needs to go."
        if done
        else "Long reins, in hand and out and about, are a whole way up."
    )
    return f"{why} {there} Nothing below has to become a yes."


def _facts(told: _Of) -> Iterator[Fact]:
    if told.horse.grown:
        return
    height = told.outlook.measure("withers_height") if told.outlook else None
    yield Fact(
        title="Growth left",
        said=" ".join(_left(told, height)),
        page="fitting:horse",
        link="See the growth",
    )
    first, last = (reaches_months(told.horse.foaled_days, m) for m in SPINE_MONTHS)
    yield Fact(
        title="The spine",
        said=f"Goes on growing until about {first:%Y} to {last:%Y}.",
        note="4.9 to 6.7 years in 36 Thoroughbreds (Haussler and others 1997); nobody"
        " sees it from outside. Ask your vet.",
    )
    yield Fact(
        title="Weight to go by",
        said=weighs(told.seated),
        page="fitting:weight",
        link="See weight and condition",
    )
    true = _true_level(told)
    yield Fact(
        title="Last true level",
        said=f"{true}." if true else "None yet: no step is established.",
        page="starting:steps",
        link="See the way up",
    )


def _left(told: _Of, look: MeasureLook | None) -> Iterator[str]:
    if look is None or look.now is None or look.grown is None:
        yield "Not known until the height is measured."
        return
    units = units_of(told.horse.yard)
    if look.done:
        low, high = 100 * look.done.p5, 100 * look.done.p95
        reached = f"{low:.0f} to {high:.0f} % of the grown height is reached"
        yield f"{reached}, nine times in ten."
    grown = show_between(look.grown.p5, look.grown.p95, "height", units)
    yield f"Now about {understood(look.now.p50, 'height', units)}, grown {grown}."


def _true_level(told: _Of) -> str:
    looks = told.outlook.stages if told.outlook else ()
    return next((look.name for look in looks if look.last_true_level), "")
