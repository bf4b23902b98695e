"""The body's part of an outlook: what was measured, and what it is now."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final, Literal

from fitting.body import MEASURES, Dimension, Measure, middle, stands_until
from fitting.growth import Growth, Spread, Subject, fit_growth, quantiles
from fitting.looks import Band, Curve, CurvePoint, Last, MeasureLook
from starting.gates import MeasureStands
from starting.outlook.facts import HorseFacts, MeasuredText

SHOWN_CURVES: Final = (
    "withers_height", "head_length", "mouth_width", "heart_girth", "weight",
)  # fmt: skip
BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle
CURVE_AHEAD_DAYS: Final = 730
CURVE_STEP_DAYS: Final = 30
UNITS: Final[dict[Dimension, Literal["mm", "kg", "score"]]] = {
    "height": "mm", "length": "mm", "weight": "kg", "score": "score",
}  # fmt: skip


def growth_of(horse: HorseFacts) -> Growth:
    """Return the horse's growth, fitted to everything that was measured."""
    subject = Subject(
        horse_type=horse.horse_type,
        foaled=horse.foaled,
        grown=horse.grown,
        dam_height_mm=horse.dam_height_mm,
        sire_height_mm=horse.sire_height_mm,
    )
    return fit_growth(subject, [m.taken for m in horse.measured])


def newest(horse: HorseFacts, measure: str, on: date) -> MeasuredText | None:
    """Return the newest measurement of a measure up to a day.

    A stick outranks a tape of the same day: the two never mix.
    """
    of_it = [m for m in horse.measured if m.taken.measure == measure]
    past = [m for m in of_it if m.taken.on <= on]
    return max(
        past, key=lambda m: (m.taken.on, m.taken.method == "stick"), default=None
    )


def standings(horse: HorseFacts, on: date) -> tuple[MeasureStands, ...]:
    """Return how every measure stands on a day."""
    change = tooth_change(horse, on)
    return tuple(_stands(horse, measure, on, change) for measure in MEASURES)


def tooth_change(horse: HorseFacts, on: date) -> date | None:
    """Return the last day on which a tooth change was noted, up to a day."""
    days = [c.on for c in horse.care if c.kind == "tooth_change" and c.on <= on]
    return max(days, default=None)


def _stands(
    horse: HorseFacts, measure: Measure, on: date, change: date | None
) -> MeasureStands:
    last = newest(horse, measure.key, on)
    if last is None:
        return MeasureStands(measure=measure.key, name=measure.name, standing="never")
    until = stands_until(
        last.taken,
        horse.foaled.last,
        ridden=horse.rider_named,
        tooth_change=change if change and change >= last.taken.on else None,
    )
    return MeasureStands(
        measure=measure.key,
        name=measure.name,
        standing="stands" if on <= until else "stale",
        last_on=last.taken.on,
        until=until,
    )


def measure_looks(
    horse: HorseFacts, growth: Growth, stands: Sequence[MeasureStands], on: date
) -> tuple[MeasureLook, ...]:
    """Return every measure: last, now, grown, standing."""
    now = [growth.at(measure.key, on) for measure in MEASURES]
    grown = [growth.grown_size(m.key) if m.grows else None for m in MEASURES]
    found = bands([*now, *grown])
    return tuple(
        _look(horse, measure, stand, found[at], found[at + len(MEASURES)])
        for at, (measure, stand) in enumerate(zip(MEASURES, stands, strict=True))
    )


def _look(
    horse: HorseFacts,
    measure: Measure,
    stand: MeasureStands,
    now: Band | None,
    grown: Band | None,
) -> MeasureLook:
    last = newest(horse, measure.key, stand.last_on or date.max)
    return MeasureLook(
        measure=measure.key,
        name=measure.name,
        dimension=measure.dimension,
        unit=UNITS[measure.dimension],
        last=_last(last) if last and stand.last_on else None,
        now=now,
        grown=grown,
        standing=stand.standing,
        measure_by=None,
    )


def _last(measured: MeasuredText) -> Last:
    return Last(
        on=measured.taken.on,
        value=middle(measured.taken.readings),
        text=measured.text,
        method=measured.taken.method,
    )


def bands(spreads: Sequence[Spread | None]) -> list[Band | None]:
    """Return the band of each spread, nine times in ten; None where there is none."""
    found = iter(quantiles([s for s in spreads if s is not None], BAND_SHARES))
    return [_band(next(found)) if spread else None for spread in spreads]


def _band(sizes: tuple[float, ...]) -> Band:
    p5, p50, p95 = (round(size, 1) for size in sizes)
    return Band(p5=p5, p50=p50, p95=p95)


def curves(horse: HorseFacts, growth: Growth, on: date) -> tuple[Curve, ...]:
    """Return the bands to draw: from a month before the first reading, or birth."""
    if horse.grown:
        return ()
    return tuple(_curve(horse, growth, key, on) for key in SHOWN_CURVES)


def _curve(horse: HorseFacts, growth: Growth, measure: str, on: date) -> Curve:
    taken = [m.taken.on for m in horse.measured if m.taken.measure == measure]
    first = max(horse.foaled.last, min(taken, default=on) - timedelta(days=30))
    last = on + timedelta(days=CURVE_AHEAD_DAYS)
    steps = range(0, max((last - first).days, 0), CURVE_STEP_DAYS)
    days = sorted({*(first + timedelta(days=step) for step in steps), on, last})
    sizes = quantiles(growth.at_days(measure, days), BAND_SHARES)
    points = (
        CurvePoint(on=day, p5=round(p5, 1), p50=round(p50, 1), p95=round(p95, 1))
        for day, (p5, p50, p95) in zip(days, sizes, strict=False)
    )
    return Curve(measure=measure, points=tuple(points))
