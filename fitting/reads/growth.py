"""One horse's growth, for every page on this side that asks for a size on a day."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from fitting.body import HorseType, Taken
from fitting.growth import Growth, Subject, fit_growth
from fitting.models import Horse
from fitting.reads.facts import (
    clearances,
    edges_for,
    tack_facts,
    taken_fact,
    tryon_fact,
)
from fitting.signals import tryons_asked
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import TryOn


def growth_of(
    horse: Horse, *, typed: Sequence[Taken] = (), tried: TriedOn | None = None
) -> Growth:
    """Return a horse's growth by all that was measured and tried on (10 queries).

    The same as its outlook rests on. ``typed``: readings not written in yet, counted
    with the rest. ``tried``: what ``tried_on`` returned, if that is read already.
    """
    subject = subject_of(horse)
    bounds = bounds_of(subject, tried_on(horse) if tried is None else tried)
    return fit_growth(subject, [*taken_of(horse), *typed], bounds)


def tried_on(horse: Horse) -> TriedOn:
    """Return what was tried on a horse, with the yard's tack (9 queries)."""
    tack, made_up = tack_facts(horse.yard)
    return TriedOn(
        tryons=tryons_of(horse),
        tack=tack,
        made_up=made_up,
        clearances=clearances(horse),
        edges=edges_for(horse),
    )


def taken_of(horse: Horse) -> tuple[Taken, ...]:
    """Return what was measured of a horse and not struck out (1 query)."""
    rows = horse.measurements.filter(struck="").order_by("on", "pk")
    return tuple(taken_fact(row) for row in rows)


def tryons_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return every try-on of a horse, what others tell of tack too (5 queries)."""
    kept = horse.tryons.filter(struck="")
    rows = kept.select_related("tack", "made_up").prefetch_related("parts")
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
