"""What the page of one step shows: what she needs first, ticks, signs to stop."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.models import Horse
from fitting.reads.horses import horse_words
from fitting.reads.rung import Rung, rung_for
from fitting.sources import SOURCES
from starting.gates import Gate, GateAnswer, gate_name
from starting.kit import Kit, kit_of
from starting.models import Session, StageRecord, WentAhead
from starting.outlook import StageLook
from starting.programme import Programme, Stage
from starting.progress import CheckAnswer
from starting.reads.gate_links import Link, Places, link_of, places
from starting.reads.log import SessionRow, session_rows
from starting.reads.step_facts import StopRow, how, stop_rows, when
from starting.reads.steps import (
    first_holds,
    of_horse,
    said_sessions,
    say,
    shown_state,
)

GROUPS: Final = (
    ("to_do", "To do first", "Somebody has to see to these."),
    ("dated", "Opens by itself", "Only time opens these; nobody can hurry them."),
    ("on_the_day", "Asked on the day", "A date is never permission: ask, each time."),
)
PLAIN: Final = frozenset({"stages_before", "rest", "off_work"})  # no number in them
UNPUBLISHED: Final = {
    "common_practice": "Common practice, no published source.",
    "ours": "The rule is ours.",
}
ANSWERS: Final[Mapping[CheckAnswer, str]] = {
    "yes": "yes",
    "nearly": "nearly",
    "no": "no",
    "not_tried": "not tried",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GateRow:
    """One gate as a row."""

    gate: str
    name: str
    answer: str
    why: str
    would_meet: str
    opens_on: date | None
    caution: str
    sources: tuple[str, ...]  # published
    ours: str  # what else it rests on, in a few words
    link: Link
    may_pass: bool
    because: str  # went ahead because
    counts: bool  # whether that reason still counts

    @property
    def quiet(self) -> bool:
        """Whether one quiet line says all: it is yes, and nobody went ahead."""
        return self.answer == GateAnswer.MET and not self.because


@dataclass(frozen=True, slots=True, kw_only=True)
class GateGroup:
    """Gates of one kind."""

    title: str
    text: str
    rows: tuple[GateRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One check, with its last answer."""

    text: str
    last: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """A step set by hand."""

    state: str
    on: date
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPage:
    """One step of one horse."""

    horse: str
    key: str
    kind: str
    her: str
    stage: str
    name: str
    phase: str
    aim: str
    stage_kind: str
    optional: bool
    state: str
    progress: str
    holds: str  # what holds it first; empty: nothing, or it is done
    gates: tuple[GateGroup, ...]
    sources: tuple[tuple[str, str], ...]  # of which gate, and the published source
    ticks: tuple[Tick, ...]
    stops: tuple[StopRow, ...]
    cautions: tuple[str, ...]
    tack: tuple[str, ...]
    kit: tuple[Kit, ...]
    facts: tuple[tuple[str, str], ...]
    evidence: str
    sessions: tuple[SessionRow, ...]
    recorded: Recorded | None
    ring_vet: tuple[Rung, ...]


def step_page(horse: Horse, stage_key: str, role: str, on: date) -> StepPage | None:
    """Return one step; None: its programme has no such step.

    8 queries: programme, outlook, items, sets, reasons, record, sessions, try-ons; 1
    more where one of those rang the vet.
    """
    programme, outlook = of_horse(horse)
    stage = stage_of(programme, stage_key)
    if programme is None or stage is None:
        return None
    look = outlook.stage(stage_key) if outlook else None
    at = places(horse, role, {s.key: s.name for s in programme.stages})
    groups = gate_groups(look, at, _reasons(horse, stage_key))
    return StepPage(
        horse=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        her=at.her,
        stage=stage.key,
        name=stage.name,
        phase=stage.phase,
        aim=stage.aim,
        stage_kind=stage.kind,
        optional=stage.optional,
        state=shown_state(look) if look else "waiting",
        progress=_progress(look),
        holds=_holds(look),
        gates=groups,
        sources=sourced(groups),
        ticks=ticks_of(stage, look),
        stops=stop_rows(stage),
        cautions=stage.cautions,
        tack=stage.tack_first_met,
        kit=kit_of(look.gates, outlook.fits) if look and outlook else (),
        facts=(*how(stage, look), *when(look)),
        evidence=stage.evidence,
        sessions=session_rows(_of_step(horse, stage_key), programme),
        recorded=_recorded(horse, stage_key),
        ring_vet=rung_for(horse, on),
    )


