"""Care visits, rests, off work, incidents: written in, corrected, deleted.

A stop sign that asks for the vet, in a session or at a try-on, puts the horse off work.
"""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django.db import transaction
from django.db.models import Q

from fitting.models import Horse, TryOn
from fitting.signals import vet_wanted
from fitting.writes import remember_token, touch
from starting.models import OffWork
from starting.models.care import CareRow

BY_THE_VET: Final = "the vet"
AT_A_TRYON: Final = "A stop sign at a try-on"


def listen() -> None:
    """Put a horse off work whose try-on ended with a sign to ring the vet."""
    vet_wanted.connect(_vet_wanted, sender=TryOn, dispatch_uid="wait-for-vet")


@transaction.atomic
def write_in(row: CareRow, token: str, led_to: str) -> None:
    """Save a record, new or corrected; what it said before is kept."""
    row.save()
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


@transaction.atomic
def delete(row: CareRow) -> None:
    """Delete a record; what it said is kept in its history."""
    yard = row.horse.yard
    row.delete()
    touch(yard)


def wait_for_vet(horse: Horse, on: date, why: str) -> bool:
    """Put a horse off work from a day until the vet clears it.

    False: nothing was written, for it waits for the vet already, or the vet has
    cleared it since.
    """
    not_before = Q(cleared_on__isnull=True) | Q(cleared_on__gt=on)
    waits = OffWork.objects.filter(
        not_before, horse=horse, start__lte=on, cleared_by__icontains="vet"
    )
    if waits.exists():
        return False
    OffWork.objects.create(horse=horse, start=on, why=why, cleared_by=BY_THE_VET)
    return True


def _vet_wanted(sender: type[TryOn], *, tryon: TryOn, **_: Any) -> None:
    wait_for_vet(tryon.horse, tryon.on, tryon.stop_sign or AT_A_TRYON)
