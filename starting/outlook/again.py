"""Steps that are done again for the sake of those above: in the plan, and in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from starting.gates import Gate, GateAnswer, GateFacts
from starting.gates.words import say_day
from starting.outlook.values import StageLook, Turn
from starting.programme import Stage
from starting.progress import Held, SessionDone, StageProgress
from starting.schedule import PlannedStage, StageAhead

AGAIN: Final = ":again"  # no step's key has a colon
KINDS: Final = frozenset({"sessions", "check"})
ONE_SESSION: Final = 1  # ours: what was not done for too long is gone over once


def again_key(stage: str) -> str:
    """Return what a step is called in the plan where it is done again."""
    return f"{stage}{AGAIN}"


def of_step(key: str) -> str:
    """Return the step of a key in the plan, done for the first time or again."""
    return key.removesuffix(AGAIN)


def again_because(at: StageProgress, gates: Sequence[Gate]) -> str:
    """Return why an established step is gone over again, if not for its long rest."""
    if not at.go_over_again:
        return ""
    ruled = next((g for g in gates if at.held and g.answer is GateAnswer.SHUT), None)
    if ruled is not None:
        return ruled.why
    if at.again_since is not None:
        return f"To be done once more since the incident on {say_day(at.again_since)}."
    return ""


def with_next_day(
    look: StageLook, planned: Mapping[str, PlannedStage], turn: Turn | None, on: date
) -> StageLook:
    """Return a step with its next day, where the plan has it done again, and why then.

    Of today the turns decide: what the plan gives to a step for which something is
    still to be done goes to the next one.
    """
    keys = (again_key(look.stage), look.stage)
    plan = next((planned[key] for key in keys if key in planned), None)
    if plan is None or not plan.days:
        return look
    of_turn = set(keys) & set(turn.steps) if turn else set()
    days: Iterable[date] = plan.days
    if of_turn and turn and turn.turn == "goes":
        days = (on, *days)
    elif of_turn:
        days = (day for day in days if day > on)
    return replace(
        look, next_on=min(days, default=None), next_because=f"{plan.because.text}."
    )


def with_steps_again(
    ahead: Sequence[StageAhead], facts: GateFacts, sessions: Sequence[SessionDone]
) -> tuple[StageAhead, ...]:
    """Return what is ahead, with the sessions of steps that are done again first.

    Each stands once under a key of its own, just before the first that waits for it.
    """
    needed = _needed(ahead, facts)
    steps = {stage.key: stage for stage in facts.programme.stages}
    placed: set[str] = set()
    found: list[StageAhead] = []
    for one in ahead:
        waits = [key for key in needed if key in _waited_for(one.stage, facts)]
        for key in _with_those_below(waits, needed, steps):
            if key not in placed:
                placed.add(key)
                below = [k for k in steps[key].prerequisites if k in placed - {key}]
                found.append(_again(steps[key], needed[key], below, sessions))
        asked = (
            *one.stage.prerequisites,
            *map(again_key, waits),
            *_back_to(one, facts),
        )
        stage = replace(one.stage, prerequisites=tuple(dict.fromkeys(asked)))
        found.append(replace(one, stage=stage))
    return tuple(found)


def _again(
    stage: Stage, left: int, below: Sequence[str], sessions: Sequence[SessionDone]
) -> StageAhead:
    return StageAhead(
        stage=replace(
            stage,
            key=again_key(stage.key),
            prerequisites=tuple(map(again_key, below)),
            prerequisites_once=(),
        ),
        sessions_left=left,
        under_way=True,
        recent_days=tuple(sorted({s.on for s in sessions if s.stage == stage.key})),
    )


def _needed(ahead: Sequence[StageAhead], facts: GateFacts) -> dict[str, int]:
    """Return the established steps to do again, in order, with how many sessions."""
    waited = {key for one in ahead for key in _waited_for(one.stage, facts)}
    found = {}
    for stage, at in zip(facts.programme.stages, facts.progress.stages, strict=True):
        climbed = at.again_since is not None
        if at.state != "established" or stage.kind not in KINDS:
            continue
        if climbed or (stage.key in waited and at.go_over_again):
            found[stage.key] = ONE_SESSION
    for held in _all_held(facts):
        if held.to and facts.progress.of(held.to).state == "established":
            left = max(held.needed - held.good, ONE_SESSION)
            found[held.to] = max(left, found.get(held.to, 0))
    order = [stage.key for stage in facts.programme.stages]
    return {key: found[key] for key in sorted(found, key=order.index)}


def _all_held(facts: GateFacts) -> Iterator[Held]:
    for at in facts.progress.stages:
        if at.state in {"under_way", "established"} or len(at.held) == 1:
            yield from at.held


def _waited_for(stage: Stage, facts: GateFacts) -> set[str]:
    """Return the steps that one ahead waits for: those before, and its way back."""
    usual = set(stage.prerequisites) - set(stage.prerequisites_once)
    return usual | {held.to for held in facts.progress.of(stage.key).held if held.to}


def _with_those_below(
    keys: Sequence[str], needed: Mapping[str, int], steps: Mapping[str, Stage]
) -> list[str]:
    """Return steps to do again with those they stand on, from below."""
    wanted = set(keys)
    for key in reversed(tuple(needed)):
        if key in wanted:
            wanted |= set(steps[key].prerequisites) & needed.keys()
    return [key for key in needed if key in wanted]


def _back_to(one: StageAhead, facts: GateFacts) -> list[str]:
    """Return steps to go back to that are not established themselves."""
    at = facts.progress.of(one.stage.key)
    ways = (held.to for held in at.held if held.to)
    return [to for to in ways if facts.progress.of(to).state == "under_way"]
