"""Rows as lines of text: the same row is the same line on any database."""

from __future__ import annotations

import hashlib
import json
from base64 import b64encode
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any
from uuid import UUID

from starting.backup.manifest import BadBackupError


class Digest:
    """Counts rows and hashes them in their order.

    A database may keep the keys of a document in an order of its own, so the hash is
    of the row with its keys sorted; the file keeps them as they were.
    """

    def __init__(self) -> None:
        self.rows = 0
        self._hash = hashlib.sha256()

    def add(self, row: list[Any]) -> None:
        """Count one row of plain values in."""
        line = json.dumps(row, sort_keys=True, separators=(",", ":"))
        self._hash.update(line.encode() + b"\n")
        self.rows += 1

    @property
    def sha256(self) -> str:
        """Return the hash of the rows so far."""
        return self._hash.hexdigest()


def row_file(folder: Path, table: str) -> Path:
    """Return where a table's rows stand in a backup."""
    return folder / "rows" / f"{table}.jsonl"


def write_row(values: tuple[Any, ...]) -> list[Any]:
    """Return a row's values as text and numbers that JSON can hold.

    Raises:
        TypeError: a kind of value that has no text yet.
    """
    return [_plain(value) for value in values]


def read_row(line: str, columns: int) -> list[Any]:
    """Return the plain values of one line.

    Raises:
        BadBackupError: it is no row of so many columns.
    """
    try:
        row = json.loads(line)
    except ValueError as error:
        raise BadBackupError("a line is no row") from error
    if not isinstance(row, list) or len(row) != columns:
        raise BadBackupError(f"a row has not its {columns} columns")
    return row


def _plain(value: Any) -> Any:
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Decimal | UUID):
        return str(value)
    if isinstance(value, bytes | memoryview):
        return b64encode(bytes(value)).decode()
    if value is None or isinstance(value, str | int | float | list | dict):
        return value
    raise TypeError(f"no text for {type(value).__name__}")
