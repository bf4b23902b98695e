"""What a session means for its step, in sentences."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.models import Horse
from starting.gates import GateFacts, gate_name
from starting.gates.held import held_gates
from starting.gates.on_the_day import WITH_SAFETY
from starting.gates.words import CAUTION_SAFETY
from starting.models import Session
from starting.outlook.beside import looked_at
from starting.programme import Programme, Stage
from starting.progress import Beside, Progress, is_good, progress
from starting.reads.facts import care_fact, incident_fact, record_fact, session_fact


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What a session means, in sentences: said, and to be warned of."""

    said: str
    warned: tuple[str, ...] = ()


def meaning(session: Session, stage: Stage, programme: Programme) -> Meaning:
    """Return what a session means for its step.

    4 queries: sessions, records, incidents, care.
    """
    horse = session.horse
    rows = [session_fact(row) for row in horse.sessions.all()]
    records = [record_fact(row) for row in horse.stage_records.all()]
    days = [session.on, *(row.on for row in rows)]
    beside = Beside(
        incidents=tuple(incident_fact(row) for row in horse.incidents.all()),
        looked=tuple(looked_at(care_fact(row) for row in horse.care.all())),
    )
    whole = progress(programme, rows, records, max(days), beside)
    at = whole.of(stage.key)
    good = is_good(stage, session_fact(session))
    count = f"{at.good_sessions} good sessions of {stage.min_good_sessions}"
    state = "established" if at.state == "established" else count
    but = "" if good else f" This one does not count as good: {_why_not(session)}."
    return Meaning(
        said=f"Written in: {stage.name}, {state}.{but}",
        warned=(
            *_unasked(session),
            *_held(horse, stage, programme, whole, max(days)),
        ),
    )


def _why_not(session: Session) -> str:
    if session.stop_sign:
        return "a stop sign"
    return "a tick was no" if "no" in session.checks.values() else "no tick was tried"


def _unasked(session: Session) -> tuple[str, ...]:
    missing = [
        k for k, said in session.on_the_day.items() if k in WITH_SAFETY and not said
    ]
    if not missing:
        return ()
    names = " and ".join(gate_name(key) for key in missing)
    return (f"Written in without: {names}. {CAUTION_SAFETY}",)


def _held(
    horse: Horse, stage: Stage, programme: Programme, at: Progress, on: date
) -> tuple[str, ...]:
    """Return in words the rules by which the step waits now."""
    facts = GateFacts(
        name=horse.name,
        she=horse.she,
        foaled=horse.foaled_days,
        programme=programme,
        progress=at,
    )
    return tuple(gate.why for gate in held_gates(stage, facts, on))
