"""A yard's and a horse's own figures in a yard file, held to what may stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

import msgspec

from fitting.fit.edge_text import (
    UnreadableFigureError,
    changes_of,
    kept_of,
    read_figure,
)
from fitting.fit.edges import EDGES, Change
from fitting.fit.sound import laid_over, troubles
from fitting.readings import Units
from fitting.yardfile import shapes
from fitting.yardfile.days import read_day
from fitting.yardfile.place import Place, shown
from fitting.yardfile.rows import listed

ALLOWED = "a list of changes, each with edge, to, by, on and why"


def read_changes(
    where: Place, found: object, units: Units, on: date
) -> list[dict[str, Any]]:
    """Return changes as they are kept, days and units spelled out.

    Raises:
        YardFileError: one of them may not stand.
    """
    try:
        rows = msgspec.convert(found, list[shapes.EdgeChange])
    except msgspec.ValidationError as error:
        raise where.error(str(error), ALLOWED) from error
    return [kept_of(_change(where / at, row, units, on)) for at, row in enumerate(rows)]


def _change(where: Place, row: shapes.EdgeChange, units: Units, on: date) -> Change:
    if row.edge not in EDGES:
        raise (where / "edge").error(shown(row.edge), listed(EDGES))
    to, written = None, ""
    if row.to is not None:
        try:
            to, written = read_figure(EDGES[row.edge], row.to, units.length)
        except UnreadableFigureError as error:
            said = f"{shown(row.to)}. {error}".rstrip(".")
            raise (where / "to").error(said, "a figure with its unit") from error
    return Change(
        edge=row.edge,
        to=to,
        by=row.by,
        on=read_day(where / "on", row.on, on),
        why=row.why,
        written=written,
    )


def check_sound(
    where: Place,
    yard: Iterable[dict[str, Any]],
    horse: Sequence[dict[str, Any]] = (),
) -> None:
    """Check that the figures may stand, a horse's own over the yard's.

    Raises:
        YardFileError: one of them may not.
    """
    for trouble in troubles(laid_over(changes_of(yard), changes_of(horse))):
        raise where.error(f"found {trouble.edge}", trouble.why.rstrip("."))
