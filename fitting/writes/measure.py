"""Write measurements in, correct them, delete them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction

from fitting.models import Horse, Measurement
from fitting.readings import Reading
from fitting.writes.touch import remember_token, touch


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """When and by whom it was measured; ``by`` is who writes it in."""

    on: date
    who: str = ""
    same_person: bool = False
    shod: bool = False
    by: User | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """The readings of one measure by one method."""

    measure: str
    method: str
    readings: tuple[Reading, ...]


@transaction.atomic
def write_measurements(
    horse: Horse, taken: Sequence[Readings], occasion: Occasion, token: str
) -> list[Measurement]:
    """Save what was measured on one walk round the horse: all of it, or nothing."""
    rows = [_row(horse, one, occasion) for one in taken]
    for row in rows:
        row.full_clean(exclude=["horse", "written_by"])
        row.save()
    remember_token(horse.yard, token, horse.get_absolute_url())
    touch(horse.yard)
    return rows


def _row(horse: Horse, taken: Readings, occasion: Occasion) -> Measurement:
    return Measurement(
        horse=horse,
        measure=taken.measure,
        method=taken.method,
        readings=[{"written": r.written, "value": r.value} for r in taken.readings],
        on=occasion.on,
        who=occasion.who,
        same_person=occasion.same_person,
        shod=occasion.shod,
        written_by=occasion.by,
    )


@transaction.atomic
def correct_measurement(row: Measurement, token: str, led_to: str) -> None:
    """Save a corrected or struck out measurement; what it said before is kept."""
    row.save()
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


@transaction.atomic
def delete_measurement(row: Measurement) -> None:
    """Delete a measurement."""
    yard = row.horse.yard
    row.delete()
    touch(yard)
