"""Steps as straps along the months: the months on top, rests as grass, today plumb."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from textwrap import wrap
from typing import Final

from fitting.drawings.ink import (
    FEINT,
    INK,
    LEATHER,
    MARGIN,
    SOFT,
    Face,
    Said,
    figure,
    leather_line,
    line,
    words,
)
from fitting.drawings.months import Span, months_between
from fitting.drawings.scale import knot, plumb
from fitting.drawings.timeline_straps import Field, Strap, gate_at, grass, rein, strap

STRING_Y: Final = 48
TOP: Final = 92
ROW: Final = 54
FOOT: Final = 16
WIDE: Final = (920, 300.0, 905.0)  # the whole, where the months begin and end
NARROW: Final = (390, 60.0, 384.0)
REIN_ROWS: Final = 8  # ours: a longer rein is only clutter
LETTERS: Final = 42  # of a reason, in one of its two lines
NAME_LETTERS: Final = 31
MONTH_ROOM: Final = 56.0  # a month's word takes that much, with its year


@dataclass(frozen=True, slots=True, kw_only=True)
class Rested:
    """Days of rest, both inside, and their word."""

    span: Span
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """The first day of a month and what is said under its name: an age."""

    first: date
    said: str = ""
    birthday: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """The months from first to last (both whole), steps as rows, rests, today."""

    months: tuple[Month, ...]
    today: date
    straps: tuple[Strap, ...]
    rests: tuple[Rested, ...]
    said: Said
    under: str = ""  # what the words under the months are


def timeline(chart: Timeline, *, narrow: bool = False) -> str:
    """Return the drawing, for a phone or for a wide screen."""
    width, left, right = NARROW if narrow else WIDE
    height = TOP + ROW * len(chart.straps) + FOOT
    field = Field(
        span=months_between(m.first for m in chart.months),
        left=left,
        right=right,
        narrow=narrow,
    )
    body = (
        (line(f"M51 0V{height}", "c-margin", MARGIN, 2) if narrow else "")
        + "".join(_rest(field, rest, height) for rest in chart.rests)
        + _string(field, chart)
        + "".join(_rows(field, chart, width))
        + _today(field, chart.today, height)
        + "".join(_names(field, chart))
    )
    said = chart.said
    own = Said(
        uid=f"{said.uid}-{'n' if narrow else 'w'}", title=said.title, desc=said.desc
    )
    css = "chart narrow" if narrow else "chart wide"
    return figure((width, height), body, own, css)


def _rest(field: Field, rest: Rested, height: int) -> str:
    drawn = grass(field, rest.span, (TOP - 12, height - 8))
    if not drawn:
        return ""
    middle = (field.x(rest.span.first) + field.x(rest.span.last)) / 2
    face = Face(size=12, fill=SOFT, anchor="middle", halo=True)
    return drawn + words(middle, TOP - 1, rest.said, face)


def _string(field: Field, chart: Timeline) -> str:
    """Return the months along the top, with what their ages are."""
    drawn = month_string(field, chart.months)
    if not chart.under:
        return drawn
    face = Face(size=12, fill=SOFT, anchor="end")
    x = field.left - (14 if field.narrow else 8)
    return drawn + words(x, STRING_Y + 17, "age" if field.narrow else chart.under, face)


def month_string(field: Field, months: tuple[Month, ...]) -> str:
    """Return the months as a string: a tick each, a knot a birthday."""
    drawn = [leather_line(f"M{field.left} {STRING_Y}H{field.right}")]
    ends = [*(m.first for m in months), field.span.last]
    room = (field.right - field.left) / len(months)
    every = max(1, -int(-MONTH_ROOM // room))
    for at, (first, after) in enumerate(pairwise(ends)):
        month = months[at]
        drawn.append(leather_line(f"M{field.x(first):.1f} {STRING_Y - 4}v8", 1.4))
        if month.birthday:
            drawn.append(knot(field.x(month.birthday), STRING_Y))
        if at % every == 0:
            middle = (field.x(first) + field.x(after)) / 2
            drawn.append(_month(middle, month, year=_new_year(months, at, every)))
    return "".join(drawn)


def _new_year(months: tuple[Month, ...], at: int, every: int) -> bool:
    """Whether a month is the first one named of its year, but not the very first."""
    before = months[at - every].first.year if at else None
    return before is not None and before != months[at].first.year


def _month(x: float, month: Month, *, year: bool) -> str:
    bold = Face(css="strong", fill=INK, anchor="middle", weight=600)
    name = f"{month.first:%b ’%y}" if year else f"{month.first:%b}"
    under = Face(size=12, fill=SOFT, anchor="middle")
    return words(x, STRING_Y - 10, name, bold) + words(
        x, STRING_Y + 17, month.said, under
    )


def _rows(field: Field, chart: Timeline, width: int) -> Iterator[str]:
    for at, row in enumerate(chart.straps):
        y = middle_of(at)
        if at:
            yield line(f"M0 {TOP + ROW * at}H{width}", "c-feint", FEINT, 1)
        held_by = row.held_by
        if held_by is not None and at - held_by <= REIN_ROWS:
            yield rein(field, (chart.straps[held_by], middle_of(held_by)), (row, y))
        yield gate_at(field, row, y)
        yield strap(field, row, y, [rest.span for rest in chart.rests])
        left = 14 if field.narrow else 0
        yield (
            f'<g transform="translate({left} {y - 24})"><use class="knotc"'
            f' href="#{row.sign}" width="24" height="36"/></g>'
        )


def middle_of(at: int) -> int:
    """Return the height of a row's strap."""
    return TOP + ROW * at + 34


def _names(field: Field, chart: Timeline) -> Iterator[str]:
    """Return the names of the steps; on a wide screen with what holds each."""
    bold = Face(css="strong", size=14, fill=INK, weight=600)
    small = Face(css="strong", fill=INK, weight=600, halo=True)
    for at, row in enumerate(chart.straps):
        y = middle_of(at)
        if field.narrow:
            yield words(field.left + 4, y - 16, row.name, small)
            continue
        name = wrap(row.name, NAME_LETTERS) or [""]
        why = wrap(row.why, LETTERS)[: 2 if len(name) == 1 else 1]
        for line_at, said in enumerate(name[:2]):
            yield words(32, y - 15 + 16 * line_at, said, bold)
        for line_at, said in enumerate(why):
            below = y + 1 + 15 * (line_at + len(name[:2]) - 1)
            yield words(32, below, said, Face(size=12, fill=SOFT))


def _today(field: Field, today: date, height: int) -> str:
    inside = field.span.first <= today <= field.span.last
    return plumb(field.x(today), 26, height - 6, "today") if inside else ""


def key() -> str:
    """Return a strap as the key of the drawing shows it."""
    return (
        f'<path class="f-leather c-ink" d="M1 4h12v10H1z" fill="{LEATHER}"'
        f' stroke="{INK}"/><path class="c-ink" d="M13 4h13l6 5-6 5H13z"'
        f' stroke="{INK}" stroke-width="1.3"/><rect class="st-buckle" x="18"'
        f' y="1.5" width="6" height="15" stroke="{INK}" stroke-width="2"/>'
    )
