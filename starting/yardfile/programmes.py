"""Programmes of a yard's own: what they change in a shipped one, and back."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from django.utils import timezone

from fitting.models import Yard
from fitting.yardfile import Place
from fitting.yardfile.place import shown
from fitting.yardfile.rows import each_once, find, keep
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
    for at, programme in sorted(enumerate(programmes), key=lambda one: _age(one[1])):
        made[programme.name] = _version(where / at, yard, programme, made)
    return made


def _age(programme: shapes.Programme) -> tuple[bool, str]:
    """Return what first versions, and then older ones, come first by."""
    return bool(programme.version_of), programme.made or ""


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
    name = _line(where / "version_of", programme, made)
    row = ProgrammeVersion(
        yard=yard,
        key=programme.from_,
        name=name,
        text=_text(where / "changes", base, programme, name),
        made_at=_moment(where / "made", programme.made),
        made_by=programme.who,
        what_changed=programme.why,
    )
    try:
        row.digest = programme_of(row).digest
    except ProgrammeError as error:
        place = where / "changes"
        found = str(error).removesuffix(f"; allowed: {error.allowed}")
        raise place.error(found, error.allowed) from error
    return keep(where, row, key="from", made_by="who", what_changed="why")


def _line(
    where: Place, programme: shapes.Programme, made: Mapping[str, ProgrammeVersion]
) -> str:
    """Return the name that a programme has in all its versions."""
    if not programme.version_of:
        return programme.name
    first = find(where, programme.version_of, made)
    if first.key != programme.from_ or first.name != programme.version_of:
        allowed = "the first version of a programme made from the same one"
        raise where.error(shown(programme.version_of), allowed)
    return first.name


def _moment(where: Place, text: str | None) -> datetime:
    """Return when a version was made; nobody says so: now."""
    if text is None:
        return timezone.now()
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise where.error(shown(text), "a moment such as 2026-11-03T08:10Z") from error
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _text(
    where: Place, base: dict[str, Any], programme: shapes.Programme, name: str
) -> str:
    try:
        table = changed(base, programme.changes | {"name": name})
    except ChangeError as error:
        place = where
        for step in error.path:
            place /= step
        raise place.error(error.found, error.allowed) from error
    return toml_text(table)


def written_changes(row: ProgrammeVersion) -> dict[str, Any]:
    """Return what a version changes in the shipped programme it was made from."""
    return changes_of(shipped_table(row.key), tomllib.loads(row.text))


def known_programmes(versions: Mapping[str, ProgrammeVersion]) -> list[Programme]:
    """Return the default programme and the yard's own: whose steps may be named."""
    return [shipped(), *(programme_of(version) for version in versions.values())]
