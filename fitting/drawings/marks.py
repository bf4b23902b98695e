"""What is marked on a chart: the band, readings, what a try-on said."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from fitting.drawings.ink import (
    BAND,
    EDGE,
    INK,
    LEATHER,
    PAPER,
    SOFT,
    Face,
    ink_line,
    leather_line,
    line,
    words,
)
from fitting.drawings.scale import Plot

Mark = Literal["stick", "string", "other", "struck"]
Side = Literal["least", "most", "about"]

_DASHES: Final = "7 5"
_DOTS: Final = "1 4"
_LETTER_WIDTH: Final = 6.5


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPoint:
    """The size at one age: its middle, and where nine in ten lie; mm or kg."""

    age_months: float
    p5: float
    p50: float
    p95: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One day's reading and half the width of its nine-in-ten error; mm or kg.

    Marks: a square for a stick, a disc for tape or string, a ring for another method
    that is kept out of the fit, a barred ring for what is struck out.
    """

    age_months: float
    value: float
    half_width: float = 0.0
    mark: Mark = "stick"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """What a try-on said of a size: at least, at most, about; mm."""

    age_months: float
    value: float
    side: Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """An age before which a step is never begun, and its words."""

    age_months: float
    said: str
    said_shortly: str = ""


def at_age(band: tuple[BandPoint, ...], age: float) -> BandPoint | None:
    """Return the band at an age, between its points; None outside them."""
    for before, after in pairwise(band):
        if before.age_months <= age <= after.age_months:
            whole = after.age_months - before.age_months
            share = (age - before.age_months) / whole if whole else 0.0
            return BandPoint(
                age_months=age,
                p5=before.p5 + share * (after.p5 - before.p5),
                p50=before.p50 + share * (after.p50 - before.p50),
                p95=before.p95 + share * (after.p95 - before.p95),
            )
    return None


def _line_of(plot: Plot, points: tuple[tuple[float, float], ...]) -> str:
    return "L".join(f"{plot.x(age):.1f} {plot.y(size):.1f}" for age, size in points)


def _stretch(plot: Plot, points: tuple[BandPoint, ...], *, ahead: bool) -> str:
    """Return one stretch of the band; what lies ahead is paler and broken."""
    upper = tuple((p.age_months, p.p95) for p in points)
    lower = tuple((p.age_months, p.p5) for p in points)
    middle = tuple((p.age_months, p.p50) for p in points)
    paler = ' fill-opacity=".62"' if ahead else ""
    fill = (
        f'<path class="f-band" d="M{_line_of(plot, upper + lower[::-1])}Z"'
        f' fill="{BAND}"{paler}/>'
    )
    edges = "".join(
        leather_line(f"M{_line_of(plot, edge)}", 1.2, _DOTS) for edge in (lower, upper)
    )
    median = leather_line(f"M{_line_of(plot, middle)}", 1.6, _DASHES if ahead else "")
    return fill + (edges if ahead else "") + median


def band(plot: Plot, points: tuple[BandPoint, ...], today: float) -> str:
    """Return the band of sizes by age: known up to today, expected after."""
    inside = tuple(p for p in points if plot.shows(p.age_months))
    now = at_age(inside, today)
    here = (now,) if now else ()
    past = (*(p for p in inside if p.age_months < today), *here)
    ahead = (*here, *(p for p in inside if p.age_months > today))
    return "".join(
        _stretch(plot, stretch, ahead=is_ahead)
        for stretch, is_ahead in ((past, False), (ahead, True))
        if len(stretch) > 1
    )


def reading(plot: Plot, read: Reading) -> str:
    """Return a reading with the whisker of its error; the mark says the method."""
    x, y = plot.x(read.age_months), plot.y(read.value)
    top = plot.y(read.value + read.half_width)
    foot = plot.y(read.value - read.half_width)
    caps = f"M{x - 3.5:.1f} {top:.1f}h7M{x - 3.5:.1f} {foot:.1f}h7"
    whisker = (
        ink_line(f"M{x:.1f} {top:.1f}V{foot:.1f}{caps}") if read.half_width else ""
    )
    return whisker + reading_mark(x, y, read.mark)


def reading_mark(x: float, y: float, mark: Mark) -> str:
    """Return the bare mark of a method, for the chart and for its key."""
    if mark == "stick":
        return (
            f'<rect class="f-ink" x="{x - 3.6:.1f}" y="{y - 3.6:.1f}" width="7.2"'
            f' height="7.2" fill="{INK}"/>'
        )
    if mark == "string":
        return f'<circle class="f-ink" cx="{x:.1f}" cy="{y:.1f}" r="3.9" fill="{INK}"/>'
    ring = (
        f'<circle class="c-ink f-paper" cx="{x:.1f}" cy="{y:.1f}" r="3.8"'
        f' fill="{PAPER}" stroke="{INK}" stroke-width="1.6"/>'
    )
    bar = ink_line(f"M{x - 6:.1f} {y + 3:.1f}L{x + 6:.1f} {y - 3:.1f}", 1.4)
    return ring + (bar if mark == "struck" else "")


def bound(x: float, y: float, side: Side) -> str:
    """Return what a try-on said: a hollow mark that points up, down or both ways."""
    shapes = {
        "least": f"M{x - 7:.1f} {y:.1f}L{x:.1f} {y - 10:.1f}L{x + 7:.1f} {y:.1f}Z",
        "most": f"M{x - 7:.1f} {y:.1f}L{x:.1f} {y + 10:.1f}L{x + 7:.1f} {y:.1f}Z",
        "about": (
            f"M{x - 7:.1f} {y:.1f}L{x:.1f} {y - 8:.1f}"
            f"L{x + 7:.1f} {y:.1f}L{x:.1f} {y + 8:.1f}Z"
        ),
    }
    return (
        f'<path class="c-leather f-paper" d="{shapes[side]}" fill="{PAPER}"'
        f' stroke="{LEATHER}" stroke-width="2"/>'
    )


def floors(plot: Plot, stand: tuple[Floor, ...], today: float) -> str:
    """Return the ages before which a step never begins, as posts on the string."""
    frame = plot.frame
    drawn = []
    inside = [f for f in stand if plot.shows(f.age_months)]
    for row, at in enumerate(sorted(inside, key=lambda f: -f.age_months)):
        x, top = plot.x(at.age_months), frame.bottom - 24 - 22 * row
        said = (at.said_shortly or at.said) if frame.narrow else at.said
        runs_to = x + 5 + _LETTER_WIDTH * len(said)
        leftwards = at.age_months <= today or runs_to > frame.size[0]
        face = Face(
            size=12, fill=SOFT, anchor="end" if leftwards else "start", halo=True
        )
        drawn.append(
            line(f"M{x:.1f} {top}V{frame.bottom + 12}", "c-edge", EDGE, 1.2, "3 3")
            + words(x - 5 if leftwards else x + 5, top + 10, said, face)
        )
    return "".join(drawn)
