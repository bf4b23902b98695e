"""The programmes that are shipped: a whole one, and others that say what differs."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Final

from starting.programme.reading import read_programme
from starting.programme.tables import changed, toml_text
from starting.programme.values import Programme
from starting.programme_fields import ProgrammeError

DEFAULT: Final = "default"
ORDER: Final = (DEFAULT, "small_pony", "late_big_heavy", "late_starter", "restart")
FROM: Final = "from"


@cache
def shipped(key: str = DEFAULT) -> Programme:
    """Return a programme that is shipped with the site.

    Raises:
        ProgrammeError: no programme of that name is shipped.
    """
    return read_programme(shipped_text(key), key=key)


def shipped_keys() -> tuple[str, ...]:
    """Return the names of the shipped programmes, the whole one first."""
    names = {
        file.name.removesuffix(".toml")
        for file in (files("starting") / "programmes").iterdir()
        if file.name.endswith(".toml")
    }
    return tuple(sorted(names, key=lambda name: (ORDER.index(name), name)))


def shipped_table(key: str) -> dict[str, Any]:
    """Return a shipped programme as a whole table.

    Raises:
        ProgrammeError: no programme of that name is shipped.
    """
    return tomllib.loads(shipped_text(key))


@cache
def shipped_text(key: str) -> str:
    """Return a shipped programme as one whole TOML text.

    Raises:
        ProgrammeError: no programme of that name is shipped.
    """
    if key not in shipped_keys():
        raise ProgrammeError("programme", f"found {key!r}", ", ".join(shipped_keys()))
    text = (files("starting") / "programmes" / f"{key}.toml").read_text("utf-8")
    table = tomllib.loads(text)
    if FROM not in table:
        return text
    changes = {name: value for name, value in table.items() if name != FROM}
    return toml_text(changed(shipped_table(table[FROM]), changes))
