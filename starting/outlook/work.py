"""The way up's part of an outlook: from states and gates to work for the schedule."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from starting.gates import (
    Gate,
    GateFacts,
    Off,
    RestSpan,
    back_on,
    gates_of,
    holds,
    may_start,
)
from starting.outlook.again import again_because, with_steps_again
from starting.outlook.care_days import care_days, gelded_days, vaccinated
from starting.outlook.dated import with_dated_gates
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.values import StageLook
from starting.pace import at_own_pace, fewest_and_most, own_pace
from starting.programme import Programme, Stage
from starting.progress import Beside, Progress, StageProgress, progress
from starting.progress.ending import ends_there, without_a_rider
from starting.schedule import (
    Hold,
    HorseAhead,
    PlannedStage,
    Spread,
    StageAhead,
    YardDays,
)

DONE_STATES: Final = frozenset({"established", "left_out"})
OPEN_REST_DAYS: Final = 90  # ours: as long as the programme turns away


def yard_days(yard: YardFacts) -> YardDays:
    """Return the days the yard's people have."""
    return YardDays(
        free=yard.free_days,
        helper=yard.helper_days,
        sessions_a_day=yard.sessions_a_day,
    )


def all_gates(facts: GateFacts, on: date) -> dict[str, tuple[Gate, ...]]:
    """Return every step's gates, by the step's key."""
    return {s.key: gates_of(s, facts, on) for s in facts.programme.stages}


def progress_at_pace(
    horse: HorseFacts, programme: Programme, on: date, beside: Beside
) -> Progress:
    """Return how far a horse has got, and how many sessions it will still take."""
    done = progress(programme, horse.sessions, horse.records, on, beside)
    if ends_without_rider(horse, programme):
        done = without_a_rider(programme, done)
    return at_own_pace(programme, done, own_pace(programme, done, horse.sessions))


def ends_without_rider(horse: HorseFacts, programme: Programme) -> bool:
    """Whether a horse's way up ends before a rider, as its programme allows."""
    rider = horse.rider.name if horse.rider else None
    return ends_there(programme, rider, horse.aim.stage if horse.aim else None)


def pace_of(horse: HorseFacts, facts: GateFacts | None) -> float:
    """Return how many sessions a horse takes for each usual one."""
    if facts is None:
        return 1.0
    return own_pace(facts.programme, facts.progress, horse.sessions)


def horse_ahead(
    horse: HorseFacts,
    facts: GateFacts,
    gates: Mapping[str, Sequence[Gate]],
    on: date,
) -> HorseAhead:
    """Return what is still ahead of a horse, for the schedule."""
    pace = pace_of(horse, facts)
    states = {p.stage: p for p in facts.progress.stages}
    held = {
        stage.key
        for stage in facts.programme.stages
        if states[stage.key].state == "left_out" and not stage.optional
    }
    ahead = tuple(
        _stage_ahead(horse, stage, states[stage.key], gates[stage.key], held, pace)
        for stage in facts.programme.stages
        if states[stage.key].state not in DONE_STATES
    )
    again = with_steps_again(ahead, facts, horse.sessions)
    return HorseAhead(
        horse=horse.key,
        born=horse.foaled.last,
        stages=with_dated_gates(again, gates, facts, on),
        done=tuple(key for key, p in states.items() if p.state in DONE_STATES),
        rests=tuple((r.start, rest_end(r, on)) for r in horse.rests),
        reckoned_ends=tuple(
            end
            for rest in horse.rests
            if rest.end is None and (end := rest_end(rest, on)) is not None
        ),
        off_work=tuple((off.start, _last_day_off(off)) for off in horse.off),
        care_days=care_days(horse.care),
        vaccinated=vaccinated(horse.care),
        gelded=gelded_days(horse.care, on),
        recent_days=tuple(sorted({s.on for s in horse.sessions})),
        as_early_as_allowed=horse.as_early_as_allowed,
    )


def rest_end(rest: RestSpan, on: date) -> date | None:
    """Return a rest's last day, reckoned as 90 days (ours) where nobody named one.

    None: those days are over and the horse still rests, so that nobody can say.
    """
    if rest.end is not None:
        return rest.end
    reckoned = rest.start + timedelta(days=OPEN_REST_DAYS)
    return reckoned if on <= reckoned else None


def _last_day_off(off: Off) -> date | None:
    back = back_on(off)
    return back - timedelta(days=1) if back else None


def _stage_ahead(
    horse: HorseFacts,
    stage: Stage,
    state: StageProgress,
    gates: Sequence[Gate],
    left_out: Set[str],
    pace: float,
) -> StageAhead:
    fewest, most = fewest_and_most(stage, state, pace)
    return StageAhead(
        stage=_as_gone_ahead(stage, gates),
        sessions_left=state.sessions_left,
        fewest_left=fewest,
        most_left=most,
        good_sessions=state.good_sessions,
        under_way=state.state == "under_way",
        holds=_left_out_before(stage, gates, left_out),
        to_dos=tuple(g.gate for g in gates if g.kind == "to_do" and holds(g)),
        recent_days=tuple(
            sorted({s.on for s in horse.sessions if s.stage == stage.key})
        ),
    )


def _as_gone_ahead(stage: Stage, gates: Sequence[Gate]) -> Stage:
    """Return the step from its floor on, where somebody wrote why so early."""
    age = next(gate for gate in gates if gate.gate == "age")
    if not age.went_ahead:
        return stage
    floor = stage.floor_months or 0
    return replace(
        stage,
        earliest_months=floor,
        earliest_days=None,
        typical_months=(floor, stage.typical_months[1]),
    )


def _left_out_before(
    stage: Stage, gates: Sequence[Gate], left_out: Set[str]
) -> tuple[Hold, ...]:
    """Return that a step was left out which this one cannot do without."""
    if not left_out & set(stage.prerequisites):
        return ()
    before = next(gate for gate in gates if gate.gate == "stages_before")
    return (Hold(gate=before.gate, until=None, why=before.why),)


def stage_look(
    stage: Stage,
    state: StageProgress,
    gates: tuple[Gate, ...],
    planned: PlannedStage | None,
    spread: Spread | None,
    *,
    last_true_level: bool,
) -> StageLook:
    """Return one step as the pages show it.

    A step that progress calls open waits after all where a gate holds it.
    """
    startable = may_start(gates)
    shown = "waiting" if state.state == "open" and not startable else state.state
    return StageLook(
        stage=stage.key,
        name=stage.name,
        phase=stage.phase,
        kind=stage.kind,
        state=shown,
        go_over_again=state.go_over_again,
        last_true_level=last_true_level,
        may_start=startable and state.state not in DONE_STATES,
        gates=gates,
        start=planned.start if planned else None,
        finish=planned.finish if planned else None,
        finish_early=spread.early if spread else None,
        finish_late=spread.late if spread else None,
        because=f"{planned.because.text}." if planned else "",
        sessions_left=state.sessions_left,
        good_sessions=state.good_sessions,
        sessions_needed=(
            state.good_sessions + state.clean_left
            if state.clean_left
            else stage.min_good_sessions
        ),
        minutes=stage.minutes,
        next_on=planned.days[0] if planned and planned.days else None,
        established_on=state.established_on,
        last_on=state.last_on,
        last_checks=state.last_checks,
        held=state.held,
        again_because=again_because(state, gates),
        because_kind=planned.because.kind if planned else "",
        held_by=_held_by(planned),
    )


def _held_by(planned: PlannedStage | None) -> str:
    """Return the step that one waits for, where that is what holds its date."""
    waits = planned is not None and planned.because.kind == "stage_before"
    return planned.because.subject if planned and waits else ""
