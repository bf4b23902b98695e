"""Which record makes an entry true, with what is known of it filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from fitting.body import MEASURES
from starting.diary import Entry, measures_said, task_of

# What an entry waits for: the form of a record, or a tick where there is no record.
Record = Literal["measure", "try_on", "visit", "given_back", "got", "session", "tick"]

PLAIN_KINDS: Final = ("stage_opens", "care")  # that hold plain tasks
WATCHED: Final = "tooth_change-from-"
LENT: Final = "lent-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """What makes an entry true.

    ``measures``: keys of what is asked for. ``what``: a kind of tack, of visit, a step,
    or the key of what is lent; ``part`` of what is to be got.
    """

    record: Record
    measures: tuple[str, ...] = ()
    what: str = ""
    part: str = ""


def doing_of(entry: Entry) -> Doing:
    """Return the record that makes an entry true."""
    task = task_of(entry.key)
    if entry.kind == "measure":
        return Doing(record="measure", measures=_measures(entry))
    if entry.kind == "try_on":
        return Doing(record="try_on", what=task)
    if entry.kind == "get":
        kind, _, part = task.partition("-")
        return Doing(record="got", what=kind, part=part)
    if entry.kind == "stage_starts":
        return Doing(record="session", what=task)
    return Doing(record="tick", what=task) if is_plain(entry) else _care(task)


def is_plain(entry: Entry) -> bool:
    """Whether no record tells that it was done, so that it is ticked itself."""
    watched = entry.kind == "care" and task_of(entry.key).startswith(WATCHED)
    return watched or entry.kind == "stage_opens"


def _care(task: str) -> Doing:
    if task.startswith(LENT):
        return Doing(
            record="given_back", what=task.removeprefix(LENT).rpartition("-")[0]
        )
    return Doing(record="visit", what=task.rpartition("-")[0])


def _measures(entry: Entry) -> tuple[str, ...]:
    """Return the keys of the measures that the text names."""
    named = f", {measures_said(entry)}, "  # some names hold a comma themselves
    return tuple(m.key for m in MEASURES if f", {m.name.lower()}, " in named)
