"""What moved when a yard was planned again, kept one row a step or item a day."""

from __future__ import annotations

import zlib
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Final

import msgspec
from django.db.models import F, Q, Window
from django.db.models.functions import RowNumber

from fitting.models import Yard
from starting.models import LastTold, Moved
from starting.moves import Move, Told, tell_today
from starting.outlook import Outlook

MOST_KEPT: Final = 200  # rows a horse; ours: what is older is of no use to a plan
TOLD: Final = msgspec.json.Decoder(Told)


def keep_moves(yard: Yard, outlooks: Sequence[Outlook], today: date) -> None:
    """Keep what moved on a day (6 queries, 7 where old rows go).

    The day's rows are written anew each time: they say how the day ends.
    """
    horses = dict(yard.horses.values_list("key", "pk"))
    before = _told(yard)
    told, rows = {}, []
    for outlook in outlooks:
        horse = horses.get(outlook.key)
        if horse is not None:
            told[horse], found = tell_today(before.get(horse), outlook)
            rows += [_row(horse, today, one) for one in found]
    Moved.objects.filter(horse__yard=yard, on__gte=today).delete()
    Moved.objects.bulk_create(rows)
    _keep_told(told)
    _forget_old(yard)


def _told(yard: Yard) -> dict[int, Told]:
    rows = LastTold.objects.filter(horse__yard=yard).values_list("horse_id", "content")
    return {horse: TOLD.decode(zlib.decompress(content)) for horse, content in rows}


def _row(horse: int, today: date, one: Move) -> Moved:
    return Moved(
        horse_id=horse,
        on=today,
        kind=one.kind,
        subject=one.mark.subject,
        content=msgspec.json.encode(one),
    )


def _keep_told(told: Mapping[int, Told]) -> None:
    LastTold.objects.bulk_create(
        [
            LastTold(horse_id=horse, content=zlib.compress(msgspec.json.encode(one)))
            for horse, one in told.items()
        ],
        update_conflicts=True,
        unique_fields=["horse"],
        update_fields=["content"],
    )


def _forget_old(yard: Yard) -> None:
    """Strike out whole days beyond the newest rows of each horse."""
    place = Window(
        RowNumber(), partition_by=F("horse_id"), order_by=[F("on").desc(), F("pk")]
    )
    beyond = (
        Moved.objects.filter(horse__yard=yard)
        .annotate(place=place)
        .filter(place=MOST_KEPT + 1)
        .order_by()
        .values_list("horse_id", "on")
    )
    old = Q()
    for horse, on in beyond:
        old |= Q(horse_id=horse, on__lt=on)
    if old:
        Moved.objects.filter(old).delete()
