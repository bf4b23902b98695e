"""One step of a timeline: its strap, the gate it waits at, the rein that holds it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.drawings.ink import EDGE, INK, LEATHER, PAPER, ink_line, leather_line, line
from fitting.drawings.months import Span, share_of

POINT: Final = 7.0
HALF: Final = 6
LEAST: Final = 3.0  # so that a strap of a single day is still seen
DAY: Final = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strap:
    """One step: where it begins, early, likely and late end, and what holds it.

    ``early`` and ``late`` None: not drawn by lot, so that only the likely day is
    known; ``open_end``: late lies further off than is planned. ``done``: all of it
    lies behind. ``alone``: a check or an event, a gate sign and no strap. ``opens``:
    the day a gate that holds it opens. ``held_by``: the row of the step it waits for.
    """

    name: str
    sign: str
    start: date | None
    likely: date
    why: str = ""
    early: date | None = None
    late: date | None = None
    open_end: bool = False
    done: bool = False
    alone: bool = False
    gate: str = "gate-shut"
    opens: date | None = None
    held_by: int | None = None
    ahead: bool = True
    rest: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """Where the months lie, in drawing units."""

    span: Span
    left: float
    right: float
    narrow: bool

    def x(self, on: date) -> float:
        """Return where a day lies, or the nearest edge."""
        share = min(max(share_of(self.span, on), 0.0), 1.0)
        return self.left + share * (self.right - self.left)

    def after(self, on: date) -> bool:
        """Whether a day lies beyond the last month."""
        return on > self.span.last


def strap(field: Field, row: Strap, y: float, rests: Sequence[Span]) -> str:
    """Return the strap of one step, its buckle at the likely day."""
    start = row.start or field.span.first
    if start > field.span.last or row.likely < field.span.first:
        return ""
    if row.alone:
        return _sign(row.gate, field.x(row.likely) - 17, y - 12, (34, 23))
    left = field.x(start)
    if row.rest:
        right = field.x(row.likely + DAY)
        return leather_line(f"M{left:.1f} {y}H{right:.1f}", 2) + ink_line(
            f"M{left:.1f} {y - HALF}v12M{right:.1f} {y - HALF}v12", 1.4
        )
    if row.done:
        return _filled(left, max(field.x(row.likely + DAY), left + LEAST), y)
    drawn = _body(field, row, left, y)
    drawn += "".join(_rested(field, row, start, y, rests))
    if not field.after(row.likely):
        drawn += _buckle(field.x(row.likely), y)
    if row.ahead and row.held_by is not None:
        drawn += ring(left - 4, y)
    return drawn


def _body(field: Field, row: Strap, left: float, y: float) -> str:
    """Return the strap: filled to early, hollow to late; a bare line if not known."""
    if row.early is None:
        right = max(field.x(row.likely), left)
        return leather_line(f"M{left:.1f} {y}H{right:.1f}", 2.4, "2 5")
    early = max(field.x(row.early), left + LEAST)
    if field.after(row.early):
        return _filled(left, early, y)
    late = field.span.last if row.late is None else row.late
    right = max(field.x(late), early + LEAST)
    beyond = row.open_end or row.late is None or field.after(row.late)
    return _hollow(early, right, y, beyond=beyond) + _filled(left, early, y)


def _filled(left: float, right: float, y: float) -> str:
    return (
        f'<path class="c-ink f-leather" d="M{left:.1f} {y - HALF}H{right:.1f}'
        f'V{y + HALF}H{left:.1f}Z" fill="{LEATHER}" stroke="{INK}"'
        ' stroke-width="1.4"/>'
    )


def _hollow(left: float, right: float, y: float, *, beyond: bool) -> str:
    """Return the hollow part with its point; one that runs on beyond has none."""
    if beyond:
        return ink_line(
            f"M{right:.1f} {y - HALF}H{left:.1f}V{y + HALF}H{right:.1f}", 1.4
        )
    point = min(POINT, right - left)
    return (
        f'<path class="c-ink f-paper" d="M{left:.1f} {y - HALF}H{right - point:.1f}'
        f"L{right:.1f} {y}L{right - point:.1f} {y + HALF}H{left:.1f}Z"
        f'" fill="{PAPER}" stroke="{INK}" stroke-width="1.4"/>'
    )


def _rested(
    field: Field, row: Strap, start: date, y: float, rests: Sequence[Span]
) -> Iterator[str]:
    """Yield where the filled part of a strap thins to a string across a rest."""
    end = row.early or row.likely
    for rest in rests:
        first, last = max(rest.first, start), min(rest.last, end)
        if row.early is None or first >= last or first > field.span.last:
            continue
        left, right = field.x(first), field.x(last)
        yield (
            f'<rect class="f-leaf" x="{left:.1f}" y="{y - 7.5}"'
            f' width="{right - left:.1f}" height="15" fill="#F2F5F5"/>'
            f"{leather_line(f'M{left:.1f} {y}H{right:.1f}')}"
            f"{ink_line(f'M{left:.1f} {y - HALF}v12M{right:.1f} {y - HALF}v12', 1.4)}"
        )


def _buckle(x: float, y: float) -> str:
    return (
        f'<rect class="st-buckle" x="{x - 4:.1f}" y="{y - 9}" width="8" height="18"'
        f' rx="1.5" stroke="{INK}" stroke-width="2.2"/>'
    )


def ring(x: float, y: float) -> str:
    """Return the ring at the start of a step that another one holds."""
    return (
        f'<circle class="c-ink f-paper" cx="{x:.1f}" cy="{y}" r="4.2" fill="{PAPER}"'
        f' stroke="{INK}" stroke-width="2"/>'
    )


def rein(field: Field, holds: tuple[Strap, int], held: tuple[Strap, int]) -> str:
    """Return the thin rein from the buckle of one step to the start of the next."""
    (before, y0), (after, y1) = holds, held
    start = after.start or after.likely
    if field.after(before.likely) or field.after(start) or y1 < y0:
        return ""
    x0, x1 = field.x(before.likely), field.x(start) - 4
    return ink_line(
        f"M{x0:.1f} {y0 + 9}C{x0:.1f} {y0 + 20} {x1:.1f} {y1 - 24} {x1:.1f} {y1 - 5}",
        1.3,
    )


def gate_at(field: Field, row: Strap, y: float) -> str:
    """Return the gate a step waits at, on its dashed post at the day it opens."""
    if row.opens is None or row.alone or field.after(row.opens):
        return ""
    if row.opens < field.span.first:
        return ""
    x = field.x(row.opens)
    post = line(f"M{x:.1f} {y - 20}V{y + 14}", "c-edge", EDGE, 1.1, "3 4")
    return post + _sign(row.gate, x - 27, y - 9, (24, 16))


def _sign(name: str, x: float, y: float, size: tuple[int, int]) -> str:
    css = name.replace("gate-", "g-")
    return (
        f'<g transform="translate({x:.1f} {y})"><use class="{css}" href="#{name}"'
        f' width="{size[0]}" height="{size[1]}"/></g>'
    )


def grass(field: Field, span: Span, heights: tuple[int, int]) -> str:
    """Return days of rest as a pale strip with tufts of grass; empty if not shown."""
    if span.last < field.span.first or field.after(span.first):
        return ""
    left, right = field.x(span.first), field.x(span.last + DAY)
    top, foot = heights
    strip = (
        f'<rect class="f-leaf" x="{left:.1f}" y="{top}" width="{right - left:.1f}"'
        f' height="{foot - top}" fill="#F2F5F5"/>'
    )
    tufts = "".join(
        f"M{x} {y}l-2.5-5M{x} {y}v-6.5M{x} {y}l2.5-5"
        for y in range(top + 18, foot, 26)
        for x in range(int(left) + 5, int(right) - 2, 13)
    )
    return strip + (line(tufts, "c-field", "#22603A", 1) if tufts else "")
