"""The body's part of an outlook: what was measured, and what it is now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.body import MEASURES, Dimension, Measure, middle, stands_until
from fitting.growth import (
    Growth,
    Shares,
    Spread,
    Subject,
    fit_growth,
    quantiles,
    share_quantiles,
)
from fitting.looks import Band, Last, MeasureLook, Rests
from fitting.taught import Lesson, TriedOn, lessons_of
from starting.gates import MeasureStands
from starting.outlook.facts import HorseFacts, MeasuredText, YardFacts

FIRST_MEASURES: Final = (  # asked for even if never taken
    "withers_height", "head_length", "mouth_width", "heart_girth", "weight",
)  # fmt: skip
BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle
A_MONTH_DAYS: Final = 30
DONE_PLACES: Final = 3  # a tenth of a per cent
UNITS: Final[dict[Dimension, Literal["mm", "kg", "score"]]] = {
    "height": "mm", "length": "mm", "weight": "kg", "score": "score",
}  # fmt: skip


def taught_of(yard: YardFacts, horse: HorseFacts) -> tuple[Lesson, ...]:
    """Return what was tried on the horse and what it teaches of its body."""
    return lessons_of(subject_of(yard, horse), tried_on(yard, horse))


def growth_of(yard: YardFacts, horse: HorseFacts, lessons: Sequence[Lesson]) -> Growth:
    """Return the horse's growth, fitted to what was measured and to lessons."""
    subject = subject_of(yard, horse)
    bounds = [lesson.bound for lesson in lessons]
    return fit_growth(subject, [m.taken for m in horse.measured], bounds)


def subject_of(yard: YardFacts, horse: HorseFacts) -> Subject:
    """Return what growth knows of the horse beside readings and try-ons."""
    return Subject(
        horse_type=horse.horse_type,
        foaled=horse.foaled,
        grown=horse.grown,
        dam_height_mm=horse.dam_height_mm,
        sire_height_mm=horse.sire_height_mm,
        lives_out=horse.lives_out,
        hemisphere=yard.hemisphere,
    )


def tried_on(yard: YardFacts, horse: HorseFacts) -> TriedOn:
    """Return what was tried on the horse, with the tack it was tried with."""
    return TriedOn(
        tryons=horse.tryons,
        tack=yard.tack,
        made_up=yard.made_up,
        clearances=horse.clearances,
        edges=horse.edges,
    )


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
    """Return every measure: last, now, grown, done, a month's growth, standing."""
    found = _bands_of_all(growth, on)
    return tuple(
        _look(horse, measure, stand, found[measure.key])
        for measure, stand in zip(MEASURES, stands, strict=True)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bands:
    """What growth says of one measure on a day."""

    now: Band | None
    grown: Band | None
    a_month: Band | None
    done: Band | None
    rests_on: Rests


def _bands_of_all(growth: Growth, on: date) -> dict[str, _Bands]:
    """Return every measure's bands, all quantiles found at once."""
    keys = [measure.key for measure in MEASURES]
    growing = {measure.key for measure in MEASURES if measure.grows}
    now = [growth.at(key, on) for key in keys]
    grown = [growth.grown_size(key) if key in growing else None for key in keys]
    ahead = [growth.gains(key, on, A_MONTH_DAYS) for key in keys]
    found = iter(bands([*now, *grown, *ahead]))
    sizes, ends, gained = ([next(found) for _ in keys] for _ in range(3))
    done = _bands_done([growth.done(key, on) for key in keys])
    rows = zip(keys, sizes, ends, gained, done, strict=True)
    return {
        key: _Bands(
            now=size, grown=end, a_month=month, done=part, rests_on=_rests(growth, key)
        )
        for key, size, end, month, part in rows
    }


def _bands_done(shares: Sequence[Shares | None]) -> list[Band | None]:
    """Return the share of growth done as bands, 0 to 1."""
    found = iter(share_quantiles([s for s in shares if s is not None], BAND_SHARES))
    return [_band(next(found), DONE_PLACES) if share else None for share in shares]


def _rests(growth: Growth, measure: str) -> Rests:
    """Return what the size rests on beside type, age and tempo."""
    if growth.taught(measure):
        return "both" if growth.known(measure) else "tryons"
    return "readings" if growth.known(measure) else "type"


def _look(
    horse: HorseFacts, measure: Measure, stand: MeasureStands, found: _Bands
) -> MeasureLook:
    last = newest(horse, measure.key, stand.last_on or date.max)
    return MeasureLook(
        measure=measure.key,
        name=measure.name,
        dimension=measure.dimension,
        unit=UNITS[measure.dimension],
        last=_last(last) if last and stand.last_on else None,
        now=found.now,
        grown=found.grown,
        standing=stand.standing,
        measure_by=None,
        done=found.done,
        a_month=found.a_month,
        rests_on=found.rests_on,
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


def _band(sizes: tuple[float, ...], places: int = 1) -> Band:
    p5, p50, p95 = (round(size, places) for size in sizes)
    return Band(p5=p5, p50=p50, p95=p95)
