"""From a yard's facts to one outlook a horse: growth, fit, gates, schedule, diary."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from fitting.age import completed_months, season_age
from fitting.contradictions import Contradiction, contradictions
from fitting.croup import judge
from fitting.fit import Finding, Wearer, fits
from fitting.growth import Growth
from fitting.looks import MeasureLook, MeasuringLook
from fitting.wanted import Wants
from starting.dated.ticks import without_ticked
from starting.gates import Gate, GateFacts, MeasureStands
from starting.measuring import Due, MeasuringDay
from starting.outlook.again import with_next_day
from starting.outlook.ages import age_marks
from starting.outlook.aiming import aim_look
from starting.outlook.beside import beside_of
from starting.outlook.body import (
    growth_of,
    measure_looks,
    standings,
    taught_of,
    tooth_change,
)
from starting.outlook.by_programme import (
    asked_about,
    at_its_age,
    complete_words,
    with_end,
)
from starting.outlook.day_by_day import days_of_steps
from starting.outlook.days_ahead import NO_DAYS, DaysAhead, days_of_all
from starting.outlook.due import Need, due_measures, measure_asked
from starting.outlook.entries import Planned, diary_of
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.looking import with_looks
from starting.outlook.now import (
    Reason,
    can_do_now,
    off_work_words,
    resting_words,
    why_not_more,
)
from starting.outlook.shared import Asked, on_fewest_days
from starting.outlook.to_dos import to_dos_of
from starting.outlook.together import due_together, needs_together
from starting.outlook.values import Outlook, StageLook
from starting.outlook.wanting import wants
from starting.outlook.weight import condition, weight_to_go_by, weight_trend
from starting.outlook.work import (
    all_gates,
    horse_ahead,
    pace_of,
    progress_at_pace,
    stage_look,
    yard_days,
)
from starting.programme import Programme
from starting.schedule import PlannedStage


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sight:
    """What is known of one horse before the yard's days are shared out."""

    horse: HorseFacts
    growth: Growth
    contradictions: tuple[Contradiction, ...]
    stands: tuple[MeasureStands, ...]
    wearer: Wearer
    findings: tuple[Finding, ...]
    facts: GateFacts | None
    gates: Mapping[str, tuple[Gate, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Work:
    """What there is to do for one horse, before the days for it are shared out."""

    sight: _Sight
    days_of: DaysAhead
    stages: tuple[StageLook, ...]
    wanted: Wants
    asked: Asked


def look_at_yard(yard: YardFacts, on: date) -> tuple[Outlook, ...]:
    """Return the outlook of every horse of a yard, in the order of the facts."""
    sights = [_sight(yard, horse, on) for horse in yard.horses]
    ahead = [
        horse_ahead(sight.horse, sight.facts, sight.gates, on)
        for sight in sights
        if sight.facts is not None
    ]
    plans = days_of_all(ahead, yard_days(yard), on)
    works = [
        _work(yard, sight, plans.get(sight.horse.key, NO_DAYS), on) for sight in sights
    ]
    shared = on_fewest_days(yard, [work.asked for work in works], on)
    return tuple(
        _outlook(yard, work, shared[work.asked.horse.key], on) for work in works
    )


def _sight(yard: YardFacts, horse: HorseFacts, on: date) -> _Sight:
    horse = at_its_age(horse, on)
    lessons = taught_of(yard, horse)
    growth = growth_of(yard, horse, lessons)
    stands = standings(horse, on)
    wearer = _wearer(horse, growth, stands, on)
    findings = fits(wearer, yard.tack, yard.made_up, on)
    facts = _gate_facts(yard, horse, stands, findings, on)
    return _Sight(
        horse=horse,
        growth=growth,
        contradictions=contradictions(growth, lessons),
        stands=stands,
        wearer=wearer,
        findings=findings,
        facts=facts,
        gates=all_gates(facts, on) if facts else {},
    )


def _wearer(
    horse: HorseFacts, growth: Growth, stands: tuple[MeasureStands, ...], on: date
) -> Wearer:
    return Wearer(
        name=horse.name,
        horse_type=horse.horse_type,
        foaled=horse.foaled,
        grown=horse.grown,
        growth=growth,
        standing=tuple((s.measure, s.standing) for s in stands),
        tryons=horse.tryons,
        clearances=horse.clearances,
        edges=horse.edges,
        tooth_change=tooth_change(horse, on),
    )


def _gate_facts(
    yard: YardFacts,
    horse: HorseFacts,
    stands: tuple[MeasureStands, ...],
    findings: tuple[Finding, ...],
    on: date,
) -> GateFacts | None:
    if horse.programme is None:
        return None
    return GateFacts(
        name=horse.name,
        she=horse.she,
        foaled=horse.foaled,
        programme=horse.programme,
        progress=progress_at_pace(
            horse, horse.programme, on, beside_of(yard, horse, findings)
        ),
        sessions=horse.sessions,
        measures=stands,
        croup=judge((m.taken for m in horse.measured), horse.horse_type),
        findings=findings,
        set_names=tuple(made_up.name for made_up in yard.made_up),
        care=horse.care,
        off=horse.off,
        rests=horse.rests,
        passed=horse.passed,
        trend=weight_trend(yard, horse, on),
        scored=condition(horse, on),
        weight=weight_to_go_by(yard, horse, on),
        rider=horse.rider,
        trainer=horse.trainer,
        tack_kg=horse.tack_kg,
        hemisphere=yard.hemisphere,
        covered=yard.covered,
    )


def _work(yard: YardFacts, sight: _Sight, days_of: DaysAhead, on: date) -> _Work:
    planned = days_of.planned
    stages = _stages(sight, days_of, on)
    needs = (*_needs(sight, planned), *needs_together(sight.facts, planned))
    due = due_measures(sight.horse, sight.stands, needs, _in_use(sight), on)
    wanted = wants(yard, sight.horse, sight.wearer, sight.findings, stages, on)
    to_dos = to_dos_of(yard, sight.horse, sight.facts, stages, wanted, on)
    due = due_together(due, sight.facts, needs, on)
    return _Work(
        sight=sight,
        days_of=days_of,
        stages=stages,
        wanted=wanted,
        asked=Asked(horse=sight.horse, due=due, to_dos=to_dos),
    )


def _outlook(yard: YardFacts, work: _Work, shared: Planned, on: date) -> Outlook:
    sight, stages, days_of = work.sight, work.stages, work.days_of
    looks = measure_looks(sight.horse, sight.growth, sight.stands, on)
    complete = complete_words(sight.horse, sight.facts)
    why = Reason() if complete else why_not_more(stages)
    entries = diary_of(yard, sight.horse, sight.facts, stages, shared, on)
    return Outlook(
        horse=sight.horse.name,
        key=sight.horse.key,
        yard=yard.name,
        on=on,
        age_months=completed_months(sight.horse.foaled, on),
        season_age=season_age(sight.horse.foaled, on, yard.hemisphere),
        measures=tuple(_with_day(look, work.asked.due) for look in looks),
        fits=sight.findings,
        stages=stages,
        measuring_days=tuple(_measuring(day) for day in shared.measuring),
        entries=without_ticked(
            with_looks(entries, yard, sight.horse, stages, on), sight.horse.ticked
        ),
        can_do_now=can_do_now(sight.horse, sight.findings, stages, on),
        why_not_more=why.sentence,
        why_not_more_stage=why.stage,
        off_work=off_work_words(sight.horse, on),
        resting=resting_words(sight.horse, on),
        tooth_change=tooth_change(sight.horse, on),
        age_marks=age_marks(sight.horse.programme),
        wants=work.wanted,
        contradictions=sight.contradictions,
        aim=aim_look(sight.horse, stages, days_of.work),
        pace=pace_of(sight.horse, sight.facts),
        turn=days_of.turn,
        days_ahead=days_of_steps(
            sight.horse, sight.findings, stages, days_of.planned, on
        ),
        asked=asked_about(sight.horse, stages, looks, on),
        complete=complete,
    )


def _stages(sight: _Sight, days_of: DaysAhead, on: date) -> tuple[StageLook, ...]:
    if sight.facts is None:
        return ()
    last_true = sight.facts.progress.last_true_level
    programme: Programme = sight.facts.programme
    looks = (
        stage_look(
            stage,
            state,
            sight.gates[stage.key],
            days_of.planned.get(stage.key),
            days_of.spreads.get(stage.key),
            last_true_level=stage.key == last_true,
        )
        for stage, state in zip(
            programme.stages, sight.facts.progress.stages, strict=True
        )
    )
    return tuple(
        with_next_day(look, days_of.planned, days_of.turn, on)
        for look in with_end(sight.horse, looks)
    )


def _needs(sight: _Sight, planned: Mapping[str, PlannedStage]) -> tuple[Need, ...]:
    """Return which measures the dated steps ahead ask for."""
    if sight.facts is None:
        return ()
    starts = ((s, planned.get(s.key)) for s in sight.facts.programme.stages)
    return tuple(
        Need(measure=measure, stage_name=stage.name, start=plan.start)
        for stage, plan in starts
        if plan is not None and plan.start is not None
        for gate in stage.gates_to_do
        if (measure := measure_asked(gate))
    )


def _in_use(sight: _Sight) -> tuple[Finding, ...]:
    """Return the findings of what the horse has really worn."""
    worn = {tried.item for tried in sight.horse.tryons if tried.how == "worn"}
    return tuple(finding for finding in sight.findings if finding.item in worn)


def _with_day(look: MeasureLook, due: tuple[Due, ...]) -> MeasureLook:
    by = next((d.due_by for d in due if d.measure == look.measure), None)
    return replace(look, measure_by=by)


def _measuring(day: MeasuringDay) -> MeasuringLook:
    first = min(day.due, key=lambda due: due.due_by)
    return MeasuringLook(
        on=day.on,
        measures=tuple(due.measure for due in day.due),
        because=first.because,
    )
