"""A backup on disk: what stands in its list, its rows as text, its photos."""

from starting.backup.manifest import (
    FORMAT,
    MANIFEST,
    VERSION,
    BadBackupError,
    Manifest,
    Photo,
    Table,
    read_manifest,
    write_manifest,
)
from starting.backup.photos import (
    PHOTOS,
    copied,
    differ,
    photos_in,
)
from starting.backup.rows import Digest, read_row, row_file, write_row

__all__ = [
    "FORMAT",
    "MANIFEST",
    "PHOTOS",
    "VERSION",
    "BadBackupError",
    "Digest",
    "Manifest",
    "Photo",
    "Table",
    "copied",
    "differ",
    "photos_in",
    "read_manifest",
    "read_row",
    "row_file",
    "write_manifest",
    "write_row",
]
