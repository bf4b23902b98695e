"""The growth charts of a horse, made ready to draw."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import months_old
from fitting.body import HorseType, measure_by_key, middle
from fitting.drawings.charts import (
    BandPoint,
    Figure,
    Floor,
    Grown,
    GrowthChart,
    Parent,
    Reading,
    figures,
)
from fitting.drawings.marks import Mark
from fitting.drawings.scale import Unit
from fitting.growth.observed import growth_key, observations
from fitting.looks import Band, Curve, MeasureLook, Seen
from fitting.models import Horse, Measurement
from fitting.readings import Units, show_between
from fitting.reads.facts import taken_fact
from fitting.reads.units import units_of

NINE_IN_TEN_SDS: Final = 1.645
HEIGHT: Final = "withers_height"
STANDS_FIRM: Final = frozenset({"stick", "laser", "weighbridge", "calliper"})
AGES: Final = (
    "The ages for tack and rider are earliest starting points, not targets. Ask your"
    " vet whether this one is strong enough."
)
NOTES: Final = {
    HEIGHT: (
        "Two heights closer than 1.1 cm, by one person, are never called growth.",
        "Lamas and others, 2007",
    ),
    "head_length": (
        "No growth curve of the head is published: this one, borrowed from height, is",
        "ours",
    ),
    "mouth_width": (
        "No growth curve of the mouth is published: this one, borrowed from height, is",
        "ours",
    ),
    "weight": (
        "A weigh tape errs by 6 in a hundred, a formula by 10, the eye by 20.",
        "Ellis and Hollands, 1998",
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartView:
    """One growth chart with its key, its figures and its note."""

    measure: str
    title: str
    chart: GrowthChart
    figures: tuple[Figure, ...]
    key: tuple[tuple[Mark, str], ...]
    note: str = ""
    source: str = ""
    caution: str = ""


def growth_charts(
    horse: Horse, seen: Seen, rows: Sequence[Measurement], on: date
) -> tuple[ChartView, ...]:
    """Return a chart for each measure that has a curve; a grown horse has none."""
    drawn = (
        _chart(horse, curve, seen, rows, on) for curve in seen.curves if curve.points
    )
    return tuple(drawn)


def _chart(
    horse: Horse,
    curve: Curve,
    seen: Seen,
    rows: Sequence[Measurement],
    on: date,
) -> ChartView:
    look = seen.measure(curve.measure)
    measure = measure_by_key(curve.measure)
    its_own = [row for row in rows if row.measure == curve.measure]
    note, source = NOTES.get(curve.measure, ("", ""))
    chart = GrowthChart(
        uid=f"grows-{curve.measure}".replace("_", "-"),
        title=f"{horse.name}: {measure.name} by age",
        desc=_desc(horse, look, its_own),
        unit=_unit(horse, measure.dimension),
        born=horse.foaled_days.last,
        today=on,
        band=_band(horse, curve),
        readings=tuple(_reading(horse, row) for row in its_own),
        grown=_grown(look),
        parents=_parents(horse) if curve.measure == HEIGHT else (),
        floors=_floors(seen) if curve.measure == HEIGHT else (),
    )
    return ChartView(
        measure=curve.measure,
        title=measure.name.capitalize(),
        chart=chart,
        figures=figures(chart),
        key=_key(its_own),
        note=note,
        source=source,
        caution=AGES if chart.floors else "",
    )


def _unit(horse: Horse, dimension: str) -> Unit:
    units = units_of(horse.yard)
    if dimension == "height":
        return units.height
    return units.weight if dimension == "weight" else units.length


def _band(horse: Horse, curve: Curve) -> tuple[BandPoint, ...]:
    born = horse.foaled_days.last
    return tuple(
        BandPoint(age_months=months_old(born, p.on), p5=p.p5, p50=p.p50, p95=p.p95)
        for p in curve.points
    )


def _reading(horse: Horse, row: Measurement) -> Reading:
    """Return a measurement as it counts: less shoes and what the method reads over."""
    age = months_old(horse.foaled_days.last, row.on)
    if row.struck:
        return Reading(age_months=age, value=middle(row.values), mark="struck")
    horse_type: HorseType = horse.horse_type  # type: ignore[assignment]
    ((_, (seen,)),) = observations([taken_fact(row)], horse_type)
    return Reading(
        age_months=age,
        value=seen.value,
        half_width=NINE_IN_TEN_SDS * seen.error,
        mark=_mark(row),
    )


def _mark(row: Measurement) -> Mark:
    if row.struck:
        return "struck"
    if growth_key(row.measure, row.method) != row.measure:
        return "other"
    return "stick" if row.method in STANDS_FIRM else "string"


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


def _desc(horse: Horse, look: MeasureLook | None, rows: Sequence[Measurement]) -> str:
    """Return what a chart shows, in a sentence, for those who cannot see it."""
    units = units_of(horse.yard)
    counted = sum(1 for row in rows if not row.struck)
    said = f"{counted} measurements" if counted != 1 else "One measurement"
    if look is None or look.now is None:
        return f"{said}."
    now = between(look.now, look, units)
    grown = between(look.grown, look, units)
    return f"{said}. Today, nine times in ten, {now}; grown {grown}."


def _key(rows: Iterable[Measurement]) -> tuple[tuple[Mark, str], ...]:
    """Return the marks used, each with its methods in words."""
    methods: dict[Mark, dict[str, None]] = {}
    for row in rows:
        methods.setdefault(_mark(row), {})[row.get_method_display()] = None
    words: dict[Mark, str] = {mark: ", ".join(said) for mark, said in methods.items()}
    ends: dict[Mark, str] = {
        "stick": ", with its error",
        "string": ", with its error",
        "other": " over the shoulder: reads high, kept out",
    }
    return tuple(
        (mark, "struck out" if mark == "struck" else f"{said}{ends[mark]}")
        for mark, said in words.items()
    )


def between(band: Band | None, look: MeasureLook, units: Units) -> str:
    """Return where nine in ten lie, in words; nothing where nothing is known."""
    if band is None:
        return ""
    return show_between(band.p5, band.p95, look.dimension, units)
