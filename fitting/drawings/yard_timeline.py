"""A yard along the months: a row a horse, its steps as numbered straps in lanes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.drawings.ink import (
    FEINT,
    INK,
    MARGIN,
    PAPER,
    Face,
    Said,
    figure,
    line,
    words,
)
from fitting.drawings.months import months_between
from fitting.drawings.scale import plumb
from fitting.drawings.timeline import (
    NARROW,
    WIDE,
    Month,
    Rested,
    month_string,
)
from fitting.drawings.timeline_straps import Field, Strap, grass, strap

LANE: Final = 24
TOP: Final = 68
NAME_ROOM: Final = 22  # above the lanes, on a phone
PAD: Final = 10
NUMBER: Final = 9.0
LETTERS: Final = 27
WIDE_LEFT: Final = 250.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseStraps:
    """One horse: its steps in order, numbered from 1, and its days of rest."""

    name: str
    straps: tuple[Strap, ...]
    rests: tuple[Rested, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class YardTimeline:
    """The months of several horses, today among them or not."""

    months: tuple[date, ...]
    today: date
    horses: tuple[HorseStraps, ...]
    said: Said


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    horse: HorseStraps
    lanes: tuple[tuple[tuple[int, Strap], ...], ...]
    top: int
    foot: int


def yard_timeline(chart: YardTimeline, *, narrow: bool = False) -> str:
    """Return the drawing, for a phone or for a wide screen."""
    width, left, right = NARROW if narrow else (WIDE[0], WIDE_LEFT, WIDE[2])
    span = months_between(chart.months)
    field = Field(span=span, left=left, right=right, narrow=narrow)
    rows = tuple(_rows(chart.horses, field))
    height = rows[-1].foot + 16 if rows else TOP + 16
    months = tuple(Month(first=first) for first in chart.months)
    inside = span.first <= chart.today < span.last
    body = (
        (line(f"M51 0V{height}", "c-margin", MARGIN, 2) if narrow else "")
        + "".join(_drawn(field, row, width) for row in rows)
        + month_string(field, months)
        + (plumb(field.x(chart.today), 26, height - 6, "today") if inside else "")
        + "".join(_name(field, row) for row in rows)
    )
    own = Said(
        uid=f"{chart.said.uid}-{'n' if narrow else 'w'}",
        title=chart.said.title,
        desc=chart.said.desc,
    )
    return figure((width, height), body, own, f"chart {'narrow' if narrow else 'wide'}")


def _rows(horses: Sequence[HorseStraps], field: Field) -> Iterator[_Row]:
    top = TOP
    for horse in horses:
        lanes = in_lanes(horse.straps, field)
        room = LANE * max(1, len(lanes)) + PAD + (NAME_ROOM if field.narrow else 0)
        yield _Row(horse=horse, lanes=lanes, top=top, foot=top + room)
        top += room


def in_lanes(
    straps: Sequence[Strap], field: Field
) -> tuple[tuple[tuple[int, Strap], ...], ...]:
    """Return the straps with their numbers, in lanes so that none covers another."""
    lanes: list[list[tuple[int, Strap]]] = []
    ends: list[float] = []
    for number, one in enumerate(straps, start=1):
        first, last = _reach(one, field)
        at = next((at for at, end in enumerate(ends) if end <= first), len(ends))
        if at == len(ends):
            lanes.append([])
            ends.append(last)
        lanes[at].append((number, one))
        ends[at] = last
    return tuple(map(tuple, lanes))


def _reach(one: Strap, field: Field) -> tuple[float, float]:
    """Return from where to where a strap and its number lie."""
    first = field.x(one.start or one.likely)
    ends = (one.likely, *(day for day in (one.early, one.late) if day))
    last = field.right if one.open_end else field.x(max(ends))
    if one.alone:
        first, last = field.x(one.likely) - 18, max(last, field.x(one.likely) + 18)
    return first - 2 * NUMBER - 6, last + 6


def _drawn(field: Field, row: _Row, width: int) -> str:
    rests = [rest.span for rest in row.horse.rests]
    top = row.top + (NAME_ROOM if field.narrow else 0)
    strips = "".join(grass(field, span, (row.top + 1, row.foot - 1)) for span in rests)
    drawn = [
        _numbered(field, one, number, top + LANE * at + PAD // 2 + LANE // 2)
        for at, lane in enumerate(row.lanes)
        for number, one in lane
    ]
    ruled = line(f"M0 {row.foot}H{width}", "c-feint", FEINT, 1)
    return strips + "".join(drawn) + ruled


def _numbered(field: Field, one: Strap, number: int, y: int) -> str:
    first = field.x(one.start or one.likely)
    x = (field.x(one.likely) - 18 if one.alone else first) - NUMBER - 3
    face = Face(css="strong", size=12, fill=INK, anchor="middle", weight=700)
    return (
        strap(field, replace(one, held_by=None), y, ())
        + f'<circle class="tag-n" cx="{x:.1f}" cy="{y}" r="{NUMBER}" fill="{PAPER}"'
        f' stroke="{INK}" stroke-width="1.4"/>{words(x, y + 4.3, str(number), face)}'
    )


def _name(field: Field, row: _Row) -> str:
    name = row.horse.name
    if field.narrow:
        bold = Face(css="strong", fill=INK, weight=600, halo=True)
        return words(field.left + 4, row.top + 17, _cut(name, 44), bold)
    bold = Face(css="strong", size=14, fill=INK, weight=600)
    return words(0, row.top + PAD / 2 + LANE / 2 + 4.5, _cut(name, LETTERS), bold)


def _cut(name: str, most: int) -> str:
    """Return a name that has its room; the list below has it whole."""
    return name if len(name) <= most else f"{name[: most - 1].rstrip()}…"
