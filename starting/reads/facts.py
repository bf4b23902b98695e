"""A yard's rows become the facts its outlooks are computed from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import lru_cache
from typing import Literal, Protocol, TypeVar, cast

from fitting.body import HorseType
from fitting.models import Horse, Yard
from fitting.models.yard import WEEKDAYS
from fitting.reads.facts import (
    clearances,
    edges_for,
    lent_by_horse,
    pegs,
    tack_facts,
    taken_by_horse,
    tryons_by_horse,
)
from fitting.wanted import Got
from starting.dated import Ticked
from starting.gates import CareDone, Off, Passed, RestSpan, Somebody
from starting.models import (
    Bought,
    CareVisit,
    DiaryTick,
    OffWork,
    Person,
    Plan,
    ProgrammeVersion,
    Rest,
    Session,
    StageRecord,
    WentAhead,
)
from starting.models import Incident as IncidentRow
from starting.outlook import Aim, HorseFacts, MeasuredText, YardFacts
from starting.programme import DEFAULT, Programme, StopLevel, read_programme
from starting.progress import CheckAnswer, Incident, Recorded, SessionDone
from starting.reads.worn_facts import (
    altered,
    first_worn_by_horse,
    fitter_visits,
    worn_in_yard,
)


class OfHorse(Protocol):
    """A row that belongs to a horse."""

    horse_id: int


Row = TypeVar("Row", bound=OfHorse)
Fact = TypeVar("Fact")
WolfTeeth = Literal["none", "left", "out"]


def yard_facts(yard: Yard) -> YardFacts:
    """Return every fact that the yard's outlooks rest on (27 queries)."""
    tack, made_up = tack_facts(yard)
    return YardFacts(
        name=yard.name,
        slug=yard.slug,
        hemisphere=yard.hemisphere,
        free_days=weekdays(yard.free_days),
        helper_days=weekdays(yard.helper_days),
        sessions_a_day=yard.sessions_a_day,
        tack=tack,
        made_up=made_up,
        horses=_horses(yard),
        pegs=pegs(yard),
        covered=yard.covered_area,
        altered=altered(yard),
    )


def weekdays(names: Iterable[str]) -> frozenset[int]:
    """Return weekday numbers, Monday 0, of names like ``mon``."""
    return frozenset(WEEKDAYS.index(name) for name in names)


def _horses(yard: Yard) -> tuple[HorseFacts, ...]:
    taken = taken_by_horse(yard)
    tried = tryons_by_horse(yard)
    worn = worn_in_yard(yard)
    first = first_worn_by_horse(yard)
    ticks = _by_horse(DiaryTick.objects.filter(horse__yard=yard), _ticked)
    sessions = _by_horse(
        Session.objects.filter(horse__yard=yard),
        lambda row: session_fact(row, worn.items[row.pk]),
    )
    records = _by_horse(StageRecord.objects.filter(horse__yard=yard), record_fact)
    care = _by_horse(CareVisit.objects.filter(horse__yard=yard), care_fact)
    off = _by_horse(OffWork.objects.filter(horse__yard=yard), off_fact)
    incidents = _by_horse(IncidentRow.objects.filter(horse__yard=yard), incident_fact)
    rests = _by_horse(Rest.objects.filter(horse__yard=yard), rest_fact)
    passed = _by_horse(WentAhead.objects.filter(horse__yard=yard), _passed)
    lent = lent_by_horse(yard)
    got = _by_horse(Bought.objects.filter(horse__yard=yard), got_fact)
    plans = {
        plan.horse_id: plan
        for plan in Plan.objects.filter(horse__yard=yard).select_related(
            "programme", "rider", "trainer"
        )
    }
    return tuple(
        replace(
            horse_fact(row, plans.get(row.pk)),
            measured=tuple(MeasuredText(taken=t, text=x) for t, x in taken[row.pk]),
            tryons=(*tried[row.pk], *worn.tryons[row.pk], *fitter_visits(care[row.pk])),
            sessions=tuple(sessions[row.pk]),
            records=tuple(records[row.pk]),
            care=tuple(care[row.pk]),
            incidents=tuple(incidents[row.pk]),
            off=tuple(off[row.pk]),
            rests=tuple(rests[row.pk]),
            passed=tuple(passed[row.pk]),
            borrowed=tuple(lent[row.pk]),
            got=tuple(got[row.pk]),
            first_worn=tuple(first[row.pk]),
            ticked=tuple(ticks[row.pk]),
        )
        for row in yard.horses.all()
    )


