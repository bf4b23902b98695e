"""The list of what a backup holds: tables and photos, each with its count and hash."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path, PurePosixPath
from typing import Any, Final

FORMAT: Final = "longrein-backup"
VERSION: Final = 1
MANIFEST: Final = "backup.json"


class BadBackupError(ValueError):
    """What is wrong with a backup, in one sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One table: its columns in order, how many rows, and the hash of them all."""

    name: str
    columns: tuple[str, ...]
    rows: int
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """One file among the photos: its path in their folder, its size and hash."""

    path: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """All of a backup: when it was made, the shape of its database, what is in it."""

    made: str
    migrations: tuple[tuple[str, str], ...]
    tables: tuple[Table, ...]
    photos: tuple[Photo, ...]

    @property
    def rows(self) -> int:
        """Return how many rows all tables hold."""
        return sum(table.rows for table in self.tables)


def write_manifest(folder: Path, manifest: Manifest) -> None:
    """Write the list into the folder; written last, it says that all is there."""
    whole = {"format": FORMAT, "version": VERSION, **asdict(manifest)}
    (folder / MANIFEST).write_text(json.dumps(whole, indent=1), encoding="utf-8")


def read_manifest(folder: Path) -> Manifest:
    """Return the list of a backup.

    Raises:
        BadBackupError: there is none, or it cannot be read.
    """
    path = folder / MANIFEST
    if not path.is_file():
        raise BadBackupError(f"{folder} holds no backup: {MANIFEST} is not there.")
    try:
        whole = json.loads(path.read_bytes())
        told = whole["format"], whole["version"]
    except (ValueError, KeyError, TypeError) as error:
        raise BadBackupError(f"{path} is no list of a backup.") from error
    if told != (FORMAT, VERSION):
        raise BadBackupError(f"{path} is of a kind this site does not read: {told}.")
    try:
        return _manifest(whole)
    except (ValueError, KeyError, TypeError) as error:
        raise BadBackupError(f"{path} is damaged: {error!r}.") from error


def _manifest(whole: dict[str, Any]) -> Manifest:
    return Manifest(
        made=str(whole["made"]),
        migrations=tuple((str(app), str(name)) for app, name in whole["migrations"]),
        tables=tuple(
            Table(**{**table, "columns": tuple(table["columns"])})
            for table in whole["tables"]
        ),
        photos=tuple(_photo(photo) for photo in whole["photos"]),
    )


def _photo(told: dict[str, Any]) -> Photo:
    path = PurePosixPath(told["path"])
    if path.is_absolute() or ".." in path.parts:
        raise ValueError(f"{told['path']} lies outside the folder")
    return Photo(**told)
