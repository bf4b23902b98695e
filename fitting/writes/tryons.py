"""Write a try-on in, correct it, delete it; note what is worn for the first time."""

from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction

from fitting.models import FirstWorn, Tack, TryOn, TryOnPart
from fitting.writes.touch import remember_token, touch


@transaction.atomic
def write_tryon(
    row: TryOn,
    parts: Sequence[TryOnPart],
    kinds: Sequence[tuple[str, Tack]] = (),
    *,
    how_it_went: str = "",
    token: str = "",
    led_to: str = "",
) -> TryOn:
    """Save a try-on, new or corrected.

    ``kinds`` are the kinds of tack in it, each with its item: one that was never worn
    before is worn for the first time, if it was put on.
    """
    row.save()
    row.parts.all().delete()
    for part in parts:
        part.tryon = row
    TryOnPart.objects.bulk_create(parts)
    if row.how == TryOn.How.WORN:
        _first_worn(row, kinds, how_it_went)
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)
    return row


def _first_worn(
    row: TryOn, kinds: Sequence[tuple[str, Tack]], how_it_went: str
) -> None:
    worn = set(row.horse.first_worn.values_list("kind", flat=True))
    FirstWorn.objects.bulk_create(
        FirstWorn(
            horse=row.horse,
            kind=kind,
            tack=item,
            on=row.on,
            who=row.who,
            how_it_went=how_it_went,
        )
        for kind, item in kinds
        if kind not in worn
    )


@transaction.atomic
def delete_tryon(row: TryOn) -> None:
    """Delete a try-on; what was first worn stays."""
    yard = row.horse.yard
    row.delete()
    touch(yard)


@transaction.atomic
def write_first_worn(row: FirstWorn, token: str, led_to: str) -> None:
    """Save what was worn for the first time."""
    row.save()
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


@transaction.atomic
def delete_first_worn(row: FirstWorn) -> None:
    """Delete what was never worn."""
    yard = row.horse.yard
    row.delete()
    touch(yard)
