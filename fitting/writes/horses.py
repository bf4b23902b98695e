"""Write a horse in, correct it, delete it."""

from __future__ import annotations

from django.db import transaction
from django.urls import reverse

from fitting.models import Horse
from fitting.signals import horse_written
from fitting.writes.touch import free_key, remember_token, touch


@transaction.atomic
def add_horse(horse: Horse, token: str, led_to: str = "fitting:horse") -> Horse:
    """Save a new horse with an address of its own.

    ``led_to`` names the address of the horse that a retry is led to.
    """
    taken = set(horse.yard.horses.values_list("key", flat=True))
    horse.key = free_key(horse.name, taken)
    horse.save()
    horse_written.send(Horse, horse=horse)
    onward = reverse(led_to, args=[horse.yard.slug, horse.key])
    remember_token(horse.yard, token, onward)
    touch(horse.yard)
    return horse


@transaction.atomic
def correct_horse(horse: Horse, token: str) -> None:
    """Save a changed horse; its address stays."""
    horse.save()
    horse_written.send(Horse, horse=horse)
    remember_token(horse.yard, token, horse.get_absolute_url())
    touch(horse.yard)


@transaction.atomic
def delete_horse(horse: Horse) -> None:
    """Delete a horse and everything that was written about it."""
    yard = horse.yard
    horse.delete()
    touch(yard)
