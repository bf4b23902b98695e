"""What a horse wears, and which bodies that is good for."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final, cast

from fitting.body import HorseType, measure_by_key
from fitting.drawings.signs import word_of
from fitting.fit import Wearer
from fitting.fit.covers import Cover, covers
from fitting.growth import Growth
from fitting.looks import Seen
from fitting.models import Horse
from fitting.readings import Units, show_between
from fitting.reads.units import day_words
from fitting.taught import TriedOn
from fitting.tryons import TryOn, body_of

BIT: Final = "bit"


def covers_in_use(
    horse: Horse, growth: Growth, tried: TriedOn, on: date
) -> tuple[Cover, ...]:
    """Return what the tack covers that a horse has worn, last worn first (1 query).

    Two names for the same span, as of a set and of its bit, count once.
    """
    wearer = Wearer(
        name=horse.name,
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        growth=growth,
        standing=(),
        clearances=tried.clearances,
        edges=tried.edges,
    )
    worn = worn_names(horse, tried.tryons)
    found: dict[tuple[object, ...], Cover] = {}
    every = covers(wearer, tried.tack, tried.made_up, on)
    for cover in sorted(
        (cover for cover in every if cover.good and cover.item in worn),
        key=lambda cover: worn.index(cover.item),
    ):
        found.setdefault((cover.measure, cover.good), cover)
    return tuple(found.values())


def worn_names(horse: Horse, tryons: Iterable[TryOn]) -> list[str]:
    """Return the items and sets a horse has worn, last worn first (1 query)."""
    first = horse.first_worn.filter(tack__isnull=False)
    worn = [
        *((tried.on, tried.item) for tried in tryons if tried.how == "worn"),
        *first.values_list("on", "tack__name"),
    ]
    worn.sort(key=lambda each: each[0], reverse=True)
    return list(dict.fromkeys(name for _, name in worn))


def cover_words(cover: Cover, seen: Seen, units: Units) -> str:
    """Return which sizes an item is good for, and how long it is good for this one."""
    spans = ", ".join(_span(low, high, units) for low, high in cover.good)
    its = ", its bit" if cover.in_set and cover.kind == BIT else ""
    said = f"{cover.item}{its}: good for {_sized(cover.measure, spans)}"
    if cover.least_mm < cover.from_mm or cover.most_mm > cover.to_mm:
        wide = _span(cover.least_mm, cover.most_mm, units)
        said = f"{said}, only just for {wide}"
    return f"{said}.{_answer_words(cover, seen)}"


def _sized(measure: str, spans: str) -> str:
    """Return sizes with what they are sizes of: a mouth width of, round the nose."""
    name = measure_by_key(measure).name
    return f"{spans} {name}" if name.startswith("round ") else f"a {name} of {spans}"


def _span(low: float, high: float, units: Units) -> str:
    """Return a span of sizes; inches are coarse for a bit, so mm stand beside them."""
    said = show_between(low, high, "length", units)
    return f"{said} ({low:.0f} to {high:.0f} mm)" if units.length == "in" else said


def _answer_words(cover: Cover, seen: Seen) -> str:
    """Return the answer of today for that item; nothing where none is stored."""
    found = [
        fit
        for fit in seen.fits
        if fit.item == cover.item and body_of(fit.kind, fit.part) == cover.measure
    ]
    if not found:
        return ""
    until = found[0].good_until
    ends = f", until {day_words(until)}" if until else ""
    return f" Today: {word_of(found[0].answer)}{ends}."
