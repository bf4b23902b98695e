"""The growth charts of a horse, made ready to draw."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.age import months_old
from fitting.body import MEASURES, Measure, measure_by_key
from fitting.drawings.charts import (
    BandPoint,
    Figure,
    Floor,
    Grown,
    GrowthChart,
    Lane,
    Parent,
    figures,
)
from fitting.drawings.lanes import MOST_LANES
from fitting.drawings.marks import Mark
from fitting.drawings.scale import Unit
from fitting.fit.covers import Cover
from fitting.growth import Growth, quantiles
from fitting.growth.bounds import of_measure
from fitting.growth_notes import LIVES_OUT, NOTES, SEASONAL
from fitting.looks import Band, MeasureLook, Seen
from fitting.models import Horse, Measurement
from fitting.readings import Units, show_between
from fitting.reads.chart_marks import bounds, key_of, reading
from fitting.reads.in_use import cover_words
from fitting.reads.units import day_words, units_of
from fitting.sized import Read, rests_words, size_words, speed_words

HEIGHT: Final = "withers_height"
AGES: Final = (
    "The ages for tack and rider are earliest starting points, not targets. Ask your"
    " vet whether this one is strong enough."
)
CURVE_AHEAD: Final = timedelta(days=730)
CURVE_STEP: Final = timedelta(days=30)
BEFORE_FIRST: Final = timedelta(days=30)
BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """All that is known of one horse's body on a day, for its charts."""

    horse: Horse
    growth: Growth
    seen: Seen
    rows: tuple[Measurement, ...]
    on: date
    covers: tuple[Cover, ...] = ()

    def of(self, measure: str) -> tuple[Measurement, ...]:
        """Return the readings of one measure, struck out or not."""
        return tuple(row for row in self.rows if row.measure == measure)


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverRow:
    """What one item covers, in words, with its number on the chart; 0: not drawn."""

    number: int
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartView:
    """One growth chart: what it says in words, its key, its figures and its note."""

    measure: str
    title: str
    chart: GrowthChart
    figures: tuple[Figure, ...]
    key: tuple[tuple[Mark, str], ...]
    said: str = ""
    rests_on: str = ""
    covers: tuple[CoverRow, ...] = ()
    note: str = ""
    source: str = ""
    caution: str = ""

    @property
    def by(self) -> str:
        """What the figures are told by: ages, or the days of the readings."""
        return "Age" if self.chart.band else "Day"


def charted(known: Known) -> tuple[str, ...]:
    """Return the measures of the charts: height, and what was taken or tried on."""
    taken = {row.measure for row in known.rows}
    return tuple(
        m.key
        for m in MEASURES
        if m.key in {HEIGHT} | taken or known.growth.taught(m.key)
    )


def growth_chart(known: Known, key: str) -> ChartView | None:
    """Return the chart of one measure; None where there is nothing to draw."""
    measure = measure_by_key(key)
    look, its_own = known.seen.measure(key), known.of(key)
    band = _band(known, measure)
    if not band and not its_own:
        return None
    hung = tuple(cover for cover in known.covers if cover.measure == key)
    chart = GrowthChart(
        uid=f"grows-{key}".replace("_", "-"),
        title=f"{known.horse.name}: {measure.name} by age",
        desc=_desc(known, look, its_own),
        unit=_unit(known.horse, measure.dimension),
        born=known.horse.foaled_days.last,
        today=known.on,
        band=band,
        readings=tuple(reading(known.horse, row) for row in its_own),
        bounds=bounds(known.horse, of_measure(known.growth.bounds, key)),
        grown=_grown(look) if band else None,
        parents=_parents(known.horse) if key == HEIGHT else (),
        floors=_floors(known.seen) if key == HEIGHT else (),
        lanes=tuple(_lane(n, cover) for n, cover in enumerate(hung[:MOST_LANES], 1)),
    )
    return _view(known, measure, chart, hung)


def _view(
    known: Known, measure: Measure, chart: GrowthChart, hung: Sequence[Cover]
) -> ChartView:
    its_own = known.of(measure.key)
    note = NOTES.get(measure.key)
    return ChartView(
        measure=measure.key,
        title=measure.name.capitalize(),
        chart=chart,
        figures=figures(chart),
        key=key_of(its_own),
        said=_said(known, measure.key),
        rests_on=_rests_on(known, measure.key),
        covers=tuple(
            CoverRow(
                number=n if n <= MOST_LANES else 0,
                said=cover_words(cover, known.seen, units_of(known.horse.yard)),
            )
            for n, cover in enumerate(hung, 1)
        ),
        note=note.said if note else "",
        source=note.source if note else "",
        caution=_caution(known, measure.key, chart),
    )