def _by_horse(
    rows: Iterable[Row], fact: Callable[[Row], Fact]
) -> defaultdict[int, list[Fact]]:
    found: defaultdict[int, list[Fact]] = defaultdict(list)
    for row in rows:
        found[row.horse_id].append(fact(row))
    return found


def horse_fact(row: Horse, plan: Plan | None) -> HorseFacts:
    """Return a horse as a plain fact, without its records."""
    return HorseFacts(
        key=row.key,
        name=row.name,
        she=row.she,
        horse_type=cast("HorseType", row.horse_type),
        foaled=row.foaled_days,
        grown=row.grown,
        lives_out=row.lives_out,
        dam_height_mm=row.dam_height_mm,
        sire_height_mm=row.sire_height_mm,
        clearances=clearances(row),
        edges=edges_for(row),
        programme=programme_of(plan.programme) if plan and not row.grown else None,
        may_ask=plan is not None and may_ask(plan),
        aim=Aim(stage=plan.aim_stage, by=plan.aim_by) if plan else None,
        as_early_as_allowed=plan.as_early_as_allowed if plan else False,
        rider=somebody(plan.rider) if plan else None,
        trainer=somebody(plan.trainer) if plan else None,
        tack_kg=plan.tack_weight_kg if plan else None,
    )


def may_ask(plan: Plan) -> bool:
    """Return whether a horse has the usual programme, and no keeper chose it."""
    row = plan.programme
    return not plan.programme_chosen and row.yard_id is None and row.key == DEFAULT


def somebody(row: Person | None) -> Somebody | None:
    """Return a rider or trainer as a plain fact; None: nobody is named."""
    if row is None:
        return None
    return Somebody(
        name=row.name,
        weight_kg=row.weight_kg,
        has_backed_horses=row.has_backed_horses,
        child=row.child,
        trains="train" in row.can,
    )


def programme_of(version: ProgrammeVersion) -> Programme:
    """Return the programme of a stored version."""
    return _read(version.text, version.key)


@lru_cache(maxsize=64)
def _read(text: str, key: str) -> Programme:
    return read_programme(text, key=key)


def session_fact(row: Session, worn: Iterable[str] = ()) -> SessionDone:
    """Return one session as a plain fact; ``worn``: names of the items worn."""
    return SessionDone(
        on=row.on,
        stage=row.stage,
        minutes=row.minutes,
        checks=tuple(
            (key, cast("CheckAnswer", answer)) for key, answer in row.checks.items()
        ),
        stop=cast("StopLevel", row.stop_level) if row.stop_level else None,
        worn=tuple(worn),
    )


def record_fact(row: StageRecord) -> Recorded:
    """Return a step set by hand as a plain fact."""
    established = row.state == StageRecord.State.ESTABLISHED
    return Recorded(
        stage=row.stage, state="established" if established else "left_out", on=row.on
    )


def care_fact(row: CareVisit) -> CareDone:
    """Return one visit as a plain fact."""
    return CareDone(
        kind=row.kind,
        on=row.on,
        clear=row.clear,
        wolf_teeth=cast("WolfTeeth", row.wolf_teeth) if row.wolf_teeth else None,
        healing_until=row.healing_until,
        next_due=row.next_due,
    )


def incident_fact(row: IncidentRow) -> Incident:
    """Return an incident as a plain fact."""
    return Incident(on=row.on, what=row.what)


def off_fact(row: OffWork) -> Off:
    """Return time off work as a plain fact."""
    return Off(
        start=row.start,
        why=row.why,
        until=row.until,
        cleared_by=row.cleared_by,
        cleared_on=row.cleared_on,
    )


def rest_fact(row: Rest) -> RestSpan:
    """Return a rest as a plain fact."""
    return RestSpan(start=row.start, end=row.end, why=row.why)


def got_fact(row: Bought) -> Got:
    """Return what was ticked off as a plain fact."""
    return Got(kind=row.kind, part=row.part, on=row.on)


def _passed(row: WentAhead) -> Passed:
    return Passed(
        stage=row.stage, gate=row.gate, reason=row.reason, who=row.who, on=row.on
    )


def _ticked(row: DiaryTick) -> Ticked:
    return Ticked(key=row.key, due_on=row.due_on)