def stage_of(programme: Programme | None, key: str) -> Stage | None:
    """Return a step of a programme; None: there is no such step."""
    stages = programme.stages if programme else ()
    return next((stage for stage in stages if stage.key == key), None)


def _of_step(horse: Horse, stage: str) -> Iterable[Session]:
    return Session.objects.filter(horse=horse, stage=stage)


def _recorded(horse: Horse, stage: str) -> Recorded | None:
    row = StageRecord.objects.filter(horse=horse, stage=stage).first()
    if row is None:
        return None
    return Recorded(state=row.get_state_display(), on=row.on, note=row.note)


def _reasons(horse: Horse, stage: str) -> dict[str, str]:
    rows = WentAhead.objects.filter(horse=horse, stage=stage)
    return {r.gate: f"{r.reason} ({r.who}, {say(r.on)})" for r in rows}


def _progress(look: StageLook | None) -> str:
    if look is None:
        return ""
    if look.again_because:
        return f"Established {say(look.established_on)}. {look.again_because}"
    if look.go_over_again:
        return f"Established {say(look.established_on)}, not done for too long since."
    if look.state == "established":
        return f"Established {say(look.established_on)}."
    return said_sessions(look) if look.state == "under_way" else ""


def _holds(look: StageLook | None) -> str:
    if look is None or look.may_start or look.state in {"established", "left_out"}:
        return ""
    return first_holds(look)


def gate_groups(
    look: StageLook | None, at: Places, reasons: Mapping[str, str]
) -> tuple[GateGroup, ...]:
    """Return the gates by kind, what is not met first; a caution once on the page."""
    if look is None:
        return ()
    found, said = [], set[str]()
    for kind, title, text in GROUPS:
        gates = [gate for gate in look.gates if gate.kind == kind]
        gates.sort(key=lambda gate: gate.answer is GateAnswer.MET)
        rows = _once([_gate_row(gate, at, reasons) for gate in gates], said)
        if rows:
            found.append(GateGroup(title=title, text=text, rows=rows))
    return tuple(found)


def _once(rows: list[GateRow], said: set[str]) -> tuple[GateRow, ...]:
    """Leave a caution away where a row further up on the page says the same."""
    kept = []
    for row in rows:
        kept.append(replace(row, caution="") if row.caution in said else row)
        said.add(row.caution)
    return tuple(kept)


def _gate_row(gate: Gate, at: Places, reasons: Mapping[str, str]) -> GateRow:
    asks = gate.answer is not GateAnswer.MET and gate.kind != "on_the_day"
    return GateRow(
        gate=gate.gate,
        name=gate_name(gate.gate),
        answer=str(gate.answer),
        why=gate.why,
        would_meet=gate.would_meet if asks else "",
        opens_on=gate.opens_on,
        caution=gate.caution,
        sources=_published(gate),
        ours=_unpublished(gate),
        link=Link() if gate.kind == "on_the_day" else link_of(gate, at),
        may_pass=gate.may_pass,
        because=reasons.get(gate.gate, ""),
        counts=gate.went_ahead,
    )


def sourced(groups: Iterable[GateGroup]) -> tuple[tuple[str, str], ...]:
    """Return every published source once, with all that rests on it."""
    found: dict[str, list[str]] = {}
    for row in (row for group in groups for row in group.rows):
        for source in row.sources:
            found.setdefault(source, []).append(row.name)
    return tuple((", ".join(names), source) for source, names in found.items())


def _published(gate: Gate) -> tuple[str, ...]:
    found = (SOURCES[key] for key in gate.sources if key in SOURCES)
    return tuple(source.text for source in found if source.kind == "published")


def _unpublished(gate: Gate) -> str:
    if gate.gate in PLAIN or gate.kind == "on_the_day":
        return ""
    return " ".join(UNPUBLISHED[key] for key in gate.sources if key in UNPUBLISHED)


def ticks_of(stage: Stage, look: StageLook | None) -> tuple[Tick, ...]:
    """Return the ticks of a step, each with its last answer."""
    last = dict(look.last_checks) if look else {}
    return tuple(
        Tick(
            text=check.text, last=ANSWERS[last[check.key]] if check.key in last else ""
        )
        for check in stage.checks
    )
