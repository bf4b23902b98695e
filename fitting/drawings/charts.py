"""The growth chart: one measure of one horse, by age."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil, floor
from typing import Final

from fitting.age import DAYS_A_MONTH, MONTHS_A_YEAR
from fitting.drawings import lanes, marks, scale
from fitting.drawings.ink import (
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
from fitting.drawings.lanes import Lane
from fitting.drawings.marks import BandPoint, Bound, Floor, Reading, at_age
from fitting.drawings.scale import NARROW, WIDE, Plot, Unit, shown, shown_range

__all__ = [
    "BandPoint",
    "Bound",
    "Figure",
    "Floor",
    "Grown",
    "GrowthChart",
    "Lane",
    "Parent",
    "Reading",
    "figures",
    "growth_chart",
]

# How much of a horse's life a chart shows: ours.
_SHOWN_UNTIL_MONTHS: Final = 48
_ROOM_AHEAD_MONTHS: Final = 6
_ROOM_AHEAD_SHARE: Final = 0.1
_FROM_BIRTH_UNDER_MONTHS: Final = 36
_ROOM_SHARE: Final = 0.07
_MARGIN_X: Final = 51
_CM_STEP_MM: Final = 100.0
_WORDS_APART: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Grown:
    """The size when grown: its middle, and where nine in ten lie; mm or kg."""

    p5: float
    p50: float
    p95: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """A parent's height, and the word for the parent; mm."""

    name: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthChart:
    """All that a growth chart shows; sizes in mm, or kg with a unit of weight.

    ``uid`` is unique on the page. ``desc`` holds the answer in a sentence. ``lanes``:
    what tack covers, at most ``lanes.MOST_LANES``. Without a ``band``: readings alone.
    ``until_months``: how far ahead is shown; None: far enough.
    """

    uid: str
    title: str
    desc: str
    unit: Unit
    born: date
    today: date
    band: tuple[BandPoint, ...]
    readings: tuple[Reading, ...] = ()
    bounds: tuple[Bound, ...] = ()
    grown: Grown | None = None
    parents: tuple[Parent, ...] = ()
    floors: tuple[Floor, ...] = ()
    lanes: tuple[Lane, ...] = ()
    until_months: float | None = None

    @property
    def age_today(self) -> float:
        """Today's age in months."""
        return (self.today - self.born).days / DAYS_A_MONTH


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One line of the same in figures; ``age`` may be a day where all are readings."""

    age: str
    middle: str
    between: str


def _ages(chart: GrowthChart) -> tuple[float, float]:
    """Return the first and the last age shown, in months."""
    known = [r.age_months for r in chart.readings] + [chart.age_today]
    first = 0.0
    if min(known) >= _FROM_BIRTH_UNDER_MONTHS:
        first = floor(min(known) / MONTHS_A_YEAR) * MONTHS_A_YEAR - MONTHS_A_YEAR
    room = max(_ROOM_AHEAD_MONTHS, _ROOM_AHEAD_SHARE * (chart.age_today - first))
    last = chart.until_months or max(_SHOWN_UNTIL_MONTHS, chart.age_today + room)
    return first, ceil(last / MONTHS_A_YEAR) * MONTHS_A_YEAR


def _sizes(chart: GrowthChart, ages: tuple[float, float]) -> tuple[float, float]:
    """Return the least and the greatest size shown, with some room."""
    inside = [p for p in chart.band if ages[0] <= p.age_months <= ages[1]]
    values = [v for p in inside for v in (p.p5, p.p95)]
    values += [
        r.value + side * r.half_width for r in chart.readings for side in (-1, 1)
    ]
    values += [b.value for b in chart.bounds] + [p.value for p in chart.parents]
    if chart.grown:
        values += [chart.grown.p5, chart.grown.p95]
    if not values:
        raise ValueError("a chart without a band and without readings shows nothing")
    values += lanes.wanted(chart.lanes, min(values), max(values))
    room = (max(values) - min(values)) * _ROOM_SHARE or scale.one(chart.unit)
    return min(values) - room, max(values) + room


def _bracket(plot: Plot, grown: Grown) -> str:
    """Return the bracket of the grown size, and its words."""
    narrow = plot.frame.narrow
    x = plot.frame.right - 2 if narrow else WIDE.right + 56
    top, foot = plot.y(grown.p95), plot.y(grown.p5)
    drawn = ink_line(f"M{x - 6} {top:.1f}H{x}V{foot:.1f}H{x - 6}", 1.4)
    between = shown_range(grown.p5, grown.p95, plot.unit)
    bold = Face(css="strong", fill=INK, weight=600)
    if narrow:
        face = replace(bold, anchor="end", halo=True)
        above = max(top - 8, plot.frame.top + 14)
        return drawn + words(x - 2, above, f"grown {between}", face)
    y = plot.y(grown.p50)
    return (
        drawn + words(x + 8, y - 4, "grown", bold) + words(x + 8, y + 13, between, bold)
    )


def _parents(plot: Plot, parents: tuple[Parent, ...]) -> str:
    """Return the parents' heights as short ticks, words kept apart."""
    face = Face(size=12, fill=LEATHER, anchor="end", halo=True)
    right = plot.frame.right
    drawn, above = [], -1e9
    for parent in sorted(parents, key=lambda p: -p.value):
        y = plot.y(parent.value)
        at = max(y - 6, above + _WORDS_APART)
        above = at
        tick = leather_line(f"M{right - 14} {y:.1f}H{right + 2}")
        said = f"{parent.name} {shown(parent.value, plot.unit)}"
        drawn.append(tick + words(right - 18, at, said, face))
    return "".join(drawn)


