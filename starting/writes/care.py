"""Care visits, rests, off work, incidents: written in, corrected, deleted."""

from __future__ import annotations

from django.db import transaction

from fitting.writes import remember_token, touch
from starting.models.care import CareRow


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
