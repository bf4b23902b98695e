"""Programme files become steps in order, with what each needs and what is checked."""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Callable, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter
from typing import Any, Final, TypeVar

from starting.programme.values import Check, Programme, Stage, StopSign
from starting.programme_fields import (
    CHECK_FIELDS,
    FILE_FIELDS,
    FILE_REQUIRED,
    SESSIONS_REQUIRED,
    SETTING_FIELDS,
    STAGE_FIELDS,
    STAGE_REQUIRED,
    STOP_FIELDS,
    ProgrammeError,
    Reader,
    read_table,
)

DAYS_OF_A_WEEK: Final = 7
NO_SESSIONS: Final = "none but for a step of sessions"
Keyed = TypeVar("Keyed")


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
    fields = read_table(table, FILE_FIELDS, FILE_REQUIRED, "file")
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
        **_settings(fields.get("settings", {}), stages),
    )


def _settings(table: Mapping[str, object], stages: Sequence[Stage]) -> dict[str, Any]:
    fields = read_table(table, SETTING_FIELDS, (), "settings")
    end = fields.get("may_end_at")
    if end is not None and end not in {stage.key for stage in stages}:
        raise ProgrammeError("settings, may_end_at", f"found {end!r}", "a step of it")
    return {
        "may_end_at": end,
        "settle_days": fields.get("settle_days", 0),
        "more_sessions": fields.get("good_session_factor_from_48_months", 1.0),
    }


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
        ("clean_days", stage.clean_days > 0 and stage.kind != "sessions", NO_SESSIONS),
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
    return (("min_good_sessions", stage.min_good_sessions > 0, NO_SESSIONS),)


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
