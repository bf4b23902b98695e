"""Keep a photo of a day, correct what is said of it, take it away with its files."""

from __future__ import annotations

import secrets
from functools import partial
from typing import Any

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import transaction
from django.db.models.signals import post_delete

from fitting.models import Photo
from fitting.photos import Picture
from fitting.writes.touch import remember_token, touch


def add_photo(row: Photo, picture: Picture, token: str, led_to: str) -> None:
    """Save a photo with its files, under names that nobody can guess.

    A row that is not saved leaves no files behind.
    """
    name = secrets.token_urlsafe(24)
    row.width, row.height = picture.width, picture.height
    row.image.save(f"{name}.jpg", ContentFile(picture.whole), save=False)
    row.small.save(f"{name}-small.jpg", ContentFile(picture.small), save=False)
    try:
        correct_photo(row, token, led_to)
    except BaseException:
        _take_away(row.image.name, row.small.name)
        raise


@transaction.atomic
def correct_photo(row: Photo, token: str, led_to: str) -> None:
    """Save the day and the note of a photo."""
    row.save()
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


@transaction.atomic
def delete_photo(row: Photo) -> None:
    """Delete a photo; its files go once that is certain."""
    yard = row.horse.yard
    row.delete()
    touch(yard)


def listen() -> None:
    """Take the files away with their row, whatever it was deleted with."""
    post_delete.connect(_gone, sender=Photo, dispatch_uid="photo-files")


def _gone(instance: Photo, using: str, **_: Any) -> None:
    names = instance.image.name, instance.small.name
    # A file that cannot be deleted must not undo what is done: it is logged.
    transaction.on_commit(partial(_take_away, *names), using=using, robust=True)


def _take_away(*names: str | None) -> None:
    for name in filter(None, names):
        default_storage.delete(name)
