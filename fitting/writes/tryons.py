"""Write a try-on in, correct it, delete it; note what is worn for the first time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from django.db import transaction

from fitting.models import FirstWorn, Photo, Tack, TryOn, TryOnPart
from fitting.photos import Picture
from fitting.signals import vet_wanted
from fitting.writes.photos import add_photo
from fitting.writes.touch import remember_token, touch


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What is written in with a try-on.

    ``kinds`` are the kinds of tack in it, each with its item: one that was never worn
    before is worn for the first time, if it was put on.
    """

    kinds: Sequence[tuple[str, Tack]] = ()
    how_it_went: str = ""
    photo: Picture | None = None


NOTHING_BESIDE: Final = Beside()


@transaction.atomic
def write_tryon(
    row: TryOn,
    parts: Sequence[TryOnPart],
    beside: Beside = NOTHING_BESIDE,
    *,
    token: str = "",
    led_to: str = "",
) -> TryOn:
    """Save a try-on, new or corrected, with its photo.

    A sign to ring the vet puts the horse off work; a later correction, or striking it
    out, does not take that back.
    """
    row.save()
    row.parts.all().delete()
    for part in parts:
        part.tryon = row
    TryOnPart.objects.bulk_create(parts)
    if row.how == TryOn.How.WORN:
        _first_worn(row, beside.kinds, beside.how_it_went)
    _ask_for_the_vet(row)
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)
    if beside.photo:
        note = f"{row.item_name}, {row.get_how_display()}"
        add_photo(Photo(horse=row.horse, on=row.on, note=note), beside.photo, "", "")
    return row


@transaction.atomic
def strike_tryon(row: TryOn, token: str, led_to: str) -> None:
    """Strike a try-on out, or let it count again; what was first worn stays."""
    row.save()
    _ask_for_the_vet(row)
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


def _ask_for_the_vet(row: TryOn) -> None:
    if row.stop == TryOn.Stop.RING_VET and not row.struck:
        vet_wanted.send(TryOn, tryon=row)


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
