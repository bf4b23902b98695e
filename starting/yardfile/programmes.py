"""Programmes of a yard's own: what they change in a shipped one, and back."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, Final

from fitting.models import Yard
from fitting.yardfile import Place
from fitting.yardfile.place import shown
from fitting.yardfile.rows import each_once, keep, listed
from starting.models import ProgrammeVersion
from starting.programme import Programme, ProgrammeError, shipped
from starting.reads.facts import programme_of
from starting.yardfile import shapes

ENABLED: Final = "enabled"
STAGES: Final = "stages"
STEP_LISTS: Final = ("prerequisites", "prerequisites_once")
Table = dict[str, Any]


def load_programmes(
    where: Place, yard: Yard, programmes: list[shapes.Programme]
) -> dict[str, ProgrammeVersion]:
    """Make the rows of a yard's own programmes; return them by name.

    Raises:
        YardFileError: a change cannot be made, or makes no programme.
    """
    each_once(where, [programme.name for programme in programmes], "name")
    return {
        programme.name: _version(where / at, yard, programme)
        for at, programme in enumerate(programmes)
    }


def _version(where: Place, yard: Yard, programme: shapes.Programme) -> ProgrammeVersion:
    if programme.name == shapes.DEFAULT_PROGRAMME:
        raise (where / "name").error(shown(programme.name), "a name of its own")
    try:
        shipped(programme.from_)
    except ProgrammeError as error:
        raise (where / "from").error(shown(programme.from_), error.allowed) from error
    table = changed(where / "changes", shipped_table(programme.from_), programme)
    row = ProgrammeVersion(
        yard=yard, key=programme.from_, name=programme.name, text=toml_text(table)
    )
    try:
        row.digest = programme_of(row).digest
    except ProgrammeError as error:
        place = where / "changes"
        found = str(error).removesuffix(f"; allowed: {error.allowed}")
        raise place.error(found, error.allowed) from error
    return keep(where, row, key="from")


@cache
def shipped_table(key: str) -> Table:
    """Return a shipped programme as the table its file holds."""
    return tomllib.loads(
        (files("starting") / "programmes" / f"{key}.toml").read_text("utf-8")
    )


def changed(where: Place, table: Table, programme: shapes.Programme) -> Table:
    """Return the table with a programme's changes made.

    Raises:
        YardFileError: a change of something else than steps, or of no such step.
    """
    stages = programme.changes.get(STAGES, {})
    for key, value in programme.changes.items():
        if key != STAGES and value != {}:
            raise (where / key).error("this cannot be changed yet", STAGES)
    if not isinstance(stages, dict):
        raise (where / STAGES).error(shown(stages), "an object of steps")
    known = [stage["key"] for stage in table["stage"]]
    for key, fields in stages.items():
        if key not in known:
            place = where / STAGES / key
            raise place.error("no such step", listed(known, len(known)))
        _check_fields(where / STAGES / key, fields)
    return {**table, "name": programme.name, "stage": _steps(table, stages)}


def _check_fields(where: Place, fields: Any) -> None:
    if not isinstance(fields, dict):
        raise where.error(shown(fields), "an object of the step's fields")
    if empty := [name for name, value in fields.items() if value is None]:
        raise (where / empty[0]).error(shown(None), "a value")
    if not isinstance(fields.get(ENABLED, True), bool):
        raise (where / ENABLED).error(shown(fields[ENABLED]), "true or false")


def _steps(table: Table, changes: Mapping[str, Table]) -> list[Table]:
    """Return the steps that stay, in their order, with their fields replaced."""
    gone = {key for key, f in changes.items() if not f.get(ENABLED, True)}
    return [
        _without(stage, gone) | _fields(changes.get(stage["key"], {}))
        for stage in table["stage"]
        if stage["key"] not in gone
    ]


def _fields(change: Table) -> Table:
    return {name: value for name, value in change.items() if name != ENABLED}


def _without(stage: Table, gone: set[str]) -> Table:
    """Return a step that waits for none of the steps that are gone."""
    kept = {
        name: [key for key in stage[name] if key not in gone]
        for name in STEP_LISTS
        if name in stage
    }
    falls_back = stage.get("falls_back_to") in gone
    stayed = {k: v for k, v in stage.items() if k != "falls_back_to" or not falls_back}
    return stayed | kept


def changes_of(text: str, key: str) -> Table:
    """Return what a programme's text changes in the shipped one of that key."""
    base, table = shipped_table(key), tomllib.loads(text)
    own = {stage["key"]: stage for stage in table["stage"]}
    gone = {s["key"] for s in base["stage"]} - own.keys()
    changes: Table = {}
    for stage in base["stage"]:
        name = stage["key"]
        if name in gone:
            changes[name] = {ENABLED: False}
            continue
        before = _without(stage, gone)
        fields = {k: v for k, v in own[name].items() if before.get(k) != v}
        if fields:
            changes[name] = {k: fields[k] for k in sorted(fields)}
    return {STAGES: {k: changes[k] for k in sorted(changes)}} if changes else {}


def toml_text(table: Table) -> str:
    """Return a programme's table as TOML."""
    head = [f"{k} = {_toml(v)}" for k, v in table.items() if k != "stage"]
    steps = (
        "\n".join(["", "[[stage]]", *(f"{_key(k)} = {_toml(v)}" for k, v in s.items())])
        for s in table["stage"]
    )
    return "\n".join([*head, *steps, ""])


def _key(name: str) -> str:
    return json.dumps(name, ensure_ascii=False)


def _toml(value: Any) -> str:
    """Return a value as TOML; its texts and numbers are written as in JSON."""
    if isinstance(value, dict):
        inner = ", ".join(f"{_key(k)} = {_toml(v)}" for k, v in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list):
        return f"[{', '.join(_toml(item) for item in value)}]"
    return json.dumps(value, ensure_ascii=False)


def known_programmes(versions: Mapping[str, ProgrammeVersion]) -> list[Programme]:
    """Return the default programme and the yard's own: whose steps may be named."""
    return [shipped(), *(programme_of(version) for version in versions.values())]
