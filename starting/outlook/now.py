"""What a horse can do now, and the one reason why not more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit import Finding
from starting.gates import Gate, GateAnswer, back_on, holding
from starting.outlook.day_by_day import minutes_of, worn_for
from starting.outlook.facts import HorseFacts
from starting.outlook.values import StageLook, Suggestion
from starting.people import people_asked
from starting.programme import Stage

AT_MOST: Final = 3
GROWTH_PAUSE: Final = "growth_pause"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """The one reason why not more, and the step it holds."""

    sentence: str = ""
    stage: str = ""


def can_do_now(
    horse: HorseFacts,
    findings: Sequence[Finding],
    stages: Sequence[StageLook],
    on: date,
) -> tuple[Suggestion, ...]:
    """Return what may be done: under way, then go over again, then new.

    What went back comes first, as the step it goes back to. Nothing holds these but
    perhaps the day: where the plan has a later one (worked
    days in a row, the helper's days, vaccinated yesterday), it is named, and what can
    be done today goes first. A step is gone over again for the sake of those ahead
    that rest on it.
    """
    if _stopped(stages):
        return ()
    still_needed = _still_needed(horse, stages)
    under_way = [s for s in stages if s.state == "under_way" and s.may_start]
    again = [
        s
        for s in stages
        if s.go_over_again and s.stage in still_needed and not _is_shut(s)
    ]
    opened = [s for s in stages if s.state == "open" and s.may_start]
    back = steps_back(stages)
    lost = [s for s in stages if s.stage in back and not _is_shut(s)]
    ranked = [*lost, *reversed(under_way), *again, *opened]
    ranked = list({s.stage: s for s in ranked}.values())
    ranked.sort(key=lambda s: _later(s, on) is not None)
    return tuple(
        _suggest(horse, findings, s, on, back.get(s.stage, ""))
        for s in ranked[:AT_MOST]
    )


def steps_back(stages: Sequence[StageLook]) -> dict[str, str]:
    """Return the steps of sessions to do instead of ones that are held, and why.

    What was never begun goes back to nothing, unless a rule is all that holds it. The
    gates of the rules stand first.
    """
    sessions = {s.stage for s in stages if s.kind == "sessions"}
    found: dict[str, str] = {}
    for stage in stages:
        begun = stage.state in {"under_way", "established"}
        if begun or len(holding(stage.gates)) == len(stage.held):
            for held, gate in zip(stage.held, stage.gates, strict=False):
                if held.to in sessions and not held.waits_for:
                    found.setdefault(held.to, gate.why)
    return found


def _later(stage: StageLook, on: date) -> date | None:
    return stage.next_on if stage.next_on and stage.next_on > on else None


def _still_needed(horse: HorseFacts, stages: Sequence[StageLook]) -> set[str]:
    """Return the steps that another one, not yet established, comes directly after."""
    if horse.programme is None:
        return set()
    done = {s.stage for s in stages if s.state in {"established", "left_out"}}
    return {
        before
        for stage in horse.programme.stages
        if stage.key not in done
        for before in stage.prerequisites
    }


def _stopped(stages: Sequence[StageLook]) -> bool:
    """Whether the horse rests or is off work: then nothing is suggested at all."""
    return any(
        gate.gate in {"rest", "off_work"} and gate.answer == GateAnswer.SHUT
        for stage in stages
        for gate in stage.gates
    )


def _is_shut(stage: StageLook) -> bool:
    """Whether a gate bars even a step that is established: the steps before do not."""
    return any(
        gate.answer == GateAnswer.SHUT and gate.gate != "stages_before"
        for gate in stage.gates
    )


def _suggest(
    horse: HorseFacts,
    findings: Sequence[Finding],
    stage: StageLook,
    on: date,
    back: str,
) -> Suggestion:
    step = _step(horse, stage)
    asked = [gate for gate in stage.gates if gate.kind == "on_the_day"]
    asked = [gate for gate in asked if gate.answer != GateAnswer.MET]
    later = _later(stage, on)
    return Suggestion(
        stage=stage.stage,
        name=stage.name,
        state="go_over_again" if stage.go_over_again or back else stage.state,
        why=back or _why(horse, stage),
        asks=tuple(gate.why for gate in asked),
        wear=worn_for(stage, findings),
        next_on=later,
        later_because=stage.next_because if later else "",
        minutes=minutes_of(horse, step, stage) if step else 0,
        people=people_asked(step, [gate.gate for gate in asked]) if step else "",
    )


def _step(horse: HorseFacts, look: StageLook) -> Stage | None:
    steps = horse.programme.stages if horse.programme else ()
    return next((step for step in steps if step.key == look.stage), None)


def _why(horse: HorseFacts, stage: StageLook) -> str:
    if stage.again_because:
        return stage.again_because
    if stage.go_over_again:
        return f"{horse.name} has not done it for a while: go over it once."
    if stage.kind != "sessions":
        return "Nothing is in the way."
    if stage.state == "open":
        return "Nothing is in the way: the first session."
    done = f"{stage.good_sessions} of {stage.sessions_needed} good sessions"
    return f"{done}; about {stage.sessions_left} more to come."


def why_not_more(stages: Sequence[StageLook]) -> Reason:
    """Return the one reason that holds the next step back; empty if nothing does.

    Off work and rests are said by themselves. A growth pause is said before all else
    where it stops what is under way, or the first step that nothing else would hold.
    """
    if _stopped(stages):
        return Reason()
    held = [(stage, gates) for stage in stages if (gates := _held(stage))]
    paused = [one for one in held if _only_paused(one[1])]
    if paused:
        stage, gates = paused[0]
        pause = next(gate for gate in gates if gate.gate == GROWTH_PAUSE)
        return Reason(sentence=f"{stage.name}: not now. {pause.why}", stage=stage.stage)
    for stage, gates in held:
        if stage.state == "waiting" or not _goes_back(stage):
            when = "yet" if stage.state == "waiting" else "now"
            return Reason(
                sentence=f"{stage.name}: not {when}. {gates[0].why}", stage=stage.stage
            )
    return Reason()


def _goes_back(stage: StageLook) -> bool:
    """Whether another step is done instead, which is told with that one."""
    return any(held.to for held in stage.held)


def _held(stage: StageLook) -> tuple[Gate, ...]:
    """Return what holds a step that is waiting or under way; a rest waits alone."""
    if stage.state not in {"waiting", "under_way"} or stage.kind == "rest":
        return ()
    return holding(stage.gates)


def _only_paused(gates: Sequence[Gate]) -> bool:
    """Whether a growth pause stops a step that is old enough and next in order."""
    shut = {gate.gate for gate in gates if gate.answer == GateAnswer.SHUT}
    others = {gate.gate for gate in gates} & {"age", "stages_before"}
    return GROWTH_PAUSE in shut and not others


def off_work_words(horse: HorseFacts, on: date) -> str:
    """Return why the horse is off work today; empty if it is not."""
    for off in horse.off:
        back = back_on(off)
        if off.start <= on and (back is None or on < back):
            until = f" until {_day(back)}" if back else ""
            by = f" until cleared by {off.cleared_by}" if off.cleared_by else ""
            return f"Off work{until or by}: {off.why}."
    return ""


def resting_words(horse: HorseFacts, on: date) -> str:
    """Return that the horse rests today; empty if it does not."""
    for rest in horse.rests:
        if rest.start <= on and (rest.end is None or on <= rest.end):
            until = f" until {_day(rest.end)}" if rest.end else ""
            return f"Resting{until}."
    return ""


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
