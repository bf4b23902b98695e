"""What readings would change for a horse, before they are written in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, cast

from fitting.body import HorseType, Standing, Taken, standing_on, stands_until
from fitting.changes import changes, size_changes
from fitting.fit import Wearer, fits
from fitting.growth import Growth, Spread, quantiles
from fitting.looks import Band, MeasureLook, Seen
from fitting.models import Horse
from fitting.reads.growth import growth_of, tried_on
from fitting.reads.units import units_of
from fitting.taught import TriedOn

BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreseen:
    """What would change: the sizes of what was measured, and the answers of tack."""

    sizes: tuple[str, ...]
    tack: tuple[str, ...]
    has_tack: bool


def foreseen(
    horse: Horse, seen: Seen | None, typed: Sequence[Taken], on: date
) -> Foreseen | None:
    """Return what readings would change; None before the first planning (10 queries).

    Measurements, try-ons with what sessions say, tack; nothing is saved.
    """
    if seen is None or not typed:
        return None
    tried = tried_on(horse)
    after = with_readings(horse, seen, typed, tried, on)
    names = [taken.measure for taken in typed]
    return Foreseen(
        sizes=size_changes(seen, after, names, units_of(horse.yard), grown=horse.grown),
        tack=changes(seen, after, units_of(horse.yard).length),
        has_tack=bool(tried.tack),
    )


def with_readings(
    horse: Horse, seen: Seen, typed: Sequence[Taken], tried: TriedOn, on: date
) -> Seen:
    """Return a look at a horse as if readings were written in (1 query)."""
    growth = growth_of(horse, typed=typed, tried=tried)
    wearer = Wearer(
        name=horse.name,
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        growth=growth,
        standing=_standings(horse, seen, typed, on),
        tryons=tuple(tried.tryons),
        clearances=tried.clearances,
        edges=tried.edges,
        tooth_change=seen.tooth_change,
    )
    return replace(
        seen,
        measures=_looks(seen, growth, typed, on),
        fits=fits(wearer, tried.tack, tried.made_up, on),
    )


def _standings(
    horse: Horse, seen: Seen, typed: Sequence[Taken], on: date
) -> tuple[tuple[str, Standing], ...]:
    """Return how every measure stands, with what was typed counted in."""
    found = {look.measure: look.standing for look in seen.measures}
    for taken in typed:
        look = seen.measure(taken.measure)
        if look and look.last and look.last.on > taken.on:
            continue
        until = stands_until(
            taken, horse.foaled_days.last, tooth_change=seen.tooth_change
        )
        found[taken.measure] = standing_on(until, on)
    return tuple(found.items())


def _looks(
    seen: Seen, growth: Growth, typed: Sequence[Taken], on: date
) -> tuple[MeasureLook, ...]:
    """Return every measure, with its size now and grown where it was typed."""
    touched = {taken.measure for taken in typed}
    return tuple(
        replace(
            look,
            now=_band(growth.at(look.measure, on)),
            grown=_band(growth.grown_size(look.measure)),
        )
        if look.measure in touched
        else look
        for look in seen.measures
    )


def _band(spread: Spread | None) -> Band | None:
    if spread is None:
        return None
    ((p5, p50, p95),) = quantiles([spread], BAND_SHARES)
    return Band(p5=p5, p50=p50, p95=p95)