def _in_cm(plot: Plot) -> str:
    """Return the centimetres beside a stick that is ruled in hands."""
    if plot.unit != "hands" or plot.frame.narrow:
        return ""
    face = Face(size=12, fill=SOFT)
    values = tuple(scale.multiples(_CM_STEP_MM, plot.sizes))
    return "".join(
        words(
            plot.frame.right + 6,
            plot.y(v) + 4.5,
            f"{v / 10:.0f} cm" if v == values[-1] else f"{v / 10:.0f}",
            face,
        )
        for v in values
    )


def _ground(chart: GrowthChart, plot: Plot) -> str:
    """Return what lies under the readings."""
    now = at_age(chart.band, chart.age_today)
    margin = ""
    if plot.frame.narrow:
        height = plot.frame.size[1]
        margin = line(f"M{_MARGIN_X} 0V{height}", "c-margin", MARGIN, 2)
    return (
        scale.ruled(plot)
        + _in_cm(plot)
        + margin
        + marks.band(plot, chart.band, chart.age_today)
        + lanes.lanes(plot, chart.lanes, chart.age_today)
        + marks.floors(plot, chart.floors, chart.age_today)
        + scale.stick(plot, now.p50 if now else None)
    )


def _marked(chart: GrowthChart, plot: Plot) -> str:
    """Return today, the readings and what try-ons said."""
    now = at_age(chart.band, chart.age_today)
    arm = scale.arm(plot, chart.age_today, now.p50) if now else ""
    bounds = "".join(
        marks.bound(plot.x(b.age_months), plot.y(b.value), b.side)
        for b in chart.bounds
        if plot.shows(b.age_months)
    )
    readings = "".join(
        marks.reading(plot, r) for r in chart.readings if plot.shows(r.age_months)
    )
    return arm + bounds + readings


def growth_chart(chart: GrowthChart, *, narrow: bool = False) -> str:
    """Return the chart, drawn for a wide screen or for a phone.

    Raises:
        ValueError: there is nothing to show.
    """
    frame = lanes.beside(NARROW if narrow else WIDE, chart.lanes)
    ages = _ages(chart)
    plot = Plot(frame=frame, ages=ages, sizes=_sizes(chart, ages), unit=chart.unit)
    today = "today" if narrow else f"today, {chart.today.day} {chart.today:%b}"
    body = (
        _ground(chart, plot)
        + _marked(chart, plot)
        + scale.plumb(plot.x(chart.age_today), frame.top - 2, frame.string_y, today)
        + scale.age_string(plot, chart.born)
        + (_bracket(plot, chart.grown) if chart.grown else "")
        + ("" if narrow else _parents(plot, chart.parents))
    )
    said = Said(
        uid=f"{chart.uid}-{'n' if narrow else 'w'}", title=chart.title, desc=chart.desc
    )
    return figure(frame.size, body, said, f"chart {'narrow' if narrow else 'wide'}")


def figures(chart: GrowthChart) -> tuple[Figure, ...]:
    """Return the same in figures: today, each birthday ahead, and grown.

    Without a band: each reading that counts, and where its error leaves it.
    """
    if not chart.band:
        return _of_readings(chart)
    birthdays = scale.multiples(MONTHS_A_YEAR, (chart.age_today, _ages(chart)[1]))
    asked = [("today", chart.age_today)]
    asked += [(f"{age / MONTHS_A_YEAR:.0f} years", age) for age in birthdays]
    rows = [
        Figure(
            age=said,
            middle=shown(point.p50, chart.unit),
            between=shown_range(point.p5, point.p95, chart.unit),
        )
        for said, age in asked
        if (point := at_age(chart.band, age))
    ]
    if grown := chart.grown:
        between = shown_range(grown.p5, grown.p95, chart.unit)
        rows.append(
            Figure(age="grown", middle=shown(grown.p50, chart.unit), between=between)
        )
    return tuple(rows)


def _of_readings(chart: GrowthChart) -> tuple[Figure, ...]:
    return tuple(
        Figure(
            age=_day_of(chart, read),
            middle=shown(read.value, chart.unit),
            between=shown_range(
                read.value - read.half_width, read.value + read.half_width, chart.unit
            ),
        )
        for read in sorted(chart.readings, key=lambda read: read.age_months)
        if read.mark != "struck"
    )


def _day_of(chart: GrowthChart, read: Reading) -> str:
    day = chart.born + timedelta(days=round(read.age_months * DAYS_A_MONTH))
    return f"{day.day} {day:%b %Y}"
