"""Put a backup into an empty database, and check that both are equal."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.db import transaction
from django.db.models import Model

from starting.backup import (
    PHOTOS,
    BadBackupError,
    Digest,
    Manifest,
    Table,
    copied,
    differ,
    photos_in,
    read_manifest,
    read_row,
    row_file,
)
from starting.management import database
from starting.management.plain import Error, PlainCommand


class Command(PlainCommand):
    """Restore all of a backup, or nothing."""

    help = (
        "Put a backup into an empty database (DATABASE_URL) and photos beside it, and"
        " check that both are equal. A backup that is damaged changes nothing."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("folder", metavar="FOLDER", type=Path)

    def handle(self, *args: Any, **options: Any) -> None:
        """Restore, compare, and say what is there now."""
        folder = options["folder"]
        try:
            manifest = read_manifest(folder)
            models = database.models_at(manifest.migrations)
            _check_files(folder, manifest, models)
        except BadBackupError as error:
            raise Error(str(error)) from error
        _empty_tables(manifest, models)
        _fill(folder, manifest, models)
        call_command("migrate", verbosity=0)
        self.stdout.write(
            f"{folder}, made {manifest.made}: tables {len(manifest.tables)}, rows"
            f" {manifest.rows}, photos {len(manifest.photos)}. Database and backup:"
            " equal."
        )


def _check_files(folder: Path, manifest: Manifest, models: list[type[Model]]) -> None:
    """Read the whole backup once before anything is written.

    Raises:
        BadBackupError: something is not there, or is not what was kept.
    """
    shape = [(database.name_of(m), database.columns_of(m)) for m in models]
    if shape != [(table.name, table.columns) for table in manifest.tables]:
        raise BadBackupError(f"{folder}: its tables are not those of its migrations.")
    for table in manifest.tables:
        told = Digest()
        for row in _rows(folder, table):
            told.add(row)
        if (told.rows, told.sha256) != (table.rows, table.sha256):
            raise BadBackupError(
                f"{row_file(folder, table.name)} is damaged: {told.rows} rows, not the"
                f" {table.rows} that were kept, or not as they were."
            )
    for path in differ(manifest.photos, photos_in(folder / PHOTOS)):
        raise BadBackupError(f"{folder / PHOTOS / path} is missing or damaged.")
    media = Path(settings.MEDIA_ROOT)
    for path in differ(manifest.photos, photos_in(media)):
        if (media / path).exists():
            raise BadBackupError(f"{media / path} is there already, and another photo.")


def _rows(folder: Path, table: Table) -> Iterator[list[Any]]:
    path = row_file(folder, table.name)
    try:
        with path.open(encoding="utf-8") as opened:
            for line in opened:
                yield read_row(line, len(table.columns))
    except (BadBackupError, UnicodeDecodeError, FileNotFoundError) as error:
        raise BadBackupError(f"{path} is missing or damaged: {error}.") from error


def _empty_tables(manifest: Manifest, models: list[type[Model]]) -> None:
    """Make the tables as they were, unless they stand there just so, empty.

    Raises:
        Error: the database holds rows, or tables of another version.
    """
    if not database.has_tables():
        database.make_tables(manifest.migrations)
        return
    if database.applied() != manifest.migrations:
        raise Error(
            "The database has tables of another version than the backup; restore into"
            " one without tables."
        )
    there = database.first_with_rows(models)
    if there:
        raise Error(f"The database is not empty ({there}); restore into an empty one.")


@transaction.atomic
def _put(folder: Path, manifest: Manifest, models: list[type[Model]]) -> None:
    database.clear_made(models)
    for model, table in zip(models, manifest.tables, strict=True):
        database.put_in(model, _rows(folder, table))
    database.next_keys(models)
    for model, table in zip(models, manifest.tables, strict=True):
        if database.table_of(model) != table:
            raise Error(f"{table.name} does not read back equal; nothing was restored.")
    for path in differ(manifest.photos, photos_in(Path(settings.MEDIA_ROOT))):
        raise Error(f"The photo {path} was not copied as it is.")


def _fill(folder: Path, manifest: Manifest, models: list[type[Model]]) -> None:
    """Copy the photos and write the rows; take the photos away if the rows fail."""
    media = Path(settings.MEDIA_ROOT)
    made: list[Path] = []
    try:
        made = copied(manifest.photos, folder / PHOTOS, media)
        _put(folder, manifest, models)
    except BaseException:
        for path in made:
            path.unlink(missing_ok=True)
        raise
