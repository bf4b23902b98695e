"""What the forms of the way up show beside their fields."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet

from fitting.models import Horse
from starting.gates import gate_name
from starting.models import StageRecord
from starting.programme import Stage
from starting.reads.step import stage_of
from starting.reads.steps import of_horse


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordPage:
    """A step that is set by hand."""

    horse: str
    key: str
    stage: str
    name: str
    kind: str
    optional: bool
    checks: tuple[str, ...]
    state: str  # as it is set by hand already; empty: it is not
    on: date | None
    others: int  # steps set in one go with it


@dataclass(frozen=True, slots=True, kw_only=True)
class AheadPage:
    """A caution that may be passed with a reason."""

    horse: str
    key: str
    stage: str
    step: str
    gate: str
    name: str
    answer: str
    why: str
    would_meet: str
    caution: str
    may_pass: bool
    counts: bool


def steps_upto(horse: Horse, key: str) -> tuple[Stage | None, tuple[Stage, ...]]:
    """Return a step, and those up to it that are neither established nor set.

    3 queries: programme, outlook, records.
    """
    programme, outlook = of_horse(horse)
    stage = stage_of(programme, key)
    if programme is None or stage is None:
        return None, ()
    done = (
        {look.stage for look in outlook.stages if look.state == "established"}
        if (outlook)
        else set()
    )
    done |= set(horse.stage_records.values_list("stage", flat=True))
    upto = programme.stages[: programme.stages.index(stage) + 1]
    return stage, tuple(one for one in upto if one.key not in done)


def set_with(record: StageRecord) -> QuerySet[StageRecord]:
    """Return the steps set in one go with this one: same day, same note."""
    return StageRecord.objects.filter(
        horse=record.horse, on=record.on, note=record.note, state=record.state
    )


def record_page(record: StageRecord, stage: Stage) -> RecordPage:
    """Return what is said beside the form of a step set by hand (1 query)."""
    kept = bool(record.pk)
    horse = record.horse
    return RecordPage(
        horse=horse.name,
        key=horse.key,
        stage=stage.key,
        name=stage.name,
        kind=stage.kind,
        optional=stage.optional,
        checks=tuple(check.text for check in stage.checks),
        state=record.get_state_display() if kept else "",
        on=record.on if kept else None,
        others=set_with(record).count() - 1 if kept else 0,
    )


def ahead_page(horse: Horse, stage: str, gate: str) -> AheadPage | None:
    """Return a gate as it answers now (2 queries); None: no such gate."""
    _, outlook = of_horse(horse)
    look = outlook.stage(stage) if outlook else None
    found = next((g for g in look.gates if g.gate == gate), None) if look else None
    if look is None or found is None:
        return None
    return AheadPage(
        horse=horse.name,
        key=horse.key,
        stage=look.stage,
        step=look.name,
        gate=gate,
        name=gate_name(gate),
        answer=str(found.answer),
        why=found.why,
        would_meet=found.would_meet,
        caution=found.caution,
        may_pass=found.may_pass,
        counts=found.went_ahead,
    )
