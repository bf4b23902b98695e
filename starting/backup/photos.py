"""The photos of a backup: files, copied and compared by size and hash."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path
from shutil import copyfile
from typing import Final

from starting.backup.manifest import Photo

PHOTOS: Final = "photos"
PRIVATE_FOLDER: Final = 0o700
PRIVATE_FILE: Final = 0o600


def photos_in(folder: Path) -> tuple[Photo, ...]:
    """Return every file under a folder, by path; none if there is no such folder."""
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return tuple(_photo(folder, path) for path in found)


def copied(photos: Iterable[Photo], source: Path, target: Path) -> list[Path]:
    """Copy the files that are not there yet; return the paths that were made."""
    made = []
    for photo in photos:
        to = target / photo.path
        if to.exists():
            continue
        to.parent.mkdir(parents=True, exist_ok=True, mode=PRIVATE_FOLDER)
        copyfile(source / photo.path, to)
        to.chmod(PRIVATE_FILE)
        made.append(to)
    return made


def differ(wanted: Iterable[Photo], there: Iterable[Photo]) -> tuple[str, ...]:
    """Return the paths that are wanted and not there just so."""
    found = {photo.path: photo for photo in there}
    return tuple(p.path for p in wanted if found.get(p.path) != p)


def _photo(folder: Path, path: Path) -> Photo:
    with path.open("rb") as opened:
        told = hashlib.file_digest(opened, "sha256").hexdigest()
    return Photo(
        path=path.relative_to(folder).as_posix(),
        size=path.stat().st_size,
        sha256=told,
    )
