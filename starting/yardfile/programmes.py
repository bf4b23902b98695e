"""Programmes of a yard's own: what they change in a shipped one, and back."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from fitting.models import Yard
from fitting.yardfile import Place
from fitting.yardfile.place import shown
from fitting.yardfile.rows import each_once, keep
from starting.models import ProgrammeVersion
from starting.programme import (
    Programme,
    ProgrammeError,
    shipped,
    shipped_keys,
    shipped_table,
)
from starting.programme.tables import ChangeError, changed, changes_of, toml_text
from starting.reads.facts import programme_of
from starting.yardfile import shapes


def load_programmes(
    where: Place, yard: Yard, programmes: list[shapes.Programme]
) -> dict[str, ProgrammeVersion]:
    """Make the rows of a yard's own programmes; return them by name.

    Raises:
        YardFileError: a change cannot be made, or makes no programme.
    """
    each_once(where, [programme.name for programme in programmes], "name")
    made: dict[str, ProgrammeVersion] = {}
    for at, programme in enumerate(programmes):
        made[programme.name] = _version(where / at, yard, programme, made)
    return made


def _version(
    where: Place,
    yard: Yard,
    programme: shapes.Programme,
    made: Mapping[str, ProgrammeVersion],
) -> ProgrammeVersion:
    if programme.name in shipped_keys():
        raise (where / "name").error(shown(programme.name), "a name of its own")
    try:
        base = shipped_table(programme.from_)
    except ProgrammeError as error:
        raise (where / "from").error(shown(programme.from_), error.allowed) from error
    row = ProgrammeVersion(
        yard=yard,
        key=programme.from_,
        name=programme.name,
        text=_text(where / "changes", base, programme),
    )
    try:
        row.digest = programme_of(row).digest
    except ProgrammeError as error:
        place = where / "changes"
        found = str(error).removesuffix(f"; allowed: {error.allowed}")
        raise place.error(found, error.allowed) from error
    return keep(where, row, key="from")


def _text(where: Place, base: dict[str, Any], programme: shapes.Programme) -> str:
    try:
        table = changed(base, programme.changes | {"name": programme.name})
    except ChangeError as error:
        place = where
        for name in error.path:
            place /= name
        raise place.error(error.found, error.allowed) from error
    return toml_text(table)


def written_changes(row: ProgrammeVersion) -> dict[str, Any]:
    """Return what a version changes in the shipped programme it was made from."""
    return changes_of(shipped_table(row.key), tomllib.loads(row.text))


def known_programmes(versions: Mapping[str, ProgrammeVersion]) -> list[Programme]:
    """Return the default programme and the yard's own: whose steps may be named."""
    return [shipped(), *(programme_of(version) for version in versions.values())]
