"""The aim, a step by a day: how much slack it has, or what would win time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from starting.gates import gate_name
from starting.outlook.facts import HorseFacts
from starting.outlook.values import AimLook, StageLook
from starting.schedule import HorseAhead, YardDays
from starting.schedule.wins import Taken, Win, wins


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkAhead:
    """What an aim is reckoned from: a horse's work, the yard's days and sessions."""

    ahead: HorseAhead
    days: YardDays
    taken: Taken
    today: date


def aim_look(
    horse: HorseFacts, stages: Sequence[StageLook], planned: WorkAhead | None
) -> AimLook | None:
    """Return how the plan stands to the horse's aim; None: no aim is named."""
    if horse.aim is None or not horse.aim.stage or planned is None:
        return None
    look = next((one for one in stages if one.stage == horse.aim.stage), None)
    if look is None:
        return None
    slack = _slack(look, horse.aim.by)
    over = look.state in {"established", "left_out"}
    asked = not over and (slack is None or slack < 0) and horse.aim.by is not None
    won = (
        wins(planned.ahead, planned.days, planned.today, planned.taken, look.stage)
        if asked
        else ()
    )
    return AimLook(
        stage=look.stage,
        by=horse.aim.by,
        slack_days=slack,
        text=_text(look, horse.aim.by, slack),
        wins=tuple(_won(win) for win in won),
    )


def _slack(look: StageLook, by: date | None) -> int | None:
    finish = look.finish or look.established_on
    return (by - finish).days if by and finish else None


def _text(look: StageLook, by: date | None, slack: int | None) -> str:
    wish = f"Aim: {look.name}{f' by {_day(by)}' if by else ''}."
    if look.state == "established":
        return f"{wish} It is established."
    if look.state == "left_out":
        return f"{wish} It is left out."
    if look.finish is None:
        return f"{wish} It has no likely end: {_lower(look.because)}"
    likely = f"Likely done on {_day(look.finish)}"
    if slack is None:
        return f"{wish} {likely}."
    if slack < 0:
        return f"{wish} {likely}, {_days(-slack)} too late."
    return f"{wish} {likely}, with {_days(slack)} to spare{_at_worst(look, by)}."


def _at_worst(look: StageLook, by: date | None) -> str:
    """Return that bad luck may spend the slack; empty where it hardly can."""
    late = look.finish_late
    if by is None or (late is not None and late <= by):
        return ""
    when = f"as late as {_day(late)}" if late else "years later"
    return f"; one time in ten (ours) it is {when}"


def _won(win: Win) -> str:
    """Return one change and what it wins, in words."""
    what = {
        "free_day": f"{win.subject}s free as well",
        "helper_day": f"the helper on {win.subject}s as well",
        "early": "every step as early as allowed",
        "gate": f"{gate_name(win.subject)}, met at once",
    }[win.kind]
    if win.days is None:
        return f"{what}: likely done on {_day(win.finish)}"
    return f"{what}: {_days(win.days)} sooner"


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def _day(day: date | None) -> str:
    return f"{day.day} {day:%b %Y}" if day else ""


def _lower(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"
