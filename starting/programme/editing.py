"""One step of a yard's own programme changed, taken out or put back."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from starting.programme.faults import Fault, faults_of, faults_without
from starting.programme.reading import read_programme
from starting.programme.tables import (
    ENABLED,
    STAGES,
    STEP_LISTS,
    Table,
    changed,
    changes_of,
    toml_text,
    without,
)
from starting.programme_fields import ProgrammeError

KEY_MOST: Final = 40
NOT_A_KEY: Final = re.compile(r"[^a-z0-9]+", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A change as it would be: the text of the new version, or what is wrong."""

    text: str
    faults: tuple[Fault, ...]


def step_changed(base: Table, own: Table, key: str, fields: Mapping[str, Any]) -> Tried:
    """Return a programme with some fields of one step changed.

    Args:
        base: the shipped programme it is made from.
        own: the programme as it is now.
        key: the step.
        fields: new values, as the table holds them.
    """
    stages = _stages(base, own)
    stages[key] = stages.get(key, {}) | dict(fields)
    return _tried(base, own, stages, key)


def taken_out(base: Table, own: Table, key: str) -> Tried:
    """Return a programme without a step; what it waited for is handed on."""
    if faults := faults_without(_by_key(base["stage"]), _left(own, key), key):
        return Tried(text="", faults=faults)
    stages = _stages(base, own)
    after = _by_key(without(own["stage"], {key}))
    for name, change in stages.items():
        said = [field for field in STEP_LISTS if field in change and name in after]
        stages[name] = change | {field: after[name][field] for field in said}
    stages[key] = {ENABLED: False}
    return _tried(base, own, stages, None)


def put_back(base: Table, own: Table, key: str) -> Tried:
    """Return a programme with a step of the shipped one put back as it was there."""
    stages = _stages(base, own)
    stages.pop(key, None)
    return _tried(base, own, stages, key)


def gone_from(base: Table, own: Table) -> tuple[Table, ...]:
    """Return the steps of the shipped programme that were taken out, in order."""
    kept = _by_key(own["stage"])
    return tuple(step for step in base["stage"] if step["key"] not in kept)


def ticks_from(old: Sequence[Mapping[str, str]], texts: Iterable[str]) -> list[Table]:
    """Return ticks with their keys: reworded ones keep theirs, new ones get one.

    Args:
        old: the ticks as they are.
        texts: their texts now, in the same order, empty where one is struck out; then
            the texts of new ones.
    """
    found: list[Table] = []
    taken = {check["key"] for check in old}
    for at, text in enumerate(texts):
        if not text.strip():
            continue
        key = old[at]["key"] if at < len(old) else _new_key(text, taken)
        taken.add(key)
        found.append({"key": key, "text": " ".join(text.split())})
    return found


def _new_key(text: str, taken: set[str]) -> str:
    plain = NOT_A_KEY.sub("_", text.lower()).strip("_")[:KEY_MOST].strip("_") or "tick"
    key, number = plain, 2
    while key in taken:
        key, number = f"{plain}_{number}", number + 1
    return key


def _by_key(steps: Iterable[Table]) -> dict[str, Table]:
    return {step["key"]: step for step in steps}


def _left(own: Table, key: str) -> dict[str, Table]:
    """Return the steps as they would stand without one, and that one as it is."""
    steps = _by_key(own["stage"])
    return {key: steps[key]} | _by_key(without(own["stage"], {key}))


def _stages(base: Table, own: Table) -> dict[str, Table]:
    return dict(changes_of(base, own).get(STAGES, {}))


def _tried(
    base: Table, own: Table, stages: Mapping[str, Table], key: str | None
) -> Tried:
    """Return the programme that changed steps make, and what is wrong with one."""
    changes = changes_of(base, own) | {STAGES: stages, "name": own["name"]}
    table = changed(base, changes)
    steps = _by_key(table["stage"])
    faults = faults_of(_by_key(base["stage"]), steps, key) if key else ()
    text = toml_text(table)
    if not faults:
        try:
            read_programme(text, key="tried")
        except ProgrammeError as error:
            faults = (Fault(field="", text=f"{error}."),)
    return Tried(text="" if faults else text, faults=faults)
