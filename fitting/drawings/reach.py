"""How a horse's size lies on what an item covers, hole by hole; rows of it.

One row is one horse, or one day: the strap above, the horse's band under it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from fitting.drawings.ink import (
    BAND,
    EDGE,
    FEINT,
    INK,
    LEATHER,
    MANILA,
    SOFT,
    Face,
    Said,
    figure,
    ink_line,
    leather_line,
    line,
    words,
)
from fitting.drawings.scale import Unit, multiples, one, shown

_ROW: Final = 70
_TOP: Final = 8
_FOOT: Final = 34
_SIDE: Final = 14
_STRAP: Final = 13  # how broad the strap is drawn
_NUMBERS_FROM: Final = 15  # px between two holes, for numbers to have room
_LETTER: Final = 8  # px: about one letter of a row's words
_STEPS: Final = (0.125, 0.25, 0.5, 1, 2, 4, 5, 10, 20, 50, 100)
_NAMED: Final = Face(css="strong", fill=INK, weight=600)
_ROOM: Final = 2.5  # how far beyond the bands a strap is drawn, in widths of them
_AT_LEAST: Final = 0.12  # of the size, so that a narrow band does not cut a strap off


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachRow:
    """One row: its words, the size by its band, and what is covered; mm of the body.

    ``hole``: the one named. The rest as of ``fitting.fit.covers.Cover``.
    """

    said: str
    band: tuple[float, float, float]
    good: tuple[tuple[float, float], ...]
    least: float
    most: float
    holes: tuple[float, ...] = ()
    hole: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """A drawing of several rows; ``uid`` is unique on its page."""

    uid: str
    title: str
    desc: str
    unit: Unit
    rows: tuple[ReachRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rule:
    """Sizes along the width of a drawing."""

    low: float
    high: float
    width: int

    def x(self, size: float) -> float:
        """Return where a size lies, or the nearer end."""
        inside = min(max(size, self.low), self.high)
        share = (inside - self.low) / (self.high - self.low)
        return _SIDE + share * (self.width - 2 * _SIDE)

    def shows(self, size: float) -> bool:
        """Whether a size lies on the rule."""
        return self.low <= size <= self.high


def reach(drawn: Reach, *, narrow: bool = False) -> str:
    """Return the drawing for a phone, or for a wide screen."""
    width = 390 if narrow else 720
    low, high = _between(drawn.rows)
    rule = _Rule(low=low, high=high, width=width)
    height = _TOP + _ROW * len(drawn.rows) + _FOOT
    body = _ticks(rule, drawn.unit, height, most=4 if narrow else 8)
    for at, row in enumerate(drawn.rows):
        body += _row(rule, row, _TOP + _ROW * at)
    kind = "narrow" if narrow else "wide"
    said = Said(uid=f"{drawn.uid}-{kind}", title=drawn.title, desc=drawn.desc)
    return figure((width, height), body, said, f"reach {kind}")


def _between(rows: Iterable[ReachRow]) -> tuple[float, float]:
    """Return the sizes that are drawn: the bands, and the straps as far as is near."""
    rows = tuple(rows)
    low, high = min(row.band[0] for row in rows), max(row.band[2] for row in rows)
    room = max((high - low) * _ROOM, _AT_LEAST * high)
    ends = [end for row in rows for end in (row.least, row.most)]
    low, high = (
        min(low, max(min(ends), low - room)),
        max(high, min(max(ends), high + room)),
    )
    more = (high - low) * 0.03
    return low - more, high + more


def _ticks(rule: _Rule, unit: Unit, height: int, *, most: int) -> str:
    """Return the ruling with its figures at the foot."""
    size = one(unit)
    span = (rule.high - rule.low) / size
    step = next((s for s in _STEPS if span / s <= most), _STEPS[-1]) * size
    foot = height - _FOOT + 6
    drawn = ink_line(f"M{_SIDE} {foot}H{rule.width - _SIDE}", 1.2)
    face = Face(anchor="middle", fill=SOFT)
    for value in multiples(step, (rule.low, rule.high)):
        x = rule.x(value)
        drawn += line(f"M{x:.1f} {_TOP}V{foot}", "c-feint", FEINT, 1)
        drawn += ink_line(f"M{x:.1f} {foot}v6", 1.2)
        drawn += words(x, foot + 20, shown(value, unit), face)
    return drawn


def _within(said: str, width: int) -> str:
    """Return a row's words, its name cut short where they would not fit in px."""
    most = (width - 2 * _SIDE) // _LETTER
    if len(said) <= most:
        return said
    name, colon, answer = said.rpartition(": ")
    return f"{name[: most - len(answer) - 3]}…{colon}{answer}"


