"""What the next session of a horse may be, told after one was written up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.lending import near_day
from fitting.models import Horse
from fitting.reads.horses import horse_words
from starting.gates import GateAnswer
from starting.gates.on_the_day import WITH_SAFETY
from starting.gates.words import CAUTION_SAFETY
from starting.kit import Kit, kit_of
from starting.minutes import Minutes, minutes_for
from starting.models import Session
from starting.next_session import Chosen, chosen, one_new_thing, so_far
from starting.outlook import Outlook, StageLook
from starting.people import people_asked
from starting.programme import Stage
from starting.progress import SessionDone
from starting.reads.facts import session_fact
from starting.reads.step import stage_of
from starting.reads.steps import of_horse


@dataclass(frozen=True, slots=True, kw_only=True)
class NextPage:
    """The next session of one horse; ``stage`` empty: none is to be thought of."""

    name: str
    key: str
    kind: str
    she: str
    planned: bool  # whether the horse was looked at already
    holds: str  # off work, resting, or what is in the way of more
    holds_stage: str
    stage: str = ""
    step: str = ""
    sessions: bool = True  # whether it is a step of sessions
    why: str = ""
    on: date | None = None
    told_on: str = ""
    today: bool = False
    minutes: int = 0
    minutes_why: str = ""
    new: str = ""
    wear: tuple[Kit, ...] = ()
    first_met: tuple[str, ...] = ()
    people: str = ""
    asks: tuple[str, ...] = ()
    caution: str = ""
    complete: str = ""  # that the way up is done


def next_page(horse: Horse, on: date) -> NextPage | None:
    """Return what the next session may be; None: the horse is grown.

    4 queries: programme, outlook, sessions of the last day, the step's last one.
    """
    programme, outlook = of_horse(horse)
    if programme is None:
        return None
    found = chosen(programme, outlook, _newest(horse)) if outlook else None
    stage = stage_of(programme, found.stage) if found else None
    if outlook is None or found is None or stage is None:
        return _nothing(horse, outlook, on)
    return _page(horse, outlook, stage, found, on)


def _newest(horse: Horse) -> list[SessionDone]:
    """Return the sessions of the last day (1 query; no day has sixteen)."""
    rows = [session_fact(row) for row in horse.sessions.all()[:16]]
    return [row for row in rows if row.on == rows[0].on]


def _nothing(horse: Horse, outlook: Outlook | None, on: date) -> NextPage:
    stopped = (outlook.off_work or outlook.resting) if outlook else ""
    return NextPage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        she=horse.she,
        planned=outlook is not None,
        holds=stopped or (outlook.why_not_more if outlook else ""),
        holds_stage="" if stopped or not outlook else outlook.why_not_more_stage,
        complete=outlook.complete if outlook and not stopped else "",
    )


def _page(
    horse: Horse, outlook: Outlook, stage: Stage, found: Chosen, on: date
) -> NextPage:
    look = outlook.stage(stage.key)
    minutes = minutes_next(horse, stage, look)
    gates = look.gates if look else ()
    asked = [g for g in gates if g.kind == "on_the_day"]
    asked = [g for g in asked if g.answer is not GateAnswer.MET]
    return NextPage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        she=horse.she,
        planned=True,
        holds=outlook.why_not_more,
        holds_stage=outlook.why_not_more_stage,
        stage=stage.key,
        step=stage.name,
        sessions=stage.kind == "sessions",
        why=found.why,
        on=found.on,
        told_on=near_day(found.on, on) if found.on else "",
        today=found.on is not None and found.on <= on,
        minutes=minutes.minutes,
        minutes_why=minutes.why,
        new=one_new_thing(stage, dict(look.last_checks)) if look else "",
        wear=kit_of(gates, outlook.fits),
        first_met=stage.tack_first_met if look and look.state == "open" else (),
        people=people_asked(stage, [g.gate for g in asked]),
        asks=tuple(g.why for g in asked),
        caution=CAUTION_SAFETY if WITH_SAFETY & {g.gate for g in asked} else "",
    )


def minutes_next(horse: Horse, stage: Stage, look: StageLook | None) -> Minutes:
    """Return how long the next session of a step may be (1 query: its last one)."""
    row = Session.objects.filter(horse=horse, stage=stage.key).first()
    last = session_fact(row) if row else None
    return minutes_for(stage, so_far(look), last)
