"""The chart of several horses: one measure of each, by age, each in its own line.

No line is told by its colour alone: each has its own dashes, its own mark for a
reading, and its letter at the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from fitting.age import MONTHS_A_YEAR
from fitting.drawings import scale
from fitting.drawings.ends import LETTERS, End, labels, short
from fitting.drawings.ink import (
    BAND,
    INK,
    LEATHER,
    MARGIN,
    PAPER,
    Face,
    Said,
    figure,
    leather_line,
    line,
    words,
)
from fitting.drawings.marks import BandPoint, at_age
from fitting.drawings.scale import NARROW, WIDE, Plot, Unit

_NARROW: Final = replace(NARROW, right=346)
_MARGIN_X: Final = 51
_ROOM_SHARE: Final = 0.07
_LEAST_YEARS: Final = 3
_AHEAD_MONTHS: Final = 6
_BAR_FROM: Final = 7  # of the grown sizes, right of the plot
_BARS_APART: Final = 6
_CAP: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How one horse is drawn; ``mark`` is the path of a reading about 0, 0."""

    css: str
    colour: str
    dash: str
    mark: str


_INK: Final = ("ink", INK)
_LEATHER: Final = ("leather", LEATHER)
_STYLES: Final = tuple(
    Style(css=css, colour=colour, dash=dash, mark=mark)
    for (css, colour), dash, mark in (
        (_INK, "", "M-3.4-3.4h6.8v6.8h-6.8z"),
        (_LEATHER, "9 5", "M0-3.8a3.8 3.8 0 1 0 .01 0z"),
        (_INK, "1.5 5", "M0-4.6L4.4 3.4H-4.4Z"),
        (_LEATHER, "14 4 2 4", "M0-5L5 0L0 5L-5 0Z"),
    )
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Youngster:
    """One youngster: its band by age, its readings (age, size), its age today.

    Ages in months, sizes in mm or kg.
    """

    name: str
    band: tuple[BandPoint, ...]
    readings: tuple[tuple[float, float], ...]
    today: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GrownHorse:
    """One grown horse: its size and where nine in ten lie; mm or kg."""

    name: str
    p5: float
    p50: float
    p95: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideChart:
    """Up to four horses by age; ``uid`` is unique on the page, ``age`` in months."""

    uid: str
    title: str
    desc: str
    unit: Unit
    horses: tuple[Youngster | GrownHorse, ...]
    age: float | None = None


def beside_chart(chart: BesideChart, *, narrow: bool = False) -> str:
    """Return the chart, drawn for a wide screen or for a phone.

    Raises:
        ValueError: there is nothing to show.
    """
    frame = _NARROW if narrow else WIDE
    plot = Plot(frame=frame, ages=_ages(chart), sizes=_sizes(chart), unit=chart.unit)
    drawn = [_horse(plot, horse, at) for at, horse in enumerate(chart.horses)]
    ends = [_end(plot, horse, at) for at, horse in enumerate(chart.horses)]
    margin = line(f"M{_MARGIN_X} 0V{frame.size[1]}", "c-margin", MARGIN, 2)
    body = (
        scale.ruled(plot)
        + (margin if narrow else "")
        + "".join(
            _band(plot, horse, at)
            for at, horse in enumerate(chart.horses)
            if isinstance(horse, Youngster)
        )
        + scale.stick(plot)
        + _age_string(plot)
        + _asked(plot, chart.age)
        + "".join(drawn)
        + labels(frame, [end for end in ends if end])
    )
    css = "narrow" if narrow else "wide"
    said = Said(uid=f"{chart.uid}-{css[0]}", title=chart.title, desc=chart.desc)
    return figure(frame.size, body, said, f"chart {css}")


def key_mark(at: int) -> str:
    """Return the line and the mark of one horse, for a key 44 by 16."""
    style = _STYLES[at]
    return _stroke("M2 8H42", style) + _mark(22, 8, style)


def _ages(chart: BesideChart) -> tuple[float, float]:
    """Return the first and the last age shown, months: whole years from birth."""
    known = [h.today for h in chart.horses if isinstance(h, Youngster) and h.band]
    known += [chart.age] if chart.age is not None else []
    years = ceil((max(known, default=0.0) + _AHEAD_MONTHS) / MONTHS_A_YEAR)
    return 0.0, max(_LEAST_YEARS, years) * float(MONTHS_A_YEAR)


def _sizes(chart: BesideChart) -> tuple[float, float]:
    """Return the least and the greatest size shown, with some room."""
    last = _ages(chart)[1]
    values: list[float] = []
    for horse in chart.horses:
        if isinstance(horse, GrownHorse):
            values += [horse.p5, horse.p95]
            continue
        inside = [p for p in horse.band if p.age_months <= last]
        values += [v for p in inside for v in (p.p5, p.p95)]
        values += [size for _, size in horse.readings]
    if not values:
        raise ValueError("a chart of horses without a size shows nothing")
    room = (max(values) - min(values)) * _ROOM_SHARE or scale.one(chart.unit)
    return min(values) - room, max(values) + room


def _path(plot: Plot, points: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{plot.x(a):.1f} {plot.y(s):.1f}" for a, s in points)


def _stroke(d: str, style: Style, width: float = 2, more: str = "") -> str:
    """Return a line in the horse's own dashes."""
    dashed = f' stroke-dasharray="{style.dash}"' if style.dash else ""
    return (
        f'<path class="c-{style.css}" d="{d}" stroke="{style.colour}"'
        f' stroke-width="{width}"{dashed}{more}/>'
    )


def _mark(x: float, y: float, style: Style) -> str:
    return (
        f'<path class="f-{style.css} halo" d="{style.mark}" fill="{style.colour}"'
        f' transform="translate({x:.1f} {y:.1f})" stroke="{PAPER}" stroke-width="1"/>'
    )


def _shown(plot: Plot, horse: Youngster) -> tuple[BandPoint, ...]:
    return tuple(p for p in horse.band if plot.shows(p.age_months))


def _band(plot: Plot, horse: Youngster, at: int) -> str:
    """Return where nine in ten of a youngster's sizes lie, pale enough to overlap."""
    points = _shown(plot, horse)
    if not points:
        return ""
    upper = [(p.age_months, p.p95) for p in points]
    lower = [(p.age_months, p.p5) for p in points]
    edge = replace(_STYLES[at], dash="1 4")
    return (
        f'<path class="f-band" d="{_path(plot, upper + lower[::-1])}Z" fill="{BAND}"'
        f' fill-opacity=".55"/>{_stroke(_path(plot, upper), edge, 1)}'
        f"{_stroke(_path(plot, lower), edge, 1)}"
    )


def _horse(plot: Plot, horse: Youngster | GrownHorse, at: int) -> str:
    """Return one horse: its line and readings, or its bar of a grown size."""
    style = _STYLES[at]
    if isinstance(horse, GrownHorse):
        return _bar(plot, horse, at)
    points = [(p.age_months, p.p50) for p in _shown(plot, horse)]
    now = at_age(horse.band, horse.today)
    here = [(horse.today, now.p50)] if now else []
    past = [*(p for p in points if p[0] < horse.today), *here]
    ahead = [*here, *(p for p in points if p[0] > horse.today)]
    drawn = _stroke(_path(plot, past), style) if len(past) > 1 else ""
    if len(ahead) > 1:
        drawn += _stroke(_path(plot, ahead), style, 1.4)
    drawn += "".join(
        _mark(plot.x(age), plot.y(size), style)
        for age, size in horse.readings
        if plot.shows(age)
    )
    return drawn + "".join(_today(plot, age, size, style) for age, size in here)


def _today(plot: Plot, age: float, size: float, style: Style) -> str:
    return (
        f'<circle class="c-{style.css} f-paper" cx="{plot.x(age):.1f}"'
        f' cy="{plot.y(size):.1f}" r="5.5" fill="{PAPER}" stroke="{style.colour}"'
        ' stroke-width="2"/>'
    )


def _bar(plot: Plot, horse: GrownHorse, at: int) -> str:
    """Return a grown horse: a bar right of the plot, a mark at its size."""
    style = _STYLES[at]
    x = plot.frame.right + _BAR_FROM + _BARS_APART * (at % 2)
    top, foot = plot.y(horse.p95), plot.y(horse.p5)
    bar = f"M{x - _CAP} {top:.1f}h{2 * _CAP}M{x} {top:.1f}V{foot:.1f}"
    caps = f"M{x - _CAP} {foot:.1f}h{2 * _CAP}"
    solid = replace(style, dash="")
    return _stroke(bar + caps, solid, 1.4) + _mark(x, plot.y(horse.p50), style)


def _asked(plot: Plot, age: float | None) -> str:
    """Return the plumb line at the age asked."""
    if age is None:
        return ""
    frame = plot.frame
    said = f"{age:.1f}".removesuffix(".0") + " months"
    return scale.plumb(plot.x(age), frame.top - 2, frame.string_y, said)


def _age_string(plot: Plot) -> str:
    """Return the age along the foot: a tick each quarter, a knot each birthday."""
    y = plot.frame.string_y
    drawn = [
        leather_line(f"M{plot.x(plot.ages[0]):.1f} {y}H{plot.x(plot.ages[1]):.1f}")
    ]
    face = Face(css="strong", fill=INK, weight=600, anchor="middle")
    for age in scale.multiples(scale.QUARTER_MONTHS, plot.ages):
        years, months = divmod(round(age), MONTHS_A_YEAR)
        if months:
            drawn.append(leather_line(f"M{plot.x(age):.1f} {y - 4}v8", 1.4))
            continue
        word = f" year{'' if years == 1 else 's'}"
        if plot.frame.narrow and age < plot.ages[1]:
            word = ""
        said = f"{years}{word}" if years else "born"
        drawn.append(
            scale.knot(plot.x(age), y) + words(plot.x(age), y + 21, said, face)
        )
    return "".join(drawn)


def _end(plot: Plot, horse: Youngster | GrownHorse, at: int) -> End | None:
    """Return where a horse's line or bar ends; None: nothing of it is drawn."""
    name, right = short(horse.name), plot.frame.right
    if isinstance(horse, GrownHorse):
        y, name, x = plot.y(horse.p50), short(horse.name, ", grown"), right + 18
    elif points := _shown(plot, horse):
        y, x = plot.y(points[-1].p50), right + 2
    else:
        return None
    return End(letter=LETTERS[at], name=name, x=x, y=y)
