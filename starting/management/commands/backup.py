"""Write the database and the photos into a folder, and read them back."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import Model
from django.utils import timezone

from starting.backup import (
    PHOTOS,
    Digest,
    Manifest,
    Photo,
    Table,
    copied,
    differ,
    photos_in,
    read_row,
    row_file,
    write_manifest,
)
from starting.backup.photos import PRIVATE_FILE, PRIVATE_FOLDER
from starting.management.database import (
    applied,
    columns_of,
    files_named,
    models_at,
    name_of,
    one_moment,
    rows_of,
)
from starting.management.plain import Error, PlainCommand, said


class Command(PlainCommand):
    """Keep all that is written on this site: any database, and its photos."""

    help = (
        "Write the database and the photos into a new folder and check it. Not in it:"
        " who is signed in, and the site's secret key."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("folder", metavar="FOLDER", type=Path)

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the folder; its list comes last, when all has been read back."""
        folder, media = options["folder"], Path(settings.MEDIA_ROOT)
        names = applied()
        if not names:
            raise Error("The database has no tables yet: nothing to keep.")
        _make(folder)
        with transaction.atomic():
            one_moment()
            models = models_at(names)
            tables = tuple(_write(folder, model) for model in models)
            named = files_named(models)
            photos = photos_in(media)
            copied(photos, media, folder / PHOTOS)
        _check(folder, tables, photos)
        manifest = Manifest(
            made=timezone.now().isoformat(timespec="seconds"),
            migrations=names, tables=tables, photos=photos,
        )  # fmt: skip
        write_manifest(folder, manifest)
        self.stdout.write(
            f"{folder}: tables {len(tables)}, rows {manifest.rows}, photos"
            f" {len(photos)}. Read back: equal."
        )
        lost = sorted(named - {photo.path for photo in photos})
        if lost:
            self.stderr.write(f"Named by the yard but not in {media}: {said(lost)}.")


def _make(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True, mode=PRIVATE_FOLDER)
    if any(folder.iterdir()):
        raise Error(f"{folder} is not empty; name a new folder for each backup.")
    row_file(folder, "").parent.mkdir(mode=PRIVATE_FOLDER)


def _write(folder: Path, model: type[Model]) -> Table:
    told, path = Digest(), row_file(folder, name_of(model))
    path.touch(mode=PRIVATE_FILE)
    with path.open("w", encoding="utf-8") as opened:
        for row in rows_of(model):
            told.add(row)
            opened.write(json.dumps(row, separators=(",", ":")) + "\n")
    return Table(
        name=name_of(model), columns=columns_of(model),
        rows=told.rows, sha256=told.sha256,
    )  # fmt: skip


def _check(folder: Path, tables: tuple[Table, ...], photos: tuple[Photo, ...]) -> None:
    """Read the folder back as a restore would.

    Raises:
        Error: it does not hold what was written.
    """
    for table in tables:
        told = Digest()
        with row_file(folder, table.name).open(encoding="utf-8") as opened:
            for line in opened:
                told.add(read_row(line, len(table.columns)))
        if (told.rows, told.sha256) != (table.rows, table.sha256):
            raise Error(f"{table.name} does not read back as it was written.")
    for path in differ(photos, photos_in(folder / PHOTOS)):
        raise Error(f"The photo {path} was not copied as it is.")
