"""The next session: which step, and the one new thing to ask for.

All rules here are ours.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.gates import GateAnswer
from starting.minutes import counting
from starting.outlook import Outlook, StageLook, Suggestion
from starting.programme import Programme, Stage
from starting.progress import CheckAnswer, SessionDone

GONE_BACK: Final = "gone_back"  # the gate that names the step to go back to


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The step to do next, and why it."""

    stage: str
    why: str
    on: date | None  # the day the plan has for it; None: it has none


def so_far(look: StageLook | None) -> int:
    """Return the good sessions that count for minutes: gone over again, it is short."""
    return 0 if look is None else counting(look.state, look.good_sessions)


def one_new_thing(stage: Stage, last: Mapping[str, CheckAnswer]) -> str:
    """Return the one new thing to ask for; ``none`` and why while something is weak."""
    by_answer: dict[CheckAnswer, list[str]] = {}
    for check in stage.checks:
        answer = last.get(check.key, "not_tried")
        by_answer.setdefault(answer, []).append(check.text)
    if refused := by_answer.get("no"):
        return f"none. A no last time, so ask for less of it: {refused[0]}."
    if nearly := by_answer.get("nearly"):
        return f"none. Nearly last time, so make sure of it: {nearly[0]}."
    if untried := by_answer.get("not_tried"):
        return f"{untried[0]}."
    return "none; the same again, to make it sure."


def chosen(
    programme: Programme, outlook: Outlook, newest: Sequence[SessionDone]
) -> Chosen | None:
    """Return the step to do next; None: nothing may be done.

    Args:
        programme: the horse's way up.
        outlook: everything computed for the horse.
        newest: the sessions of its last day, of all steps.
    """
    if outlook.off_work or outlook.resting:
        return None
    kinds = {stage.key: stage.kind for stage in programme.stages}
    back = _gone_back(programme, outlook, newest)
    if back is not None:
        return _back_to(back, outlook)
    able = [s for s in outlook.can_do_now if kinds.get(s.stage) == "sessions"]
    able = able or list(outlook.can_do_now)
    if not able:
        return None
    return _of(min(able, key=lambda s: s.next_on or outlook.on), outlook)


def _gone_back(
    programme: Programme, outlook: Outlook, newest: Sequence[SessionDone]
) -> str | None:
    """Return the step that the log sends the horse back to."""
    named = (
        gate.record.removeprefix("stage:")
        for look in outlook.stages
        for gate in look.gates
        if gate.gate == GONE_BACK and gate.answer is GateAnswer.SHUT
    )
    known = {stage.key for stage in programme.stages if stage.kind == "sessions"}
    told = next((key for key in named if key in known), None)
    if told is not None:
        return told
    asked = next((s.stage for s in newest if s.stop == "go_back"), None)
    return step_back(programme, asked) if asked in known else None


def step_back(programme: Programme, stage: str | None) -> str | None:
    """Return the step of sessions that a step falls back to; None: there is none."""
    to = programme.falls_back_to(stage) if stage else None
    while to and programme.stage(to).kind != "sessions":
        to = programme.falls_back_to(to)
    return to


def _back_to(stage: str, outlook: Outlook) -> Chosen:
    return Chosen(
        stage=stage,
        why="A step back first: two good ones here, then it is tried again.",
        on=_day_of(stage, outlook),
    )


def _of(one: Suggestion, outlook: Outlook) -> Chosen:
    on = one.next_on or _day_of(one.stage, outlook)
    return Chosen(stage=one.stage, why=one.why, on=on)


def _day_of(stage: str, outlook: Outlook) -> date | None:
    """Return the day the plan has for a step, else the next for any of the horse's."""
    look = outlook.stage(stage)
    if look is not None and look.next_on is not None:
        return look.next_on
    days = (s.next_on for s in outlook.stages if s.kind == "sessions")
    return min((day for day in days if day and day >= outlook.on), default=None)
