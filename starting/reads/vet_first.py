"""Try-ons that ended with a sign to ring the vet, and that nobody has answered yet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.db.models import Exists, OuterRef

from fitting.models import TryOn, Yard
from starting.models import CareVisit, OffWork

STANDS: Final = timedelta(days=28)  # ours: so long a sign nobody answered is shown


@dataclass(frozen=True, slots=True, kw_only=True)
class VetFirst:
    """A sign to ring the vet: on which horse, of what, when."""

    horse: str
    item: str
    on: date
    sign: str


def vet_first(yard: Yard, on: date) -> tuple[VetFirst, ...]:
    """Return the signs without an answer, the newest first (1 query).

    Off work, or a visit of the vet, on that day or later is an answer.
    """
    since = {"horse": OuterRef("horse")}
    off = OffWork.objects.filter(**since, start__gte=OuterRef("on"))
    seen = CareVisit.objects.filter(
        **since, kind=CareVisit.Kind.VET, on__gte=OuterRef("on")
    )
    rows = TryOn.objects.filter(
        ~Exists(off),
        ~Exists(seen),
        horse__yard=yard,
        stop=TryOn.Stop.RING_VET,
        struck="",
        on__range=(on - STANDS, on),
    ).select_related("horse", "tack", "made_up")
    return tuple(
        VetFirst(horse=r.horse.key, item=r.item_name, on=r.on, sign=r.stop_sign)
        for r in rows
    )
