"""One horse's growth, for every page on this side that asks for a size on a day."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from fitting.body import HorseType, Taken
from fitting.growth import Growth, Subject, fit_growth
from fitting.models import Horse
from fitting.reads.facts import taken_fact


def growth_of(horse: Horse, *, typed: Sequence[Taken] = ()) -> Growth:
    """Return a horse's growth, fitted to all that counts of it (1 query).

    ``typed``: readings not written in yet, counted with the rest.
    """
    return fit_growth(subject_of(horse), [*taken_of(horse), *typed])


def taken_of(horse: Horse) -> tuple[Taken, ...]:
    """Return what was measured of a horse and not struck out (1 query)."""
    rows = horse.measurements.filter(struck="").order_by("on", "pk")
    return tuple(taken_fact(row) for row in rows)


def subject_of(horse: Horse) -> Subject:
    """Return what growth knows of a horse beside its readings."""
    return Subject(
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        dam_height_mm=horse.dam_height_mm,
        sire_height_mm=horse.sire_height_mm,
    )