def _caution(known: Known, key: str, chart: GrowthChart) -> str:
    if chart.floors:
        return AGES
    seasonal = key in SEASONAL and known.horse.lives_out
    return LIVES_OUT if seasonal and chart.band else ""


def _said(known: Known, key: str) -> str:
    """Return the size in words; the height's are said at the head of the page."""
    look, units = known.seen.measure(key), units_of(known.horse.yard)
    grown = known.horse.grown
    if look is None or (key == HEIGHT and not grown):
        return ""
    speed = "" if grown else speed_words(look, units)
    return f"{size_words(look, units, grown=grown)} {speed}".strip()


def _rests_on(known: Known, key: str) -> str:
    read = read_of(known.of(key))
    first = day_words(read.first) if read.first else ""
    return rests_words(known.seen.measure(key), read, first)


def read_of(rows: Iterable[Measurement], parents: tuple[str, ...] = ()) -> Read:
    """Return how many readings count, and since when."""
    days = [row.on for row in rows if not row.struck]
    return Read(count=len(days), first=min(days, default=None), parents=parents)


def _lane(number: int, cover: Cover) -> Lane:
    return Lane(
        number=number,
        good=cover.good,
        least=cover.least_mm,
        most=cover.most_mm,
        holes=cover.holes,
    )


def _unit(horse: Horse, dimension: str) -> Unit:
    units = units_of(horse.yard)
    if dimension == "height":
        return units.height
    if dimension == "score":
        return "score"
    return units.weight if dimension == "weight" else units.length


def _band(known: Known, measure: Measure) -> tuple[BandPoint, ...]:
    """Return the band from a month before the first reading, or from birth."""
    if not measure.grows:
        return ()
    days = _days(known, measure.key)
    spreads = known.growth.at_days(measure.key, days)
    if not spreads:
        return ()
    born = known.horse.foaled_days.last
    return tuple(
        BandPoint(age_months=months_old(born, day), p5=p5, p50=p50, p95=p95)
        for day, (p5, p50, p95) in zip(
            days, quantiles(spreads, BAND_SHARES), strict=True
        )
    )


def _days(known: Known, key: str) -> tuple[date, ...]:
    """Return the days of a band, two years past today."""
    born, last = known.horse.foaled_days.last, known.on + CURVE_AHEAD
    taken = [row.on for row in known.of(key) if not row.struck]
    taken += [bound.on for bound in of_measure(known.growth.bounds, key)]
    first = max(min(taken) - BEFORE_FIRST, born) if taken else born
    steps = range(max((last - first) // CURVE_STEP, 0))
    days = {first + CURVE_STEP * step for step in steps}
    return tuple(sorted({*days, known.on, last}))


def _floors(seen: Seen) -> tuple[Floor, ...]:
    return tuple(
        Floor(age_months=mark.months, said=mark.said, said_shortly=mark.said_shortly)
        for mark in seen.age_marks
    )


def _grown(look: MeasureLook | None) -> Grown | None:
    if look is None or look.grown is None:
        return None
    return Grown(p5=look.grown.p5, p50=look.grown.p50, p95=look.grown.p95)


def _parents(horse: Horse) -> tuple[Parent, ...]:
    known = (("dam", horse.dam_height_mm), ("sire", horse.sire_height_mm))
    return tuple(Parent(name=name, value=mm) for name, mm in known if mm)


def _desc(known: Known, look: MeasureLook | None, rows: Sequence[Measurement]) -> str:
    """Return what a chart shows, in a sentence, for those who cannot see it."""
    units = units_of(known.horse.yard)
    counted = sum(1 for row in rows if not row.struck)
    said = f"{counted} measurements" if counted != 1 else "One measurement"
    if look is None or look.now is None:
        return f"{said}."
    now = between(look.now, look, units)
    grown = f"; grown {between(look.grown, look, units)}" if look.grown else ""
    return f"{said}. Today, nine times in ten, {now}{grown}."


def between(band: Band | None, look: MeasureLook, units: Units) -> str:
    """Return where nine in ten lie, in words; nothing where nothing is known."""
    if band is None:
        return ""
    return show_between(band.p5, band.p95, look.dimension, units)
