"""The first horse of a yard, and its first measurement."""

from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction
from django.urls import reverse

from fitting.models import Horse, Measurement
from fitting.readings import Reading
from fitting.units import Length
from fitting.writes import remember_token
from fitting.writes.horses import add_horse
from fitting.writes.measure import Occasion, Readings, write_measurement


@transaction.atomic
def stable_horse(horse: Horse, token: str) -> str:
    """Save a new horse, with its plan if it is a youngster; return where to go on."""
    add_horse(horse, token="")
    onward = reverse("first-measurement", args=[horse.yard.slug, horse.key])
    remember_token(horse.yard, token, onward)
    return onward


def write_height(
    horse: Horse, sizes: Sequence[Length], method: str, occasion: Occasion, token: str
) -> Measurement:
    """Save the readings of the withers height, as typed and in millimetres."""
    readings = tuple(Reading(written=s.written, value=s.mm) for s in sizes)
    taken = Readings(measure="withers_height", method=method, readings=readings)
    return write_measurement(horse, taken, occasion, token)
