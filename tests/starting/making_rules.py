"""Logs of the shipped way up, for the tests of the rules that hold steps back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from starting.programme import StopLevel, shipped
from starting.progress import (
    Beside,
    CheckAnswer,
    Held,
    Incident,
    Look,
    Looked,
    NewTack,
    Progress,
    Recorded,
    SessionDone,
    progress,
)

# Every number below follows from the rule itself, which is ours.
DAY = date(2031, 3, 3)
WAY = shipped()
KEYS = tuple(stage.key for stage in WAY.stages)


def on(day: int) -> date:
    return DAY + timedelta(days=day)


def up_to(last: str, day: int = 0) -> tuple[Recorded, ...]:
    """Every step up to one set by hand; what may be left out is."""
    keys = KEYS[: KEYS.index(last) + 1]
    return tuple(
        Recorded(
            stage=key,
            state="left_out" if WAY.stage(key).optional else "established",
            on=on(day),
        )
        for key in keys
    )


def ride(
    day: int,
    stage: str,
    *,
    no: Iterable[str] = (),
    stop: StopLevel | None = None,
    worn: tuple[str, ...] = (),
) -> SessionDone:
    """Return a session in which every check was yes but those named."""
    checks: list[tuple[str, CheckAnswer]] = [
        (check.key, "no" if check.key in set(no) else "yes")
        for check in WAY.stage(stage).checks
    ]
    return SessionDone(
        on=on(day), stage=stage, checks=tuple(checks), stop=stop, worn=worn
    )


def seen(
    day: int,
    sessions: Sequence[SessionDone] = (),
    records: Sequence[Recorded] = (),
    *,
    incidents: Sequence[Incident] = (),
    looked: Sequence[Looked] = (),
    new: Sequence[NewTack] = (),
) -> Progress:
    beside = Beside(
        incidents=tuple(incidents), looked=tuple(looked), new_tack=tuple(new)
    )
    return progress(WAY, sessions, records, on(day), beside)


def held(at: Progress, stage: str) -> dict[str, Held]:
    return {one.rule: one for one in at.of(stage).held}


def look_at(day: int, *what: Look, clear: bool = True) -> tuple[Looked, ...]:
    return tuple(Looked(what=one, on=on(day), clear=clear) for one in what)
