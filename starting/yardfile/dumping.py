"""A yard becomes its file: the same yard, the same bytes."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable

import msgspec

from fitting.models import Horse, Yard
from fitting.units import write_weight
from fitting.yardfile.dumping import (
    body_keys,
    in_order,
    iso,
    set_shapes,
    tack_shapes,
    yard_shape,
)
from starting.models import (
    Bought,
    CareVisit,
    DiaryTick,
    Incident,
    OffWork,
    Person,
    Plan,
    ProgrammeVersion,
    Rest,
    Session,
    SessionWorn,
    StageRecord,
    WentAhead,
)
from starting.yardfile import shapes
from starting.yardfile.loading import CAN
from starting.yardfile.programmes import written_changes

RECORDS = (
    "measurements", "tryons__parts", "tryons__tack", "tryons__made_up",
    "first_worn__tack", "stage_records", "sessions__worn__tack",
    "sessions__worn__made_up", "care", "incidents", "off_work", "rests",
    "went_ahead", "diary_ticks",
)  # fmt: skip
JOINED = ("plan__programme", "plan__rider", "plan__trainer")


def dump_yard(yard: Yard) -> bytes:
    """Return a yard as its file: UTF-8, ISO days, every size with its unit."""
    built = msgspec.to_builtins(yard_file(yard))
    text = json.dumps(built, ensure_ascii=False, indent=2)
    return f"{text}\n".encode()


def yard_file(yard: Yard) -> shapes.YardFile:
    """Return a yard in the shape of its file (34 queries)."""
    names = _programme_names(yard)
    rows = yard.horses.select_related(*JOINED).prefetch_related(*RECORDS)
    horses = sorted(rows, key=lambda row: row.name)
    return shapes.YardFile(
        format=shapes.FORMAT,
        version=shapes.VERSION,
        yard=yard_shape(yard),
        people=[
            _person(row) for row in sorted(yard.people.all(), key=lambda p: p.name)
        ],
        horses=[_horse(row, names) for row in horses],
        tack=tack_shapes(yard),
        sets=set_shapes(yard),
        programmes=_programmes(yard, names),
        bought=_bought(yard),
    )


def _programme_names(yard: Yard) -> dict[int, str]:
    """Return a name for each programme of the yard; a name of several is numbered."""
    seen: Counter[str] = Counter()
    names: dict[int, str] = {}
    for row in yard.programmes.order_by("pk"):
        seen[row.name] += 1
        number = f" ({seen[row.name]})" if seen[row.name] > 1 else ""
        names[row.pk] = f"{row.name}{number}"
    return names


def _programmes(yard: Yard, names: dict[int, str]) -> list[shapes.Programme]:
    """Return a yard's own programmes by name, each in its versions, oldest first."""
    rows = sorted(yard.programmes.all(), key=lambda row: (row.name, row.pk))
    return [
        shapes.WrittenProgramme(
            name=names[row.pk],
            from_=row.key,
            changes=written_changes(row),
            version_of=row.name if names[row.pk] != row.name else "",
            made=row.made_at.isoformat(),
            who=row.made_by,
            why=row.what_changed,
        )
        for row in rows
    ]


def _person(row: Person) -> shapes.Person:
    return shapes.Person(
        name=row.name,
        can=in_order(row.can, CAN),
        weight=_weight(row.weight_kg, row.weight_written),
        has_backed_horses=row.has_backed_horses,
        child=row.child,
    )


def _weight(kg: float | None, written: str) -> str | None:
    return None if kg is None else write_weight(kg, written)


def _horse(row: Horse, names: dict[int, str]) -> shapes.Horse:
    return shapes.Horse(
        **body_keys(row),
        plan=None if row.grown else _plan(getattr(row, "plan", None), names),
        stages=_stages(row.stage_records.all()),
        sessions=_sessions(row.sessions.all()),
        care=_care(row.care.all()),
        incidents=_incidents(row.incidents.all()),
        off_work=_off_work(row.off_work.all()),
        rests=_rests(row.rests.all()),
        went_ahead=_went_ahead(row.went_ahead.all()),
        ticked=_ticked(row.diary_ticks.all()),
    )


def _plan(row: Plan | None, names: dict[int, str]) -> shapes.Plan:
    """Return a youngster's plan; without one it is brought on as usual."""
    if row is None:
        return shapes.WrittenPlan()
    return shapes.WrittenPlan(
        programme=_programme_name(row.programme, names),
        aim=shapes.Aim(stage=row.aim_stage, by=iso(row.aim_by)),
        as_early_as_allowed=row.as_early_as_allowed,
        rider=row.rider.name if row.rider else None,
        trainer=row.trainer.name if row.trainer else None,
        tack_weight=_weight(row.tack_weight_kg, row.tack_weight_written),
    )


