"""A yard's own figure in place of ours."""

from __future__ import annotations

from datetime import date

from fitting.fit.edge_text import write_figure
from fitting.fit.edges import EDGES, Change

MAY = date(2026, 5, 3)


def change(edge: str, to: float | None, horse: str = "") -> Change:
    written = "" if to is None else write_figure(EDGES[edge], to)
    return Change(
        edge=edge, to=to, by="Jo", on=MAY, why="Thin skin", written=written, horse=horse
    )
