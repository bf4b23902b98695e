"""The log in order, step by step, and what counts as a good session."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from starting.programme import Programme, Stage
from starting.progress.values import CheckAnswer, Recorded, SessionDone


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """A programme with its sessions and its last records, up to a day."""

    programme: Programme
    sessions: Mapping[str, tuple[SessionDone, ...]]  # by step, by day
    records: Mapping[str, Recorded]
    today: date

    def by_hand(self, stage: str) -> date | None:
        """Return the day on which a step was set by hand as established."""
        record = self.records.get(stage)
        return record.on if record and record.state == "established" else None

    def left_out(self, stage: str) -> bool:
        """Whether a step was set by hand as left out."""
        record = self.records.get(stage)
        return record is not None and record.state == "left_out"

    def good(self, stage: Stage, after: date) -> int:
        """Return the number of a step's good sessions after a day."""
        later = (one for one in self.sessions[stage.key] if one.on > after)
        return sum(is_good(stage, one) for one in later)


def read_log(
    programme: Programme,
    sessions: Iterable[SessionDone],
    records: Iterable[Recorded],
    today: date,
) -> Log:
    """Return the log up to a day; steps that the programme does not know go out."""
    logged: dict[str, list[SessionDone]] = {s.key: [] for s in programme.stages}
    for session in sorted(sessions, key=lambda done: done.on):
        if session.stage in logged and session.on <= today:
            logged[session.stage].append(session)
    return Log(
        programme=programme,
        sessions={key: tuple(rows) for key, rows in logged.items()},
        records=_recorded(records, today),
        today=today,
    )


def _recorded(records: Iterable[Recorded], today: date) -> dict[str, Recorded]:
    """Return each step's last record; on one day *left out* outranks *established*."""
    known = (record for record in records if record.on <= today)
    return {
        record.stage: record
        for record in sorted(known, key=lambda r: (r.on, r.state == "left_out"))
    }


def tried(stage: Stage, session: SessionDone) -> list[tuple[str, CheckAnswer]]:
    """Return the checks of a step that were tried in a session, with their answers."""
    known = {check.key for check in stage.checks}
    return [
        (key, answer)
        for key, answer in session.checks
        if key in known and answer != "not_tried"
    ]


def is_good(stage: Stage, session: SessionDone) -> bool:
    """Whether a session was good: no stop sign, something tried, nothing no."""
    answers = {answer for _, answer in tried(stage, session)}
    return session.stop is None and bool(answers) and "no" not in answers


def later(one: date | None, other: date | None) -> date | None:
    """Return the later of two days; None: there is neither."""
    return max(filter(None, (one, other)), default=None)
