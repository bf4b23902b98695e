"""Stop signs of try-ons that rang the vet, and still hold."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Q, QuerySet

from fitting.models import Horse, Tack, TackSet, TryOn, Yard
from fitting.ringing import Span, still_holds
from fitting.signals import off_work_asked


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One sign that holds: on whom it was seen, of what, when, and what it was."""

    horse: str
    key: str
    item: str
    on: date
    sign: str


def rung_for(horse: Horse, today: date) -> tuple[Rung, ...]:
    """Return a horse's signs that hold (1 query; 1 more where there is any)."""
    return _holding(horse.tryons.all(), horse.yard, today)


def rung_of(thing: Tack | TackSet, today: date) -> tuple[Rung, ...]:
    """Return the signs of an item or a set that hold (1 query; 1 more if any).

    What was seen of a set speaks of its items too, and of an item of its sets.
    """
    if isinstance(thing, TackSet):
        of_it = Q(made_up=thing) | Q(tack__in_sets__made_up=thing)
    else:
        of_it = Q(tack=thing) | Q(made_up__parts__tack=thing)
    tryons = TryOn.objects.filter(of_it, horse__yard=thing.yard)
    return _holding(tryons.distinct(), thing.yard, today)


def _holding(tryons: QuerySet[TryOn], yard: Yard, today: date) -> tuple[Rung, ...]:
    rows = tryons.filter(stop=TryOn.Stop.RING_VET, struck="", on__lte=today)
    found = list(rows.select_related("horse", "tack", "made_up"))
    spans = _spans(yard) if found else {}
    return tuple(
        Rung(
            horse=row.horse.name,
            key=row.horse.key,
            item=row.item_name,
            on=row.on,
            sign=row.stop_sign,
        )
        for row in found
        if still_holds(row.on, spans.get(row.horse_id, ()), today)
    )


def _spans(yard: Yard) -> dict[int, list[Span]]:
    told: list[tuple[Any, Any]] = off_work_asked.send(Yard, yard=yard)
    found: dict[int, list[Span]] = defaultdict(list)
    for _, by_horse in told:
        for pk, spans in by_horse.items():
            found[pk].extend(spans)
    return found
