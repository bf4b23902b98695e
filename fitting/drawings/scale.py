"""The instruments of a chart: the stick in the margin, the age string, the plumb line.

Sizes are in millimetres, or in kilograms where the unit is one of weight; ages are in
months.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from math import ceil, floor
from typing import Final, Literal

from fitting import units
from fitting.age import MONTHS_A_YEAR
from fitting.drawings.ink import (
    FEINT,
    INK,
    LEATHER,
    MANILA,
    PAPER,
    SOFT,
    Face,
    ink_line,
    leather_line,
    line,
    words,
)
from fitting.units.sizes import INCHES_A_HAND, factor

Unit = Literal["hands", "cm", "in", "mm", "kg", "lb", "score"]

QUARTER_MONTHS: Final = 3
_MOST_LONG_TICKS: Final = 7
_HANDS_TO_COUNT: Final = 1.5  # a shorter piece of the stick is numbered by the inch
_ARM_REACH: Final = 16
_SHORT_FIGURE: Final = 4
# Steps that a ruler of each unit may have, long ticks each one, short ticks each half.
_INCH_STEPS: Final = (0.25, 0.5, 1, 2, 4, 10, 20)
_TEN_STEPS: Final = (0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200)
_BOLD: Final = Face(css="strong", fill=INK, weight=600)


def one(unit: Unit) -> float:
    """Return how many millimetres, kilograms or points of score one of the unit is."""
    if unit == "score":
        return 1.0
    if unit == "hands":
        return float(factor("in", "mm") * INCHES_A_HAND)
    return float(factor(unit, "kg" if unit in {"kg", "lb"} else "mm"))


def shown(value: float, unit: Unit) -> str:
    """Return a value in the unit, without its name."""
    match unit:
        case "hands":
            return units.show_height(value, unit)
        case "kg" | "lb":
            text = units.show_weight(value, unit)
        case "score":
            text = f"{value:.1f}"
        case _:
            text = units.show_length(value, unit)
    return text.removesuffix(unit).strip().removesuffix(".0")


def shown_range(low: float, high: float, unit: Unit) -> str:
    """Return two values as a range, with the unit's name where it has one."""
    match unit:
        case "kg" | "lb":
            return units.show_weight_range(low, high, unit)
        case "score":
            return f"{low:.1f} to {high:.1f}"
        case _:
            return units.show_range(low, high, unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The field of a chart in drawing units: whole, plotted part, and stick."""

    size: tuple[int, int]
    left: float
    right: float
    top: float
    bottom: float
    stick: tuple[float, float]
    narrow: bool

    @property
    def string_y(self) -> float:
        """The height of the age string."""
        return self.bottom + 22


NARROW: Final = Frame(
    size=(390, 372), left=60, right=382, top=40, bottom=292, stick=(6, 46), narrow=True
)
WIDE: Final = Frame(
    size=(860, 440),
    left=74,
    right=656,
    top=44,
    bottom=356,
    stick=(14, 54),
    narrow=False,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A frame with ages along and sizes up."""

    frame: Frame
    ages: tuple[float, float]
    sizes: tuple[float, float]
    unit: Unit

    def x(self, age: float) -> float:
        """Return where an age lies."""
        first, last = self.ages
        share = (age - first) / (last - first)
        return self.frame.left + share * (self.frame.right - self.frame.left)

    def y(self, size: float) -> float:
        """Return where a size lies."""
        low, high = self.sizes
        share = (size - low) / (high - low)
        return self.frame.bottom - share * (self.frame.bottom - self.frame.top)

    def shows(self, age: float) -> bool:
        """Whether an age lies in the plotted part."""
        return self.ages[0] <= age <= self.ages[1]

    def ruling(self) -> tuple[float, float]:
        """Return the steps of the long and of the short ticks, mm or kg."""
        size = one(self.unit)
        span = (self.sizes[1] - self.sizes[0]) / size
        if self.unit == "hands":
            inch = size / INCHES_A_HAND
            return (size, inch) if span >= _HANDS_TO_COUNT else (inch, inch / 2)
        steps = _INCH_STEPS if self.unit == "in" else _TEN_STEPS
        step = next((s for s in steps if span / s <= _MOST_LONG_TICKS), steps[-1])
        return step * size, step * size / 2


def multiples(step: float, between: tuple[float, float]) -> Iterator[float]:
    """Yield the multiples of a step between two ends."""
    for count in range(ceil(between[0] / step), floor(between[1] / step) + 1):
        yield count * step


def ruled(plot: Plot) -> str:
    """Return the feint lines across, one a long tick."""
    frame = plot.frame
    start = frame.left - 8
    return "".join(
        line(f"M{start} {plot.y(v):.1f}H{frame.right}", "c-feint", FEINT, 1)
        for v in multiples(plot.ruling()[0], plot.sizes)
    )


def stick(plot: Plot, under_arm: float | None = None) -> str:
    """Return the measuring stick standing in the margin, ruled in the unit.

    Args:
        plot: where it stands.
        under_arm: the size where the sliding arm covers the figures.
    """
    left, right = plot.frame.stick
    top, foot = plot.frame.top - 6, plot.frame.bottom + 12
    long, short = plot.ruling()
    number = Face(size=12, css="strong", fill=INK, anchor="end", weight=700)
    wood = (
        f'<rect class="f-manila c-ink" x="{left}" y="{top}" width="{right - left}"'
        f' height="{foot - top}" fill="{MANILA}" stroke="{INK}" stroke-width="1.5"/>'
    )
    drawn = [wood]
    drawn += [
        ink_line(f"M{right} {plot.y(v):.1f}h-6", 1)
        for v in multiples(short, plot.sizes)
    ]
    arm_y = plot.y(under_arm) if under_arm is not None else -_ARM_REACH
    for v in multiples(long, plot.sizes):
        if abs(plot.y(v) - arm_y) < _ARM_REACH:
            continue
        label = shown(v, plot.unit)
        if long == one("hands"):
            label = label.removesuffix(".0")
        drawn.append(ink_line(f"M{right} {plot.y(v):.1f}h-{_long_tick(label)}", 1.6))
        drawn.append(
            words(right - 3 - _long_tick(label), plot.y(v) + 4.6, label, number)
        )
    return "".join(drawn)


def _long_tick(label: str) -> int:
    """Return the length of a long tick; long figures leave less room for it."""
    roomy = 2
    return 13 if len(label) <= roomy else 5


def arm(plot: Plot, age: float, size: float) -> str:
    """Return the sliding arm of the stick, set at a size."""
    left, right = plot.frame.stick
    y = plot.y(size)
    said = shown(size, plot.unit)
    face = Face(
        css="on-ink",
        size=12 if len(said) > _SHORT_FIGURE else 13,
        fill=PAPER,
        anchor="middle",
        weight=700,
    )
    return (
        f"{ink_line(f'M{right} {y:.1f}H{plot.x(age):.1f}', 1.6)}"
        f'<rect class="f-ink" x="{left - 4}" y="{y - 10:.1f}"'
        f' width="{right - left + 8}" height="20" rx="2" fill="{INK}"/>'
        f"{words((left + right) / 2, y + 4.8, said, face)}"
    )


def plumb(x: float, top: float, foot: float, label: str) -> str:
    """Return the line of today: a plumb line hung from a tag, its bob at the foot."""
    width = 14 + 8 * len(label)
    face = Face(css="on-ink", fill=PAPER, anchor="middle", weight=600)
    return (
        f"{ink_line(f'M{x:.1f} {top:.1f}V{foot - 9:.1f}', 1.3)}"
        f'<path class="f-ink" d="M{x:.1f} {foot + 5:.1f}L{x - 4.5:.1f} {foot - 6:.1f}'
        f'Q{x:.1f} {foot - 13:.1f} {x + 4.5:.1f} {foot - 6:.1f}Z" fill="{INK}"/>'
        f'<rect class="f-ink" x="{x - width / 2:.1f}" y="{top - 18:.1f}"'
        f' width="{width}" height="19" rx="2" fill="{INK}"/>'
        f"{words(x, top - 4.2, label, face)}"
    )


def knot(x: float, y: float, reach: float = 5) -> str:
    """Return a large knot on a string."""
    bend = reach + 1
    return (
        f'<path class="f-leather" d="M{x - reach:.1f} {y}C{x - reach:.1f} {y - bend}'
        f" {x + reach:.1f} {y - bend} {x + reach:.1f} {y}C{x + reach:.1f} {y + bend}"
        f' {x - reach:.1f} {y + bend} {x - reach:.1f} {y}Z" fill="{LEATHER}"/>'
    )


def age_string(plot: Plot, born: date) -> str:
    """Return the age along the foot: a tick each quarter, a knot each birthday."""
    frame, y = plot.frame, plot.frame.string_y
    first, last = plot.ages
    drawn = [leather_line(f"M{plot.x(first):.1f} {y}H{plot.x(last):.1f}")]
    apart = (plot.x(last) - plot.x(first)) / (last - first) * MONTHS_A_YEAR
    every = ceil((78 if frame.narrow else 110) / apart)
    for age in multiples(QUARTER_MONTHS, plot.ages):
        years, months = divmod(round(age), MONTHS_A_YEAR)
        if months:
            drawn.append(leather_line(f"M{plot.x(age):.1f} {y - 4}v8", 1.4))
            continue
        drawn.append(knot(plot.x(age), y))
        if (years - round(first) // MONTHS_A_YEAR) % every == 0:
            drawn.append(_birthday(plot, born, years))
    return "".join(drawn)


def _birthday(plot: Plot, born: date, years: int) -> str:
    """Return the words under a birthday's knot: the age, and the month."""
    age = years * MONTHS_A_YEAR
    x, y = plot.x(age), plot.frame.string_y
    anchor: Literal["start", "middle", "end"] = "middle"
    if age - plot.ages[0] < 1:
        anchor = "start"
    elif plot.ages[1] - age < 1:
        anchor = "end"
    month = date(born.year + years, born.month, 1)
    if plot.frame.narrow:
        said, when = (str(years), f"{month:%b %y}")
    else:
        said = f"{years} year" if years == 1 else f"{years} years"
        when = f"{month:%b %Y}"
    bold = Face(css=_BOLD.css, fill=INK, weight=600, anchor=anchor)
    return words(x, y + 21, said if years else "born", bold) + words(
        x, y + 37, when, Face(size=12, fill=SOFT, anchor=anchor)
    )
