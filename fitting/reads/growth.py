"""One horse's growth, for every page on this side that asks for a size on a day."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from fitting.body import HorseType, Taken
from fitting.growth import Growth, Subject, fit_growth
from fitting.models import Horse
from fitting.reads.facts import taken_fact, tryon_fact
from fitting.signals import tryons_asked
from fitting.tryons import TryOn


def growth_of(horse: Horse, *, typed: Sequence[Taken] = ()) -> Growth:
    """Return a horse's growth, fitted to all that counts of it (1 query).

    ``typed``: readings not written in yet, counted with the rest.
    """
    return fit_growth(subject_of(horse), [*taken_of(horse), *typed])


def taken_of(horse: Horse) -> tuple[Taken, ...]:
    """Return what was measured of a horse and not struck out (1 query)."""
    rows = horse.measurements.filter(struck="").order_by("on", "pk")
    return tuple(taken_fact(row) for row in rows)


def tryons_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return every try-on of a horse, what sessions say of tack too (4 queries)."""
    rows = horse.tryons.select_related("tack", "made_up").prefetch_related("parts")
    told: list[tuple[Any, Any]] = tryons_asked.send(Horse, horse=horse)
    return (
        *(tryon_fact(row) for row in rows.order_by("on", "pk")),
        *(tryon for _, others in told for tryon in others),
    )


def subject_of(horse: Horse) -> Subject:
    """Return what growth knows of a horse beside its readings; its yard is read."""
    return Subject(
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        dam_height_mm=horse.dam_height_mm,
        sire_height_mm=horse.sire_height_mm,
        lives_out=horse.lives_out,
        hemisphere=horse.yard.hemisphere,
    )
