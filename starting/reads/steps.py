"""What the way up of one horse shows: its steps, joined by one string."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby
from typing import Final, Literal

from fitting.models import Horse
from fitting.reads.horses import horse_words
from fitting.units import write_weight
from starting.gates import holding
from starting.models import Plan
from starting.outlook import Outlook, StageLook
from starting.programme import Programme, Stage, shipped
from starting.proposing import Proposal
from starting.reads.facts import programme_of
from starting.reads.outlook import outlook_of
from starting.reads.which_programme import ref_of

Line = Literal["done", "begun", "ahead"]
DONE: Final = frozenset({"established", "go_over_again", "left_out"})
BEGUN: Final = frozenset({"open", "under_way"})


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """One step as a row: its knot, and one line."""

    key: str
    name: str
    state: str  # as its sign is named; go_over_again goes before established
    line: Line  # how the string runs through its knot
    text: str
    more: str = ""
    optional: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PhaseRows:
    """The steps of one phase, in order."""

    name: str
    line: Line
    steps: tuple[StepRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsPage:
    """The way up of one horse."""

    name: str
    key: str
    kind: str
    she: str
    her: str
    programme: str
    programme_ref: str
    asked: Proposal | None  # another one that may suit better
    asked_name: str
    grown: bool
    phases: tuple[PhaseRows, ...]
    last_true_level: str
    last_true_key: str
    settable: tuple[tuple[str, str], ...]  # steps not established yet: key and name
    complete: str
    who: str  # rider, trainer and tack, as the plan names them


def programme_for(horse: Horse) -> Programme | None:
    """Return a horse's programme; None: it is grown (1 query)."""
    plan = _plan_of(horse)
    return programme_of(plan.programme) if plan else None


def _plan_of(horse: Horse) -> Plan | None:
    named = ("programme", "rider", "trainer")
    plan = Plan.objects.filter(horse=horse).select_related(*named).first()
    return None if horse.grown else plan


def of_horse(horse: Horse) -> tuple[Programme | None, Outlook | None]:
    """Return a horse's programme and its stored outlook (2 queries)."""
    programme = programme_for(horse)
    outlook = outlook_of(horse) if programme else None
    return _as_asked(programme, outlook), outlook


def _as_asked(programme: Programme | None, outlook: Outlook | None) -> Programme | None:
    """Return a programme with the good sessions it asks of a horse as old as this."""
    if programme is None or outlook is None or programme.more_sessions == 1:
        return programme
    asked = {look.stage: look.sessions_needed for look in outlook.stages}
    stages = (
        replace(s, min_good_sessions=max(s.min_good_sessions, asked.get(s.key, 0)))
        for s in programme.stages
    )
    return replace(programme, stages=tuple(stages))


def steps_page(horse: Horse, on: date) -> StepsPage:
    """Return the way up of one horse (2 queries: plan, outlook)."""
    plan = _plan_of(horse)
    programme = programme_of(plan.programme) if plan else None
    outlook = outlook_of(horse) if plan else None
    looks = outlook.stages if outlook else ()
    asked = outlook.asked if outlook else None
    true = next((look for look in looks if look.last_true_level), None)
    return StepsPage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        she=horse.she,
        her="her" if horse.she == "she" else "him",
        programme=programme.name if programme else "",
        programme_ref=ref_of(plan.programme) if plan else "",
        asked=asked,
        asked_name=shipped(asked.programme).name if asked else "",
        grown=horse.grown,
        phases=_phases(programme, looks),
        last_true_level=true.name if true else "",
        last_true_key=true.stage if true else "",
        settable=tuple((s.stage, s.name) for s in looks if s.state != "established"),
        complete=outlook.complete if outlook else "",
        who=_who(plan) if plan else "",
    )


