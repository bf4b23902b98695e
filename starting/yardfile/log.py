"""The log of one horse becomes rows: steps, sessions, care, time off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Self, get_args

from fitting.models import Horse
from fitting.yardfile import Place
from fitting.yardfile.days import after, not_before
from fitting.yardfile.place import shown
from fitting.yardfile.rows import Loading, each_once, keep, listed, one_of
from starting.dated.doing import PLAIN_KINDS
from starting.gates import ASKED_EVERYWHERE
from starting.models import (
    CareVisit,
    DiaryTick,
    Incident,
    OffWork,
    Rest,
    Session,
    SessionWorn,
    StageRecord,
    WentAhead,
)
from starting.models.log import STOP_LEVELS
from starting.programme import Programme, Stage
from starting.programme_fields import ON_THE_DAY_GATES
from starting.progress import CheckAnswer
from starting.yardfile import shapes

ANSWERS: Final = get_args(CheckAnswer)
LEVELS: Final = tuple(key for key, _ in STOP_LEVELS)
LONGEST_SESSION_MINUTES: Final = 240  # as the row says: four hours


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Every step that the file's programmes know, by its key."""

    by_key: dict[str, tuple[Stage, ...]]

    @classmethod
    def of(cls, programmes: Iterable[Programme]) -> Self:
        """Return the steps of some programmes."""
        found: dict[str, tuple[Stage, ...]] = {}
        for programme in programmes:
            for stage in programme.stages:
                found[stage.key] = (*found.get(stage.key, ()), stage)
        return cls(by_key=found)

    def step(self, where: Place, key: str) -> tuple[Stage, ...]:
        """Return a step as each programme has it.

        Raises:
            YardFileError: no programme has such a step.
        """
        if key not in self.by_key:
            raise where.error(shown(key), listed(self.by_key, len(self.by_key)))
        return self.by_key[key]

    def checks(self, where: Place, key: str) -> list[str]:
        """Return the keys of a step's checks.

        Raises:
            YardFileError: no programme has such a step.
        """
        stages = self.step(where, key)
        return list(dict.fromkeys(c.key for stage in stages for c in stage.checks))

    def sign(self, where: Place, key: str, sign: str) -> str:
        """Return a stop sign in words: a step's own by its key, others as written.

        Raises:
            YardFileError: no programme has such a step.
        """
        stages = self.step(where, key)
        words = {s.key: s.text for stage in stages for s in stage.stop_signs}
        return words.get(sign, sign)

    def gates(self, where: Place, key: str) -> list[str]:
        """Return the keys of a step's gates.

        Raises:
            YardFileError: no programme has such a step.
        """
        own = (
            gate
            for stage in self.step(where, key)
            for gate in (
                *stage.gates_dated,
                *stage.gates_to_do,
                *stage.gates_on_the_day,
            )
        )
        return list(dict.fromkeys((*ASKED_EVERYWHERE, *own)))


def load_log(where: Place, loading: Loading, steps: Steps, horse: shapes.Horse) -> None:
    """Make the rows of one horse's steps, sessions, care and time off.

    Raises:
        YardFileError: a value may not stand.
    """
    row = loading.horses[horse.name]
    each_once(where / "stages", [record.stage for record in horse.stages], "stage")
    for at, record in enumerate(horse.stages):
        _record(where / "stages" / at, loading, row, record, steps)
    for at, session in enumerate(horse.sessions):
        _session(where / "sessions" / at, loading, row, session, steps)
    for at, care in enumerate(horse.care):
        _care(where / "care" / at, loading, row, care)
    for at, incident in enumerate(horse.incidents):
        _incident(where / "incidents" / at, loading, row, incident)
    for at, off in enumerate(horse.off_work):
        _off(where / "off_work" / at, loading, row, off)
    for at, rest in enumerate(horse.rests):
        _rest(where / "rests" / at, loading, row, rest)
    ahead = where / "went_ahead"
    each_once(ahead, [(w.stage, w.gate) for w in horse.went_ahead], "gate")
    for at, went in enumerate(horse.went_ahead):
        _went_ahead(ahead / at, loading, row, went, steps)
    _ticks(where / "ticked", loading, row, horse.ticked)


def _record(
    where: Place,
    loading: Loading,
    horse: Horse,
    record: shapes.StageRecord,
    steps: Steps,
) -> None:
    steps.step(where / "stage", record.stage)
    row = StageRecord(
        horse=horse,
        stage=record.stage,
        state=record.state,
        on=loading.day(where / "on", record.on),
        note=record.note,
    )
    keep(where, row)