def _row(rule: _Rule, row: ReachRow, top: int) -> str:
    low, middle, high = row.band
    strap = top + 34
    under = strap + _STRAP + 5
    x = rule.x(middle)
    return (
        words(_SIDE, top + 14, _within(row.said, rule.width), _NAMED)
        + leather_line(_sits(rule, row, strap + _STRAP / 2), 1.4)
        + "".join(_good(rule, span, strap) for span in row.good)
        + _holes(rule, row, strap)
        + f'<rect class="f-band c-edge" x="{rule.x(low):.1f}" y="{under}"'
        f' width="{max(rule.x(high) - rule.x(low), 2):.1f}" height="9" fill="{BAND}"'
        f' stroke="{EDGE}" stroke-width="1"/>'
        + ink_line(f"M{x:.1f} {strap - 4}V{under + 12}", 2.4)
    )


def _sits(rule: _Rule, row: ReachRow, y: float) -> str:
    """Return the line over all it sits on: a bar at its end, a point if it runs on."""
    left, right = rule.x(row.least), rule.x(row.most)
    drawn = f"M{left:.1f} {y}H{right:.1f}"
    for size, x, back in ((row.least, left, 5), (row.most, right, -5)):
        if rule.shows(size):
            drawn += f"M{x:.1f} {y - 5}v10"
        else:
            drawn += f"M{x + back:.1f} {y - 4}L{x:.1f} {y}L{x + back:.1f} {y + 4}"
    return drawn


def _good(rule: _Rule, span: tuple[float, float], top: float) -> str:
    left, right = rule.x(span[0]), rule.x(span[1])
    if right - left < 1:
        return ""
    return (
        f'<rect class="f-manila c-leather" x="{left:.1f}" y="{top}"'
        f' width="{right - left:.1f}" height="{_STRAP}" rx="2" fill="{MANILA}"'
        f' stroke="{LEATHER}" stroke-width="1.6"/>'
    )


def _holes(rule: _Rule, row: ReachRow, top: float) -> str:
    """Return its holes, numbered where they have room; the one named is ringed."""
    inside = [(n, at) for n, at in enumerate(row.holes, 1) if rule.shows(at)]
    xs = [rule.x(at) for _, at in inside]
    gaps = [abs(right - left) for left, right in pairwise(xs)]
    roomy = min(gaps, default=_NUMBERS_FROM) >= _NUMBERS_FROM
    drawn = ""
    for (number, _), x in zip(inside, xs, strict=True):
        y = top + _STRAP / 2
        drawn += (
            f'<circle class="f-leather" cx="{x:.1f}" cy="{y}" r="2.4"'
            f' fill="{LEATHER}"/>'
        )
        if number == row.hole:
            drawn += (
                f'<circle class="c-ink" cx="{x:.1f}" cy="{y}" r="5.5" stroke="{INK}"'
                ' stroke-width="2"/>'
            )
        if roomy or number == row.hole:
            named = number == row.hole
            face = Face(
                size=12,
                css="strong" if named else "",
                fill=INK if named else SOFT,
                anchor="middle",
                weight=700 if named else 400,
            )
            drawn += words(x, top - 6, str(number), face)
    return drawn