def _who(plan: Plan) -> str:
    """Return whom a plan names, and what all the tack weighs."""
    kg, written = plan.tack_weight_kg, plan.tack_weight_written
    tack = f"all the tack {write_weight(kg, written)}" if kg else "tack not weighed"
    rider = f"rider {plan.rider.name}" if plan.rider else "no rider named"
    trainer = f"trainer {plan.trainer.name}" if plan.trainer else "no trainer named"
    said = f"{rider}, {trainer}, {tack}."
    return said[:1].upper() + said[1:]


def _phases(
    programme: Programme | None, looks: tuple[StageLook, ...]
) -> tuple[PhaseRows, ...]:
    if programme is None:
        return ()
    by_key = {stage.key: stage for stage in programme.stages}
    rows = [(look.phase, _row(look, by_key.get(look.stage))) for look in looks]
    rows = _each_reason_once(rows)
    return tuple(
        PhaseRows(
            name=phase,
            line="ahead" if steps[0].line == "ahead" else "done",
            steps=steps,
        )
        for phase, group in groupby(rows, key=lambda row: row[0])
        for steps in (tuple(row for _, row in group),)
    )


def _each_reason_once(rows: list[tuple[str, StepRow]]) -> list[tuple[str, StepRow]]:
    """Leave away what holds a step where one further up is held by the same."""
    said: set[str] = set()
    kept = []
    for phase, row in rows:
        kept.append((phase, replace(row, more="") if row.more in said else row))
        said.add(row.more)
    return kept


def _row(look: StageLook, stage: Stage | None) -> StepRow:
    state = shown_state(look)
    text, more = _said(look)
    return StepRow(
        key=look.stage,
        name=look.name,
        state=state,
        line=_line(state),
        text=text,
        more=more,
        optional=bool(stage and stage.optional),
    )


def shown_state(look: StageLook) -> str:
    """Return a step's state as its sign is named."""
    return "go_over_again" if look.go_over_again else look.state


def _line(state: str) -> Line:
    if state in DONE:
        return "done"
    return "begun" if state in BEGUN else "ahead"


def _said(look: StageLook) -> tuple[str, str]:
    """Return the one line of a step, and what holds it first."""
    if look.again_because:
        return look.again_because, ""
    if look.go_over_again:
        since = f" since {say(look.last_on)}" if look.last_on else " for a while"
        return f"Not done{since}: go over it once.", ""
    if look.state == "established":
        return f"Since {say(look.established_on)}.", ""
    if look.state == "left_out":
        return look.because or "Not part of this horse's way up.", ""
    return _ahead(look), "" if look.may_start else to_do_first(look)


def _ahead(look: StageLook) -> str:
    done = said_sessions(look) if look.state == "under_way" else ""
    if look.start is None:
        return done or look.because or "No day yet."
    if look.state == "under_way":
        return f"{done} Likely done {say(look.finish)}." if look.finish else done
    because = f" {look.because}" if look.because else ""
    return f"Likely from {say(look.start)}.{because}"


def said_sessions(look: StageLook) -> str:
    """Return how many good sessions there are, in words."""
    if look.kind != "sessions":
        return ""
    plural = "" if look.sessions_needed == 1 else "s"
    left = f"; about {look.sessions_left} more to come" if look.sessions_left else ""
    good = f"{look.good_sessions} good session{plural} of {look.sessions_needed}"
    return f"{good}{left}."


def first_holds(look: StageLook) -> str:
    """Return what holds a step first; empty if nothing does."""
    held = holding(look.gates)
    return held[0].why if held else ""


def to_do_first(look: StageLook) -> str:
    """Return what somebody has to do first, other than the steps before.

    A step without a day says what holds it, whatever it is.
    """
    if look.start is None:
        return first_holds(look)
    held = (g for g in holding(look.gates) if g.kind == "to_do")
    return next((g.why for g in held if g.gate != "stages_before"), "")


def say(on: date | None) -> str:
    """Return a day with its year: 26 Nov 2026."""
    return f"{on.day} {on:%b %Y}" if on else ""