def _programme_name(row: ProgrammeVersion, names: dict[int, str]) -> str:
    return names.get(row.pk, row.key)


def _stages(rows: Iterable[StageRecord]) -> list[shapes.StageRecord]:
    ordered = sorted(rows, key=lambda row: (row.on, row.stage))
    return [
        shapes.StageRecord(
            stage=row.stage, state=row.state, on=row.on.isoformat(), note=row.note
        )
        for row in ordered
    ]


def _sessions(rows: Iterable[Session]) -> list[shapes.Session]:
    """Return sessions by day; of one day in the order they were written down."""
    return [
        shapes.Session(
            on=row.on.isoformat(),
            stage=row.stage,
            minutes=row.minutes,
            checks={key: row.checks[key] for key in sorted(row.checks)},
            stop=_stop(row),
            worn=[_worn(worn) for worn in row.worn.all()],
            on_the_day={key: row.on_the_day[key] for key in sorted(row.on_the_day)},
            mood=row.mood,
            who=row.who,
            note=row.note,
        )
        for row in sorted(rows, key=lambda row: (row.on, row.pk))
    ]


def _stop(row: Session) -> str | shapes.Stop:
    if not row.stop_sign:
        return ""
    return shapes.Stop(sign=row.stop_sign, level=row.stop_level)


def _worn(row: SessionWorn) -> shapes.Worn:
    return shapes.Worn(
        item=row.tack.name if row.tack else "",
        made_up=row.made_up.name if row.made_up else "",
        part=row.part,
        seen=row.seen,
        hole=row.hole,
    )


def _care(rows: Iterable[CareVisit]) -> list[shapes.Care]:
    return [
        shapes.Care(
            kind=row.kind,
            on=row.on.isoformat(),
            clear=row.clear,
            wolf_teeth=row.wolf_teeth,
            healing_until=iso(row.healing_until),
            next_due=iso(row.next_due),
            who=row.who,
            note=row.note,
        )
        for row in sorted(rows, key=lambda row: (row.on, row.kind, row.pk))
    ]


def _incidents(rows: Iterable[Incident]) -> list[shapes.Incident]:
    ordered = sorted(rows, key=lambda row: (row.on, row.what, row.pk))
    return [
        shapes.Incident(on=row.on.isoformat(), what=row.what, note=row.note)
        for row in ordered
    ]


def _off_work(rows: Iterable[OffWork]) -> list[shapes.OffWork]:
    return [
        shapes.OffWork(
            start=row.start.isoformat(),
            why=row.why,
            until=iso(row.until),
            cleared_by=row.cleared_by,
            cleared_on=iso(row.cleared_on),
        )
        for row in sorted(rows, key=lambda row: (row.start, row.pk))
    ]


def _rests(rows: Iterable[Rest]) -> list[shapes.Rest]:
    ordered = sorted(rows, key=lambda row: (row.start, row.pk))
    return [
        shapes.Rest(start=row.start.isoformat(), end=iso(row.end), why=row.why)
        for row in ordered
    ]


def _went_ahead(rows: Iterable[WentAhead]) -> list[shapes.WentAhead]:
    return [
        shapes.WentAhead(
            stage=row.stage,
            gate=row.gate,
            reason=row.reason,
            who=row.who,
            on=row.on.isoformat(),
        )
        for row in sorted(rows, key=lambda row: (row.on, row.stage, row.gate))
    ]


def _ticked(rows: Iterable[DiaryTick]) -> list[shapes.Ticked]:
    return [
        shapes.Ticked(
            task=row.key.partition("/")[2],
            due=row.due_on.isoformat(),
            on=row.on.isoformat(),
            who=row.who,
        )
        for row in sorted(rows, key=lambda row: (row.on, row.key, row.due_on))
    ]


def _bought(yard: Yard) -> list[shapes.Bought]:
    rows = Bought.objects.filter(horse__yard=yard).select_related("horse")
    found = [
        shapes.Bought(
            horse=row.horse.name, kind=row.kind, part=row.part, on=row.on.isoformat()
        )
        for row in rows
    ]
    return sorted(found, key=lambda b: (b.on, b.horse, b.kind, b.part))
