"""Which edition of the program this is: another may say, or reckon, otherwise."""

from __future__ import annotations

import hashlib
from importlib.metadata import version
from pathlib import Path
from typing import Final

APPS: Final = ("fitting", "starting")
WRITING: Final = (".py", ".toml")  # what decides which words and days are published


def edition_of(home: Path) -> str:
    """Return a name of the program whose apps lie in a folder, 32 hex digits.

    Other source, or another icalendar to write with: another name.
    """
    sources = sorted(
        path
        for app in APPS
        for path in (home / app).rglob("*")
        if path.suffix in WRITING
    )
    told = hashlib.sha256(version("icalendar").encode())
    for path in sources:
        told.update(b"\0" + path.relative_to(home).as_posix().encode() + b"\0")
        told.update(hashlib.sha256(path.read_bytes()).digest())
    return told.hexdigest()[:32]


# Of this very program: read as it starts, before its files are replaced.
EDITION: Final = edition_of(Path(__file__).resolve().parent.parent)
