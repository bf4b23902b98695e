"""What tack in use covers, as straps that hang at the right edge of a chart."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitting.drawings.ink import (
    EDGE,
    INK,
    LEATHER,
    MANILA,
    PAPER,
    Face,
    leather_line,
    line,
    words,
)
from fitting.drawings.scale import Frame, Plot

MOST_LANES: Final = 4  # more would leave a phone no chart: ours
_APART: Final = 20
_GAP: Final = 14
_BREADTH: Final = 9
_RING: Final = 8.5
_FEW: Final = 2  # more than that, and lines across would be a thicket
_DOTS: Final = "1 4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """The sizes one item is good for, and its number on the page; mm or kg.

    ``good``: the spans that are good, ascending; ``least`` to ``most``: where it sits
    at all; ``holes``: what each hole sits best on.
    """

    number: int
    good: tuple[tuple[float, float], ...]
    least: float
    most: float
    holes: tuple[float, ...] = ()


def beside(frame: Frame, lanes: tuple[Lane, ...]) -> Frame:
    """Return the frame with room for the lanes right of the plotted part."""
    if not lanes:
        return frame
    return replace(frame, right=frame.right - _GAP - _APART * (len(lanes) - 1) - 6)


def wanted(lanes: tuple[Lane, ...], low: float, high: float) -> tuple[float, ...]:
    """Return the sizes a chart from low to high shows of the lanes as well.

    The ends of what is good, but never so far off that the band is squeezed flat.
    """
    room = (high - low) / 3
    ends = (end for lane in lanes for end in (lane.good[0][0], lane.good[-1][1]))
    return tuple(min(max(end, low - room), high + room) for end in ends)


def lanes(plot: Plot, hung: tuple[Lane, ...], today: float) -> str:
    """Return the lanes, and from today on a line at each end of what is good."""
    drawn = ""
    if len(hung) <= _FEW:
        drawn += "".join(_across(plot, lane, today) for lane in hung)
    for at, lane in enumerate(hung):
        drawn += _lane(plot, lane, plot.frame.right + _GAP + _APART * at)
    return drawn


def _inside(plot: Plot, size: float) -> bool:
    low, high = plot.sizes
    return low <= size <= high


def _y(plot: Plot, size: float) -> float:
    """Return where a size lies, or the nearest edge of the plotted part."""
    low, high = plot.sizes
    return plot.y(min(max(size, low), high))


def _across(plot: Plot, lane: Lane, today: float) -> str:
    ends = {lane.good[0][0], lane.good[-1][1]}
    return "".join(
        line(
            f"M{plot.x(today):.1f} {plot.y(end):.1f}H{plot.frame.right + _GAP:.1f}",
            *("c-edge", EDGE, 1.4, _DOTS),
        )
        for end in sorted(ends)
        if _inside(plot, end)
    )


def _lane(plot: Plot, lane: Lane, x: float) -> str:
    frame = plot.frame
    face = Face(css="strong", size=12, fill=INK, anchor="middle", weight=700)
    ring_y = frame.top - 11
    return (
        _ends(plot, lane, x)
        + "".join(_strap(plot, span, x) for span in lane.good)
        + "".join(
            f'<circle class="f-leather" cx="{x:.1f}" cy="{plot.y(hole):.1f}" r="1.8"'
            f' fill="{LEATHER}"/>'
            for hole in lane.holes
            if _inside(plot, hole)
        )
        + f'<circle class="tag-n" cx="{x:.1f}" cy="{ring_y}" r="{_RING}"'
        f' fill="{PAPER}" stroke="{INK}" stroke-width="1.5"/>'
        + words(x, ring_y + 4.3, str(lane.number), face)
    )


def _strap(plot: Plot, span: tuple[float, float], x: float) -> str:
    """Return the strap of one good span; nothing where none of it is plotted."""
    foot, top = _y(plot, span[0]), _y(plot, span[1])
    if foot - top < 1:
        return ""
    return (
        f'<rect class="f-manila c-leather" x="{x - _BREADTH / 2:.1f}" y="{top:.1f}"'
        f' width="{_BREADTH}" height="{foot - top:.1f}" rx="2" fill="{MANILA}"'
        f' stroke="{LEATHER}" stroke-width="1.6"/>'
    )


def _ends(plot: Plot, lane: Lane, x: float) -> str:
    """Return the line of what only just sits: a bar at its end, or a point beyond."""
    foot, top = _y(plot, lane.least), _y(plot, lane.most)
    ends = "".join(_end(plot, size, x) for size in (lane.least, lane.most))
    return leather_line(f"M{x:.1f} {foot:.1f}V{top:.1f}{ends}", 1.4)


def _end(plot: Plot, size: float, x: float) -> str:
    """Return the end of a lane: a bar, or an arrow where it runs out of the chart."""
    y = _y(plot, size)
    if _inside(plot, size):
        return f"M{x - 4:.1f} {y:.1f}h8"
    back = 5 if size > plot.sizes[1] else -5
    return f"M{x - 4:.1f} {y + back:.1f}L{x:.1f} {y:.1f}L{x + 4:.1f} {y + back:.1f}"
