"""One smooth line through named points."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

# How far a handle reaches along the line, as a share of the piece it bends. Ours.
_REACH: Final = 0.33


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One landmark on the page; a corner is not rounded."""

    x: float
    y: float
    corner: bool = False


def landmarks(table: str) -> tuple[Point, ...]:
    """Return the points of a table with a name and two figures a line."""
    rows = (row.split() for row in table.strip().splitlines())
    return tuple(
        Point(x=float(x), y=float(y), corner=name.endswith("!")) for name, x, y in rows
    )


def _handle(
    before: Point, at: Point, after: Point, length: float
) -> tuple[float, float]:
    """Return how far the line runs on through ``at``; nothing at a corner."""
    if at.corner:
        return 0.0, 0.0
    dx, dy = after.x - before.x, after.y - before.y
    whole = math.hypot(dx, dy) or 1.0
    return dx / whole * length * _REACH, dy / whole * length * _REACH


def smooth(points: tuple[Point, ...], *, closed: bool = True) -> str:
    """Return the path that passes smoothly through the points, corners apart."""
    count = len(points)

    def point(i: int) -> Point:
        return points[i % count] if closed else points[min(max(i, 0), count - 1)]

    path = [f"M{points[0].x:.1f} {points[0].y:.1f}"]
    for i in range(count if closed else count - 1):
        start, end = point(i), point(i + 1)
        length = math.hypot(end.x - start.x, end.y - start.y)
        out = _handle(point(i - 1), start, end, length)
        back = _handle(start, end, point(i + 2), length)
        path.append(
            f"C{start.x + out[0]:.1f} {start.y + out[1]:.1f}"
            f" {end.x - back[0]:.1f} {end.y - back[1]:.1f} {end.x:.1f} {end.y:.1f}"
        )
    return " ".join(path) + ("Z" if closed else "")
