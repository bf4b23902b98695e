"""Programme files become steps in order, with what each needs and what is checked."""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from graphlib import CycleError, TopologicalSorter
from importlib.resources import files
from typing import Any, Final, TypeVar

from starting.programme_fields import (
    CHECK_FIELDS,
    FILE_FIELDS,
    SESSIONS_REQUIRED,
    STAGE_FIELDS,
    STAGE_REQUIRED,
    STOP_FIELDS,
    ProgrammeError,
    Reader,
    StageKind,
    StopLevel,
    read_table,
)

__all__ = [
    "Check",
    "Programme",
    "ProgrammeError",
    "Stage",
    "StageKind",
    "StopLevel",
    "StopSign",
    "mounted",
    "needs_second_person",
    "on_lines",
    "read_programme",
    "shipped",
]

DAYS_OF_A_WEEK: Final = 7
# Source: ours; it rests on the federation's usual age and the hire rule.
MOUNTED_FLOOR_MONTHS: Final = 36
Keyed = TypeVar("Keyed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One tick, answered yes, nearly, no or not tried."""

    key: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StopSign:
    """A sign to stop at, with the level it is prefilled with."""

    key: str
    text: str
    level: StopLevel


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One step of the way up; ages in months from the foaling date."""

    key: str
    name: str
    phase: str
    kind: StageKind
    aim: str
    optional: bool = False
    earliest_months: float = 0
    earliest_days: int | None = None
    floor_months: float | None = None
    typical_months: tuple[float, float] = (0, 0)
    prerequisites: tuple[str, ...] = ()
    prerequisites_once: tuple[str, ...] = ()
    gates_dated: tuple[str, ...] = ()
    gates_to_do: tuple[str, ...] = ()
    gates_on_the_day: tuple[str, ...] = ()
    tack_first_met: tuple[str, ...] = ()
    min_good_sessions: int = 0
    typical_sessions: tuple[int, int] = (0, 0)
    minutes: tuple[int, int] = (0, 0)
    days_a_week: tuple[int, int] = (0, 0)
    days_in_a_row: int = 0
    refresh_after_days: int = 0
    people: int = 1
    people_better: int = 1
    checks: tuple[Check, ...] = ()
    stop_signs: tuple[StopSign, ...] = ()
    cautions: tuple[str, ...] = ()
    evidence: str = ""
    falls_back_to: str | None = None
    ends_at_months: float | None = None
    rest_days: int | None = None
    recent_good: tuple[int, int] | None = None  # sessions, days
    two_a_day: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """Steps in an order that their prerequisites allow."""

    key: str
    name: str
    for_whom: str
    digest: str  # SHA-256 of the file, in hex
    stages: tuple[Stage, ...]

    def stage(self, key: str) -> Stage:
        """Return the step called ``key``.

        Raises:
            KeyError: the programme has no such step.
        """
        for stage in self.stages:
            if stage.key == key:
                return stage
        raise KeyError(key)

    def falls_back_to(self, key: str) -> str | None:
        """Return the step a go-back sign leads to; None for a first step.

        Raises:
            KeyError: the programme has no such step.
        """
        stage = self.stage(key)
        last = stage.prerequisites[-1] if stage.prerequisites else None
        return stage.falls_back_to or last


def needs_second_person(stage: Stage) -> bool:
    """Whether a second person must be there on each day of the step."""
    return stage.people > 1 or "second_person" in stage.gates_on_the_day


def mounted(stage: Stage) -> bool:
    """Whether a step has a rider's floor under it."""
    return (stage.floor_months or 0) >= MOUNTED_FLOOR_MONTHS


def on_lines(stage: Stage) -> bool:
    """Whether a step is work in roller, saddle or on lines: safety gear, no rider."""
    return "safety_gear" in stage.gates_on_the_day and not mounted(stage)


def read_programme(text: str, *, key: str) -> Programme:
    """Return the programme that a TOML text describes.

    Raises:
        ProgrammeError: the text is not TOML, a key is unknown or missing, a value
            is not allowed, or the steps do not stand in an order that their
            prerequisites allow.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProgrammeError("file", str(error), "TOML") from error
    fields = read_table(table, FILE_FIELDS, FILE_FIELDS, "file")
    stages = tuple(_stage(entry, at) for at, entry in enumerate(fields["stage"], 1))
    if not stages:
        raise ProgrammeError("file, stage", "no step", "at least one step")
    _check_links(stages)
    _check_order(stages)
    return Programme(
        key=key,
        name=fields["name"],
        for_whom=fields["for_whom"],
        digest=hashlib.sha256(text.encode()).hexdigest(),
        stages=stages,
    )


@cache
def shipped(key: str = "default") -> Programme:
    """Return a programme that is shipped with the site.

    Raises:
        ProgrammeError: no programme of that name is shipped.
    """
    folder = files("starting") / "programmes"
    names = sorted(
        file.name.removesuffix(".toml")
        for file in folder.iterdir()
        if file.name.endswith(".toml")
    )
    if key not in names:
        raise ProgrammeError("programme", f"found {key!r}", ", ".join(names))
    return read_programme((folder / f"{key}.toml").read_text("utf-8"), key=key)


def _stage(entry: object, at: int) -> Stage:
    where = f"step {at}"
    if isinstance(entry, dict) and isinstance(entry.get("key"), str):
        where = f"step {entry['key']!r}"
    fields = read_table(entry, STAGE_FIELDS, STAGE_REQUIRED, where)
    if fields["kind"] == "sessions":
        read_table(entry, STAGE_FIELDS, SESSIONS_REQUIRED, where)
    fields["checks"] = _keyed(Check, fields["checks"], CHECK_FIELDS, f"{where}, checks")
    fields["stop_signs"] = _keyed(
        StopSign, fields["stop_signs"], STOP_FIELDS, f"{where}, stop_signs"
    )
    fields.setdefault("people_better", fields.get("people", 1))
    stage = Stage(**fields)
    for field, wrong, allowed in _contradictions(stage):
        if wrong:
            raise ProgrammeError(f"{where}, {field}", "does not agree", allowed)
    return stage


def _keyed(
    make: Callable[..., Keyed],
    tables: Sequence[object],
    readers: Mapping[str, Reader],
    where: str,
) -> tuple[Keyed, ...]:
    seen: dict[str, Any] = {}
    for at, table in enumerate(tables, 1):
        fields = read_table(table, readers, readers, f"{where} {at}")
        if fields["key"] in seen:
            raise ProgrammeError(where, f"{fields['key']!r} twice", "a key once")
        seen[fields["key"]] = make(**fields)
    return tuple(seen.values())


Contradiction = tuple[str, bool, str]  # field, whether it is wrong, what is allowed


def _contradictions(stage: Stage) -> tuple[Contradiction, ...]:
    least = stage.earliest_months
    once, needed = set(stage.prerequisites_once), set(stage.prerequisites)
    return (
        ("checks", not stage.checks, "at least one check"),
        ("floor_months", (stage.floor_months or 0) > least, "at most earliest_months"),
        ("typical_months", stage.typical_months[0] < least, "from earliest_months on"),
        ("people", stage.people < 1, "at least 1"),
        ("people_better", stage.people_better < stage.people, "at least people"),
        ("prerequisites_once", once - needed != set(), "steps in prerequisites too"),
        *(_of_sessions(stage) if stage.kind == "sessions" else _of_others(stage)),
    )


def _of_sessions(stage: Stage) -> tuple[Contradiction, ...]:
    least, most = stage.min_good_sessions, stage.typical_sessions[1]
    days = stage.days_a_week[1]
    return (
        ("min_good_sessions", least < 1, "at least 1 for a step of sessions"),
        ("typical_sessions", most < least, "its larger number >= min_good_sessions"),
        ("days_a_week", not 1 <= days <= DAYS_OF_A_WEEK, "its larger number 1 to 7"),
        ("days_in_a_row", stage.days_in_a_row < 1, "at least 1"),
    )


def _of_others(stage: Stage) -> tuple[Contradiction, ...]:
    allowed = "none but for a step of sessions"
    return (("min_good_sessions", stage.min_good_sessions > 0, allowed),)


def _check_links(stages: Sequence[Stage]) -> None:
    known = {stage.key for stage in stages}
    if len(known) < len(stages):
        keys = [stage.key for stage in stages]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise ProgrammeError(f"step {twice!r}, key", "stands twice", "a key once")
    for stage in stages:
        where = f"step {stage.key!r}"
        for needed in stage.prerequisites:
            if needed not in known:
                allowed = "a step of this file"
                found = f"found {needed!r}"
                raise ProgrammeError(f"{where}, prerequisites", found, allowed)


def _check_order(stages: Sequence[Stage]) -> None:
    try:
        TopologicalSorter({s.key: s.prerequisites for s in stages}).prepare()
    except CycleError as error:
        found = " needs ".join(reversed(error.args[1]))
        allowed = "steps that do not wait for each other"
        raise ProgrammeError("file, prerequisites", found, allowed) from error
    before: set[str] = set()
    for stage in stages:
        back = {stage.falls_back_to} - {None}
        for field, needed in (
            ("prerequisites", set(stage.prerequisites)),
            ("falls_back_to", back),
        ):
            if late := sorted(str(key) for key in needed - before):
                where = f"step {stage.key!r}, {field}"
                found = f"{late[0]!r} does not stand before it"
                raise ProgrammeError(where, found, "a step further up in the file")
        before.add(stage.key)
