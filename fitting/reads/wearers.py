"""One horse as the rules of tack see it, on any day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import cast

from fitting.body import MEASURES, HorseType, Standing, Taken, standing_on, stands_until
from fitting.fit import Wearer
from fitting.models import Horse
from fitting.reads.growth import growth_of, taken_of
from fitting.reads.growths import KnownHorse
from fitting.reads.outlook import seen_of
from fitting.taught import TriedOn


def wearer_of(horse: Horse, tried: TriedOn, on: date) -> Wearer:
    """Return a horse as tack sees it on a day (3 queries: measured twice, outlook).

    ``tried``: what ``tried_on`` returned. The same as its outlook rests on.
    """
    seen = seen_of(horse)
    known = KnownHorse(
        horse=horse,
        growth=growth_of(horse, tried=tried),
        taken=taken_of(horse),
        tried=tried,
    )
    return wearer_on(known, seen.tooth_change if seen else None, on)


def wearer_on(known: KnownHorse, change: date | None, on: date) -> Wearer:
    """Return a horse of which all is read as tack sees it on a day.

    ``change``: the last tooth change noted.
    """
    horse, tried = known.horse, known.tried
    return Wearer(
        name=horse.name,
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        growth=known.growth,
        standing=_standings(known.taken, horse.foaled_days.last, change, on),
        tryons=tuple(tried.tryons),
        clearances=tried.clearances,
        edges=tried.edges,
        tooth_change=change,
    )


def _standings(
    taken: Iterable[Taken], born: date, tooth_change: date | None, on: date
) -> tuple[tuple[str, Standing], ...]:
    """Return how every measure stands on a day, by its newest measurement."""
    newest = {one.measure: one for one in sorted(taken, key=lambda one: one.on)}
    until = {
        measure: stands_until(one, born, tooth_change=tooth_change)
        for measure, one in newest.items()
    }
    return tuple((m.key, standing_on(until.get(m.key), on)) for m in MEASURES)
