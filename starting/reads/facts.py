"""A yard's rows become the facts its outlooks are computed from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any, Final, Literal, Protocol, TypeVar, cast

from django.db.models import QuerySet

from fitting.body import HorseType
from fitting.fit.saddle_checks import fitter_visit
from fitting.models import Horse, SetPart, Yard
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
from fitting.signals import tryons_asked, yard_tryons_asked
from fitting.tryons import Seen, Tried, TryOn
from fitting.wanted import Got
from starting.gates import CareDone, Off, Passed, RestSpan, Somebody
from starting.models import (
    Bought,
    CareVisit,
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
from starting.outlook import HorseFacts, MeasuredText, YardFacts
from starting.programme import Programme, StopLevel, read_programme
from starting.progress import CheckAnswer, Recorded, SessionDone


class OfHorse(Protocol):
    """A row that belongs to a horse."""

    horse_id: int


Row = TypeVar("Row", bound=OfHorse)
Fact = TypeVar("Fact")
ON_THE_WHOLE: Final[dict[str, Literal["good", "watch", "no"]]] = {
    "sits_right": "good",
    "too_short": "no",
    "too_long": "no",
    "wrong_place": "watch",
    "rubs": "watch",
}
WolfTeeth = Literal["none", "left", "out"]


def yard_facts(yard: Yard) -> YardFacts:
    """Return every fact that the yard's outlooks rest on (22 queries)."""
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
    )


def weekdays(names: Iterable[str]) -> frozenset[int]:
    """Return weekday numbers, Monday 0, of names like ``mon``."""
    return frozenset(WEEKDAYS.index(name) for name in names)


def _horses(yard: Yard) -> tuple[HorseFacts, ...]:
    taken = taken_by_horse(yard)
    tried = tryons_by_horse(yard)
    worn = _worn_by_horse(yard)
    sessions = _by_horse(Session.objects.filter(horse__yard=yard), session_fact)
    records = _by_horse(StageRecord.objects.filter(horse__yard=yard), record_fact)
    care = _by_horse(CareVisit.objects.filter(horse__yard=yard), care_fact)
    off = _by_horse(OffWork.objects.filter(horse__yard=yard), off_fact)
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
            tryons=(*tried[row.pk], *worn[row.pk], *fitter_visits(care[row.pk])),
            sessions=tuple(sessions[row.pk]),
            records=tuple(records[row.pk]),
            care=tuple(care[row.pk]),
            off=tuple(off[row.pk]),
            rests=tuple(rests[row.pk]),
            passed=tuple(passed[row.pk]),
            borrowed=tuple(lent[row.pk]),
            got=tuple(got[row.pk]),
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
        as_early_as_allowed=plan.as_early_as_allowed if plan else False,
        rider=somebody(plan.rider) if plan else None,
        trainer=somebody(plan.trainer) if plan else None,
        tack_kg=plan.tack_weight_kg if plan else None,
    )


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


def session_fact(row: Session) -> SessionDone:
    """Return one session as a plain fact."""
    return SessionDone(
        on=row.on,
        stage=row.stage,
        minutes=row.minutes,
        checks=tuple(
            (key, cast("CheckAnswer", answer)) for key, answer in row.checks.items()
        ),
        stop=cast("StopLevel", row.stop_level) if row.stop_level else None,
    )


def _worn_by_horse(yard: Yard) -> defaultdict[int, list[TryOn]]:
    """Return sessions that say how something sat: each counts as a try-on."""
    found: defaultdict[int, list[TryOn]] = defaultdict(list)
    for row in _seen_worn().filter(session__horse__yard=yard):
        found[row.session.horse_id].append(_worn(row))
    return found


def worn_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return what sessions say of how things sat on one horse (2 queries)."""
    return tuple(_worn(row) for row in _seen_worn().filter(session__horse=horse))


def _seen_worn() -> QuerySet[SessionWorn]:
    return (
        SessionWorn.objects.exclude(seen="")
        .select_related("session", "tack", "made_up")
        .prefetch_related("made_up__parts")
    )


def fitter_visits(care: Iterable[CareDone]) -> Iterator[TryOn]:
    """Yield each saddle fitter's visit as a word on the saddle the horse wore."""
    for visit in care:
        if visit.kind == CareVisit.Kind.SADDLE_FITTER:
            yield fitter_visit(visit.on, clear=visit.clear)


def fitted_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return what saddle fitters' visits say of one horse's saddle (1 query)."""
    rows = CareVisit.objects.filter(horse=horse, kind=CareVisit.Kind.SADDLE_FITTER)
    return tuple(fitter_visits(care_fact(row) for row in rows))


def listen() -> None:
    """Tell what sessions and visits say of tack wherever try-ons are asked for."""
    tryons_asked.connect(_asked, sender=Horse, dispatch_uid="worn-in-sessions")
    yard_tryons_asked.connect(
        _yard_asked, sender=Yard, dispatch_uid="worn-in-sessions-of-a-yard"
    )


def _asked(sender: type[Horse], *, horse: Horse, **_: Any) -> tuple[TryOn, ...]:
    return (*worn_of(horse), *fitted_of(horse))


def _yard_asked(sender: type[Yard], *, yard: Yard, **_: Any) -> dict[int, list[TryOn]]:
    return _worn_by_horse(yard)


def _worn(row: SessionWorn) -> TryOn:
    """Return how something sat as a try-on: of one part, or of all of it.

    All of a made-up set is its straps: a word on the bit is a word on the mouthpiece.
    """
    thing = row.tack or row.made_up
    parts: tuple[str, ...] = (row.part,) if row.part else ()
    if row.made_up and not row.part:
        slots = (one.slot for one in row.made_up.parts.all())
        parts = tuple(slot for slot in slots if slot != SetPart.Slot.BIT)
    return TryOn(
        on=row.session.on,
        item=thing.name if thing else "",
        how="worn",
        answer=None if parts or row.made_up else ON_THE_WHOLE[row.seen],
        parts=tuple(
            Tried(part=part, seen=cast("Seen", row.seen), hole=row.hole)
            for part in parts
        ),
        record=f"sessions/{row.session_id}/",
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
