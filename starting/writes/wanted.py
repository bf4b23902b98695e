"""Tick off what was got, and take a tick back."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from fitting.models import Horse
from fitting.writes import touch
from starting.models import Bought


@transaction.atomic
def tick(horse: Horse, kind: str, part: str, on: date) -> Bought:
    """Write that a thing was got, on a day; a second time that day it is the same."""
    row, made = Bought.objects.get_or_create(horse=horse, kind=kind, part=part, on=on)
    if made:
        touch(horse.yard)
    return row


@transaction.atomic
def take_tick_back(row: Bought) -> None:
    """Take a tick back: what it ticked off is to be got again."""
    yard = row.horse.yard
    row.delete()
    touch(yard)
