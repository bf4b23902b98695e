"""Figures of a yard's own as text: typed in a box, and kept with what was changed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from functools import lru_cache
from typing import Any, Final

from fitting.fit.edges import EDGES, Change, Edge
from fitting.units import LengthUnit, UnreadableSizeError, read_length, write_length

LONGEST: Final = 40  # characters; ours, as of every size
_LESS: Final = re.compile(r"(?:less |minus |[-−–] ?)(.+)", re.IGNORECASE)
NOTHING: Final = "0 mm"
_NOTHING: Final = re.compile(r"[-−–]?0+(?:[.,]0+)? ?(?:mm|cm|in)?", re.ASCII)
_PLAIN: Final = re.compile(r"(\d{1,4}(?:[.,]\d{1,3})?) ?([a-z ]*)", re.ASCII)
_WORDS: Final = {
    "holes": frozenset({"", "hole", "holes"}),
    "days": frozenset({"", "day", "days", "d"}),
    "months": frozenset({"", "month", "months"}),
    "share": frozenset({"", "of it"}),
}


class UnreadableFigureError(ValueError):
    """Typed text that is no figure of that kind; says why, in a sentence."""


def read_figure(edge: Edge, text: str, unit: LengthUnit) -> tuple[float, str]:
    """Return a typed figure in the edge's unit, and as it is kept, with its unit.

    A bare number of a length is in the yard's unit; less than nothing is ``-10 mm`` or
    ``less 10 mm``.

    Raises:
        UnreadableFigureError: the text is none.
    """
    typed = " ".join(text.split())
    if edge.unit != "mm":
        return _read_plain(edge, typed)
    if _NOTHING.fullmatch(typed.lower()):
        return 0.0, NOTHING
    less = _LESS.fullmatch(typed)
    try:
        size = read_length(less[1] if less else typed, unit=unit)
    except UnreadableSizeError as error:
        raise UnreadableFigureError(str(error)) from error
    written = write_length(size.mm, size.written)
    return (-size.mm, f"less {written}") if less else (size.mm, written)


def _read_plain(edge: Edge, typed: str) -> tuple[float, str]:
    found = _PLAIN.fullmatch(typed.lower())
    if found is None or found[2].strip() not in _WORDS[edge.unit]:
        meant = "a number such as 0.85" if edge.unit == "share" else _example(edge)
        raise UnreadableFigureError(f"{typed} cannot be read: {meant} is meant here.")
    value = float(found[1].replace(",", "."))
    return value, write_figure(edge, value)


def _example(edge: Edge) -> str:
    return f"a number of {edge.unit}"


def write_figure(edge: Edge, value: float, written: str = "") -> str:
    """Return a figure as it is kept, with its unit: it reads back to the same."""
    if edge.unit == "mm":
        if not value:
            return NOTHING
        less = "less " if value < 0 else ""
        return less + write_length(abs(value), written.removeprefix("less "))
    if edge.unit == "share":
        return f"{value:g}"
    word = edge.unit if value != 1 else edge.unit.removesuffix("s")
    return f"{value:g} {word}"


def kept_of(change: Change) -> dict[str, str | None]:
    """Return a change as it is kept, and as a yard file has it."""
    return {
        "edge": change.edge,
        "to": change.written or None,
        "by": change.by,
        "on": change.on.isoformat(),
        "why": change.why,
    }


def changes_of(kept: Iterable[dict[str, Any]], horse: str = "") -> tuple[Change, ...]:
    """Return changes from what is kept, in their order.

    ``horse``: of which horse they are. What speaks of no edge that there is by now, as
    after a release that dropped one, counts no longer.
    """
    return tuple(
        _change(row["edge"], row["to"], row["by"], row["on"], row["why"], horse)
        for row in kept
        if row["edge"] in EDGES
    )


@lru_cache(maxsize=1024)
def _change(
    edge: str, to: str | None, by: str, on: str, why: str, horse: str
) -> Change:
    return Change(
        edge=edge,
        to=None if to is None else read_figure(EDGES[edge], to, "mm")[0],
        by=by,
        on=date.fromisoformat(on),
        why=why,
        written=to or "",
        horse=horse,
    )