def _session(
    where: Place,
    loading: Loading,
    horse: Horse,
    session: shapes.Session,
    steps: Steps,
) -> None:
    checks = steps.checks(where / "stage", session.stage)
    for key, answer in session.checks.items():
        one_of(where / "checks", key, checks)
        one_of(where / "checks" / key, answer, ANSWERS)
    for key in session.on_the_day:
        one_of(where / "on_the_day", key, sorted(ON_THE_DAY_GATES))
    minutes = session.minutes
    if minutes is not None and not 0 <= minutes <= LONGEST_SESSION_MINUTES:
        allowed = f"minutes from 0 to {LONGEST_SESSION_MINUTES}"
        raise (where / "minutes").error(shown(minutes), allowed)
    if isinstance(session.stop, str) and session.stop:
        allowed = '"" or an object with the keys sign, level'
        raise (where / "stop").error(shown(session.stop), allowed)
    stop = None if isinstance(session.stop, str) else session.stop
    row = Session(
        horse=horse,
        on=loading.day(where / "on", session.on),
        stage=session.stage,
        minutes=minutes,
        checks=session.checks,
        stop_sign=steps.sign(where, session.stage, stop.sign) if stop else "",
        stop_level=stop.level if stop else "",
        on_the_day=session.on_the_day,
        mood=session.mood,
        who=session.who,
        note=session.note,
    )
    if stop:
        one_of(where / "stop" / "level", stop.level, LEVELS)
    keep(where, row, stop_sign="stop.sign", stop_level="stop.level")
    for at, worn in enumerate(session.worn):
        _worn(where / "worn" / at, loading, row, worn)


def _worn(where: Place, loading: Loading, session: Session, worn: shapes.Worn) -> None:
    item, made_up = loading.item_or_set(where, worn.item, worn.made_up)
    row = SessionWorn(
        session=session,
        tack=item,
        made_up=made_up,
        part=worn.part,
        seen=worn.seen,
        hole=worn.hole,
    )
    keep(where, row)


def _care(where: Place, loading: Loading, horse: Horse, care: shapes.Care) -> None:
    on = loading.day(where / "on", care.on)
    healing = loading.maybe_day(where / "healing_until", care.healing_until)
    not_before(where / "healing_until", healing, on, "the visit")
    due = loading.maybe_day(where / "next", care.next_due)
    after(where / "next", due, on, "the visit")
    row = CareVisit(
        horse=horse,
        kind=care.kind,
        on=on,
        clear=care.clear,
        wolf_teeth=care.wolf_teeth,
        healing_until=healing,
        next_due=due,
        who=care.who,
        note=care.note,
    )
    keep(where, row)


def _incident(
    where: Place, loading: Loading, horse: Horse, incident: shapes.Incident
) -> None:
    on = loading.day(where / "on", incident.on)
    row = Incident(horse=horse, on=on, what=incident.what, note=incident.note)
    keep(where, row)


def _off(where: Place, loading: Loading, horse: Horse, off: shapes.OffWork) -> None:
    start = loading.day(where / "from", off.start)
    until = loading.maybe_day(where / "until", off.until)
    after(where / "until", until, start, "the first day off")
    cleared = loading.maybe_day(where / "cleared_on", off.cleared_on)
    not_before(where / "cleared_on", cleared, start, "the first day off")
    row = OffWork(
        horse=horse,
        start=start,
        why=off.why,
        until=until,
        cleared_by=off.cleared_by,
        cleared_on=cleared,
    )
    keep(where, row)


def _rest(where: Place, loading: Loading, horse: Horse, rest: shapes.Rest) -> None:
    start = loading.day(where / "from", rest.start)
    end = loading.maybe_day(where / "to", rest.end)
    not_before(where / "to", end, start, "its first day")
    keep(where, Rest(horse=horse, start=start, end=end, why=rest.why))


def _went_ahead(
    where: Place,
    loading: Loading,
    horse: Horse,
    went: shapes.WentAhead,
    steps: Steps,
) -> None:
    one_of(where / "gate", went.gate, steps.gates(where / "stage", went.stage))
    row = WentAhead(
        horse=horse,
        stage=went.stage,
        gate=went.gate,
        reason=went.reason,
        who=went.who,
        on=loading.day(where / "on", went.on),
    )
    keep(where, row)


def _ticks(
    where: Place, loading: Loading, horse: Horse, ticked: list[shapes.Ticked]
) -> None:
    """Keep the ticks of plain tasks of the diary, each once a day that it stood on."""
    rows = [_tick(where / at, loading, horse, tick) for at, tick in enumerate(ticked)]
    each_once(where, [(row.key, row.due_on) for row in rows], "task")
    for at, row in enumerate(rows):
        keep(where / at, row, due_on="due")


def _tick(
    where: Place, loading: Loading, horse: Horse, tick: shapes.Ticked
) -> DiaryTick:
    kind, _, task = tick.task.partition("/")
    one_of(where / "task", kind, PLAIN_KINDS)
    return DiaryTick(
        horse=horse,
        key=f"{horse.key}/{kind}/{task}",
        due_on=loading.day(where / "due", tick.due),
        on=loading.day(where / "on", tick.on),
        who=tick.who,
    )
