"""The growth of many horses at once, for pages that put them beside one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fitting.body import Taken
from fitting.growth import Growth, fit_growth
from fitting.models import Horse, Measurement, Yard
from fitting.reads.facts import (
    TAKEN_FROM,
    clearances,
    edges_for,
    tack_facts,
    taken_fact,
    tryons_by_horse,
)
from fitting.reads.growth import subject_of
from fitting.signals import yard_tryons_asked
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import TryOn


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownHorse:
    """A horse with its growth, and what that was fitted to."""

    horse: Horse
    growth: Growth
    taken: tuple[Taken, ...]
    tried: TriedOn


def growths_of(horses: Sequence[Horse]) -> tuple[Growth, ...]:
    """Return each horse's growth, fitted to what was measured and tried on.

    The horses are of one yard, which is read already. At most 10 queries: measurements,
    tack and sets with their parts, try-ons with theirs, what sessions say of tack (3).
    """
    return tuple(known.growth for known in known_of(horses))


def known_of(horses: Sequence[Horse]) -> tuple[KnownHorse, ...]:
    """Return all that is known of the bodies of some horses of one yard.

    At most 10 queries, as ``growths_of``.
    """
    if not horses:
        return ()
    taken, tried = _taken(horses), _tried(horses[0].yard)
    tack, made_up = tack_facts(horses[0].yard)
    return tuple(
        _known(
            horse,
            tuple(taken[horse.pk]),
            TriedOn(
                tryons=tuple(tried[horse.pk]),
                tack=tack,
                made_up=made_up,
                clearances=clearances(horse),
                edges=edges_for(horse),
            ),
        )
        for horse in horses
    )


def _known(horse: Horse, taken: tuple[Taken, ...], tried: TriedOn) -> KnownHorse:
    subject = subject_of(horse)
    growth = fit_growth(subject, taken, bounds_of(subject, tried))
    return KnownHorse(horse=horse, growth=growth, taken=taken, tried=tried)


def _taken(horses: Sequence[Horse]) -> defaultdict[int, list[Taken]]:
    """Return what was measured and not struck out, by horse."""
    found: defaultdict[int, list[Taken]] = defaultdict(list)
    rows = Measurement.objects.standing().filter(horse__in=horses)
    told = rows.order_by("on", "pk").values_list("horse_id", *TAKEN_FROM, named=True)
    for row in told:
        found[row.horse_id].append(taken_fact(row))
    return found


def _tried(yard: Yard) -> defaultdict[int, list[TryOn]]:
    """Return every try-on of the yard, what sessions say of tack too, by horse."""
    found: defaultdict[int, list[TryOn]] = defaultdict(list)
    told: list[tuple[Any, Any]] = yard_tryons_asked.send(Yard, yard=yard)
    for by_horse in (tryons_by_horse(yard), *(others for _, others in told)):
        for horse, tryons in by_horse.items():
            found[horse] += tryons
    return found
