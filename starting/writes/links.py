"""Calendar links: made, changed, ended; only the hash of a secret is kept."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Mapping
from typing import Any, Final

from django.conf import settings
from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from fitting.models import Yard
from fitting.reads.today import today_in
from starting.models import CalendarKey
from starting.writes.calendar_files import next_moment, store_feed
from starting.writes.publish import published
from starting.writes.replan import ask_again, ensure_planned, is_planned

OPTIONS: Final = ("alarm", "kinds", "horses", "plain_titles", "as_tasks")


def key_hash(secret: str) -> str:
    """Return what is kept of a link's secret."""
    return hashlib.sha256(secret.encode()).hexdigest()


def address_of(secret: str) -> str:
    """Return the whole address of a link, to be shown once."""
    return f"{settings.SITE_URL}{reverse('calendar', args=[secret])}"


@transaction.atomic
def make_link(
    yard: Yard, *, label: str, options: Mapping[str, Any], secret: str = ""
) -> tuple[CalendarKey, str]:
    """Make a link and store its first body; return it with its secret."""
    secret = secret or secrets.token_urlsafe(32)
    key = CalendarKey(yard=yard, label=label, key_hash=key_hash(secret), **options)
    key.full_clean()
    key.save()
    store_feed(yard, key, published(yard), timezone.now())
    return key, secret


def catch_up(link: int) -> None:
    """Plan the yard of a link if that is due, which writes all its links' files.

    A link made by hand, opened again or restored after that has no file, or an old
    one: it is written from the diary as it stands. Without a plan an old one serves on.
    """
    yard = Yard.objects.filter(calendar_keys=link).first()
    if yard is None:  # deleted meanwhile
        return
    ensure_planned(yard)
    key = CalendarKey.objects.filter(pk=link).first()
    if key is None:
        return
    stands = key.valid_until is not None and key.valid_until > timezone.now()
    if key.changed_at is None or (is_planned(yard, today_in(yard)) and not stands):
        store_again(link)


@transaction.atomic
def store_again(link: int) -> None:
    """Store a link's file where it is missing."""
    key = CalendarKey.objects.select_related("yard").get(pk=link)
    store_feed(key.yard, key, published(key.yard), timezone.now())
    ask_again(key.yard, today_in(key.yard))


@transaction.atomic
def change_link(key: CalendarKey, *, label: str, options: Mapping[str, Any]) -> None:
    """Change what a link shows; its entries then count as revised."""
    changed = {n: v for n, v in options.items() if getattr(key, n) != v}
    now, diary = timezone.now(), published(key.yard)
    key.label = label
    for name, value in changed.items():
        setattr(key, name, value)
    if changed:
        key.revision += 1
        key.options_changed_at = next_moment(now, diary, [key])
    key.full_clean()
    key.save()
    store_feed(key.yard, key, diary, now)


@transaction.atomic
def end_link(key: CalendarKey) -> None:
    """End a link for ever: whoever still asks is told that it has gone (410)."""
    key.revoked_at = timezone.now()
    key.save(update_fields=["revoked_at"])


@transaction.atomic
def renew_link(key: CalendarKey) -> tuple[CalendarKey, str]:
    """End a link and make another with the same label and options.

    Its revision goes on too: the new address may be put into the same calendar.
    """
    end_link(key)
    going_on = (*OPTIONS, "revision", "options_changed_at")
    options = {name: getattr(key, name) for name in going_on}
    return make_link(key.yard, label=key.label, options=options)
