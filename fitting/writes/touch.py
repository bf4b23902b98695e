"""A write bumps the yard's version; the yard is planned again after the commit."""

from __future__ import annotations

from django.db import transaction
from django.db.models import F
from django.utils.text import slugify

from fitting.models import WrittenOnce, Yard
from fitting.models.yard import RESERVED_SLUGS
from fitting.signals import yard_changed


def touch(yard: Yard) -> None:
    """Bump the yard's version, and say so once the transaction is committed."""
    Yard.objects.filter(pk=yard.pk).update(version=F("version") + 1)
    transaction.on_commit(lambda: yard_changed.send(Yard, yard=yard.pk))


def remember_token(yard: Yard, token: str, led_to: str) -> None:
    """Remember the token of a form that was saved; an empty one is not kept."""
    if token:
        WrittenOnce.objects.create(yard=yard, token=token[:40], led_to=led_to)


def free_key(name: str, taken: set[str] | frozenset[str]) -> str:
    """Return a short key for the address, made from a name and not yet taken."""
    stem = slugify(name)[:50].strip("-") or "x"
    key, number = stem, 2
    while key in taken or key in RESERVED_SLUGS:
        key, number = f"{stem}-{number}", number + 1
    return key
