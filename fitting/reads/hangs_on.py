"""What hangs on an item or a made-up set: as long as it does, neither is deleted."""

from __future__ import annotations

from typing import Any

from django.urls import reverse

from fitting.hangs_on import HangsOn, Record, hangs_on
from fitting.models import FirstWorn, Loan, Tack, TackSet, TryOn
from fitting.reads.units import day_words
from fitting.signals import records_asked


def hangs_on_thing(thing: Tack | TackSet) -> tuple[HangsOn, ...]:
    """Return what hangs on an item or a set (5 queries, or 2)."""
    return hangs_on_item(thing) if isinstance(thing, Tack) else hangs_on_set(thing)


def hangs_on_item(item: Tack) -> tuple[HangsOn, ...]:
    """Return what hangs on an item.

    5 queries: made-up sets, try-ons, first times worn, loans, sessions.
    """
    slug = item.yard.slug
    sets = TackSet.objects.filter(parts__tack=item).distinct()
    worn = FirstWorn.objects.filter(tack=item).select_related("horse")
    loans = item.loans.select_related("to", "tack")
    return (
        *hangs_on("made-up set", "made-up sets", [_set(slug, row) for row in sets]),
        *_tried(item),
        *hangs_on(
            "first time worn", "first times worn", [_worn(slug, row) for row in worn]
        ),
        *hangs_on("loan", "loans", [_loan(slug, row) for row in loans]),
        *_told_by_others(item),
    )


def hangs_on_set(made_up: TackSet) -> tuple[HangsOn, ...]:
    """Return what hangs on a made-up set (2 queries: try-ons, sessions)."""
    return (*_tried(made_up), *_told_by_others(made_up))


def _tried(thing: Tack | TackSet) -> tuple[HangsOn, ...]:
    rows = thing.tryons.select_related("horse")
    found = [_tryon(thing.yard.slug, row) for row in rows]
    return hangs_on("try-on", "try-ons", found)


def _told_by_others(thing: Tack | TackSet) -> tuple[HangsOn, ...]:
    """Return what is told by those who know of sessions."""
    told: list[tuple[Any, Any]] = records_asked.send(type(thing), thing=thing)
    return tuple(one for _, found in told for one in found)


def _set(slug: str, row: TackSet) -> Record:
    href = reverse("fitting:edit-set", args=[slug, row.key])
    return Record(said=f"{row.name} is made up with it", href=href)


def _tryon(slug: str, row: TryOn) -> Record:
    struck = ", struck out" if row.struck else ""
    return Record(
        said=f"{row.horse.name}, {row.get_how_display()} {day_words(row.on)}{struck}",
        href=reverse("fitting:edit-tryon", args=[slug, row.horse.key, row.pk]),
    )


def _worn(slug: str, row: FirstWorn) -> Record:
    return Record(
        said=f"{row.horse.name}, {day_words(row.on)}",
        href=reverse("fitting:edit-first-worn", args=[slug, row.horse.key, row.pk]),
    )


def _loan(slug: str, row: Loan) -> Record:
    start = f", from {day_words(row.start)}" if row.start else ""
    return Record(
        said=f"Lent to {row.to.name}{start}",
        href=reverse("fitting:edit-loan", args=[slug, row.tack.key, row.pk]),
    )
