"""Plan a yard again: after a write, or at the first read of a new day."""

from __future__ import annotations

import logging
import zlib
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any, Final

import msgspec
from django.db import transaction
from django.db.models import F, Q
from django.utils import timezone

from fitting.models import Horse, Yard
from fitting.reads.today import today_in
from fitting.signals import horse_written, yard_changed
from fitting.who_fits import FitsLook, item_looks
from starting.edition import EDITION
from starting.models import StoredOutlook
from starting.outlook import Outlook, brief_of, look_at_yard
from starting.reads.facts import yard_facts
from starting.writes.moves import keep_moves
from starting.writes.plans import give_plan
from starting.writes.publish import publish

LOG: Final = logging.getLogger(__name__)
CLAIM_LASTS: Final = timedelta(minutes=2)  # then another process may take over
TRIES: Final = 3  # a yard that changes while it is planned is planned once more


def listen() -> None:
    """Plan a yard again whenever it changed; give youngsters their programme."""
    yard_changed.connect(_changed, sender=Yard, dispatch_uid="replan")
    horse_written.connect(_horse_written, sender=Horse, dispatch_uid="give-plan")


def _changed(sender: type[Yard], *, yard: int, **_: Any) -> None:
    row = Yard.objects.filter(pk=yard).first()
    if row is not None:
        ensure_planned(row)


def _horse_written(sender: type[Horse], *, horse: Horse, **_: Any) -> None:
    give_plan(horse)


def ensure_planned(yard: Yard) -> None:
    """Plan the yard if it changed, or if a new day has begun.

    A fault is logged and never shown: the outlooks of before go on to serve. Where
    it stays unplanned, the next poll of its calendar asks again.
    """
    today = today_in(yard)
    if is_planned(yard, today):
        return
    try:
        replan(yard, today)
    except Exception:
        LOG.exception("Planning yard %s failed; the old outlooks serve on.", yard.pk)
    ask_again(yard, today)


def is_planned(yard: Yard, today: date) -> bool:
    """Whether the yard's plan is of this day, and knows all that was written."""
    return yard.planned_version == yard.version and yard.planned_on == today


def ask_again(yard: Yard, today: date) -> None:
    """Let the next poll of its calendar plan the yard, where it stays unplanned."""
    unplanned = ~Q(yard__planned_version=F("yard__version"), yard__planned_on=today)
    yard.calendar_keys.filter(unplanned).update(valid_until=None)


def replan(yard: Yard, today: date) -> bool:
    """Compute and store every outlook of a yard; return False if others are at it."""
    claim = timezone.now()
    if not _claimed(yard, claim):
        return False
    try:
        for _ in range(TRIES):
            if _plan_once(yard, today, claim):
                break
    finally:
        mine = Yard.objects.filter(pk=yard.pk, planning_since=claim)
        mine.update(planning_since=None)
        yard.refresh_from_db()
    return True


def _claimed(yard: Yard, claim: datetime) -> bool:
    """Whether the planning is ours now: nobody is at it, or not for too long."""
    free = Q(planning_since__isnull=True) | Q(planning_since__lt=claim - CLAIM_LASTS)
    return bool(Yard.objects.filter(free, pk=yard.pk).update(planning_since=claim))


def _plan_once(yard: Yard, today: date, claim: datetime) -> bool:
    """Plan once; return whether that is enough.

    It is where the yard stayed as it was meanwhile, or where another process has
    taken the claim over: then nothing is stored here.
    """
    yard.refresh_from_db()
    outlooks = look_at_yard(yard_facts(yard), today)
    with transaction.atomic():
        locked = Yard.objects.select_for_update().filter(planning_since=claim)
        if locked.filter(pk=yard.pk).first() is None:
            return True
        _store(yard, outlooks)
        keep_moves(yard, outlooks, today)
        entries = (entry for outlook in outlooks for entry in outlook.entries)
        publish(yard, entries, today)
        Yard.objects.filter(pk=yard.pk).update(
            planned_version=yard.version, planned_on=today, planned_by=EDITION
        )
    return Yard.objects.filter(pk=yard.pk, version=yard.version).exists()


def _store(yard: Yard, outlooks: Sequence[Outlook]) -> None:
    """Store one outlook a horse, with the version and the day it stands for."""
    keys = dict(yard.horses.values_list("key", "pk"))
    rows = [
        StoredOutlook(
            horse_id=keys[outlook.key],
            version=yard.version,
            on=outlook.on,
            brief=msgspec.json.encode(brief_of(outlook)),
            fits=msgspec.json.encode(_fits(outlook)),
            content=zlib.compress(msgspec.json.encode(outlook)),
        )
        for outlook in outlooks
        if outlook.key in keys
    ]
    StoredOutlook.objects.bulk_create(
        rows,
        update_conflicts=True,
        unique_fields=["horse"],
        update_fields=["version", "on", "brief", "fits", "content"],
    )


def _fits(outlook: Outlook) -> FitsLook:
    """Return what all tack is on a horse, for the pages that show every horse's."""
    return FitsLook(items=item_looks(outlook.fits), tooth_change=outlook.tooth_change)
