"""Croup over withers by age: what was read, what is usual, where work paused."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import ceil, floor
from typing import Final

from fitting.age import DAYS_A_MONTH, MONTHS_A_YEAR
from fitting.drawings import marks, scale
from fitting.drawings.ink import (
    BAND,
    INK,
    LEATHER,
    MARGIN,
    SOFT,
    Face,
    Said,
    figure,
    ink_line,
    leather_line,
    line,
    words,
)
from fitting.drawings.marks import Mark, Reading
from fitting.drawings.scale import Frame, Plot, Unit, shown_range

NARROW: Final = Frame(
    size=(390, 262), left=60, right=382, top=40, bottom=192, stick=(6, 46), narrow=True
)
WIDE: Final = Frame(
    size=(860, 306),
    left=74,
    right=836,
    top=44,
    bottom=232,
    stick=(14, 54),
    narrow=False,
)
# How much is shown around what was read: ours.
_LEAST_MM: Final = -10.0
_ROOM_MM: Final = 10.0
_AHEAD_MONTHS: Final = 2.0
_MARGIN_X: Final = 51
_DOTS: Final = "1 5"
_DASHES: Final = "7 5"
_RING: Final = 9
_WORDS_APART_MM: Final = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CroupMark:
    """One pair: its day, the croup over the withers, half its nine-in-ten error; mm."""

    on: date
    over_mm: float
    half_width_mm: float
    mark: Mark
    high: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CroupChart:
    """All that the drawing shows; mm.

    ``uid`` is unique on the page. ``pauses``: first day, and the first after it.
    """

    uid: str
    title: str
    desc: str
    unit: Unit
    born: date
    today: date
    pairs: tuple[CroupMark, ...]
    edge_mm: float
    usual_mm: float | None = None
    pauses: tuple[tuple[date, date], ...] = ()

    def age(self, on: date) -> float:
        """Return the age on a day, in months."""
        return (on - self.born).days / DAYS_A_MONTH


def _plot(chart: CroupChart, frame: Frame) -> Plot:
    """Return whole years of life, and all that was read with its error."""
    first = min(chart.age(pair.on) for pair in chart.pairs)
    ends = [chart.age(end) for _, end in chart.pauses]
    last = max(chart.age(chart.today) + _AHEAD_MONTHS, *ends, first + 1)
    low = min(pair.over_mm - pair.half_width_mm for pair in chart.pairs)
    high = max(pair.over_mm + pair.half_width_mm for pair in chart.pairs)
    return Plot(
        frame=frame,
        ages=(
            floor(first / MONTHS_A_YEAR) * MONTHS_A_YEAR,
            ceil(last / MONTHS_A_YEAR) * MONTHS_A_YEAR,
        ),
        sizes=(min(low, _LEAST_MM), max(high, chart.edge_mm + _ROOM_MM)),
        unit=chart.unit,
    )


def _pauses(chart: CroupChart, plot: Plot) -> str:
    """Return the weeks of each pause as a strip of band."""
    top, foot = plot.frame.top, plot.frame.bottom
    drawn = []
    for start, end in chart.pauses:
        left, right = plot.x(chart.age(start)), plot.x(chart.age(end))
        drawn.append(
            f'<rect class="f-band" x="{left:.1f}" y="{top}"'
            f' width="{max(right - left, 2):.1f}" height="{foot - top}" fill="{BAND}"/>'
        )
    return "".join(drawn)


def _across(plot: Plot) -> str:
    return f"H{plot.frame.right}"


def _levels(chart: CroupChart, plot: Plot) -> str:
    """Return the lines across: level with the withers, high by itself, usual."""
    left = plot.frame.left
    level, edge = plot.y(0), plot.y(chart.edge_mm)
    drawn = ink_line(f"M{left} {level:.1f}{_across(plot)}", 1.4)
    drawn += leather_line(f"M{left} {edge:.1f}{_across(plot)}", 1.8, _DOTS)
    if chart.usual_mm is not None:
        usual = plot.y(chart.usual_mm)
        drawn += leather_line(f"M{left} {usual:.1f}{_across(plot)}", 1.6, _DASHES)
    return drawn


def _said(chart: CroupChart, plot: Plot) -> str:
    """Return the words on the lines; drawn last, and kept apart."""
    right = plot.frame.right - 4
    soft = Face(size=12, fill=SOFT, anchor="end", halo=True)
    leather = Face(size=12, fill=LEATHER, anchor="end", halo=True)
    edge = _with_unit(chart.edge_mm, chart.unit)
    level = "level" if plot.frame.narrow else "level with the withers"
    drawn = words(right, plot.y(0) + 14, level, soft)
    drawn += words(right, plot.y(chart.edge_mm) - 5, f"high from {edge}", leather)
    usual = chart.usual_mm
    if usual is not None and abs(usual - chart.edge_mm) > _WORDS_APART_MM:
        said = f"usual {_with_unit(usual, chart.unit)}"
        drawn += words(right, plot.y(usual) - 5, said, leather)
    return drawn


def _with_unit(mm: float, unit: Unit) -> str:
    return shown_range(mm, mm, unit)


def _pairs(chart: CroupChart, plot: Plot) -> str:
    """Return what was read, each with its error; a high one is ringed."""
    drawn = []
    for pair in chart.pairs:
        age = chart.age(pair.on)
        read = Reading(
            age_months=age,
            value=pair.over_mm,
            half_width=pair.half_width_mm,
            mark=pair.mark,
        )
        drawn.append(marks.reading(plot, read))
        if pair.high:
            drawn.append(ring(plot.x(age), plot.y(pair.over_mm)))
    return "".join(drawn)


def ring(x: float, y: float) -> str:
    """Return the ring round a high reading, for the drawing and for its key."""
    return (
        f'<circle class="c-ink" cx="{x:.1f}" cy="{y:.1f}" r="{_RING}"'
        f' stroke="{INK}" stroke-width="1.8"/>'
    )


def croup_chart(chart: CroupChart, *, narrow: bool = False) -> str:
    """Return the drawing, for a wide screen or for a phone.

    Raises:
        ValueError: there is no pair to show.
    """
    if not chart.pairs:
        raise ValueError("a drawing of croup and withers needs one pair")
    frame = NARROW if narrow else WIDE
    plot = _plot(chart, frame)
    margin = line(f"M{_MARGIN_X} 0V{frame.size[1]}", "c-margin", MARGIN, 2)
    newest = chart.pairs[-1]
    today = "today" if narrow else f"today, {chart.today.day} {chart.today:%b}"
    body = (
        _pauses(chart, plot)
        + scale.ruled(plot)
        + (margin if narrow else "")
        + _levels(chart, plot)
        + scale.stick(plot, newest.over_mm)
        + scale.arm(plot, chart.age(newest.on), newest.over_mm)
        + _pairs(chart, plot)
        + scale.plumb(
            plot.x(chart.age(chart.today)), frame.top - 2, frame.string_y, today
        )
        + scale.age_string(plot, chart.born)
        + _said(chart, plot)
    )
    said = Said(
        uid=f"{chart.uid}-{'n' if narrow else 'w'}", title=chart.title, desc=chart.desc
    )
    return figure(frame.size, body, said, f"chart {'narrow' if narrow else 'wide'}")
