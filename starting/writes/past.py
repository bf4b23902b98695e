"""Entries that have gone from the diary are kept; ticks of plain tasks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Final
from zoneinfo import ZoneInfo

import msgspec
from django.db import transaction

from fitting.models import Horse, Yard
from fitting.writes import touch
from starting.diary import Entry, horse_key_of
from starting.feed import Revised
from starting.models import DiaryTick, PastEntry

# Ours: what lay further ahead when it went was planned away, not done early.
KEPT_AHEAD_DAYS: Final = 60


def keep_past(
    yard: Yard, horses: Mapping[str, int], gone: Sequence[Revised], today: date
) -> None:
    """Keep entries that have gone, as they stood last (2 queries)."""
    until = today + timedelta(days=KEPT_AHEAD_DAYS)
    kept = [
        revised
        for revised in gone
        if revised.entry.on <= until and horse_key_of(revised.entry.key) in horses
    ]
    since = _since(yard, kept)
    PastEntry.objects.bulk_create(
        [
            PastEntry(
                yard=yard,
                horse_id=horses[horse_key_of(revised.entry.key)],
                uid=revised.uid,
                on=revised.entry.on,
                since=min(since[revised.uid], today),
                gone_on=today,
                content=msgspec.json.encode(revised.entry),
            )
            for revised in kept
        ],
        update_conflicts=True,
        unique_fields=["yard", "uid", "on"],
        update_fields=["horse", "since", "gone_on", "content"],
    )


def _since(yard: Yard, gone: Sequence[Revised]) -> dict[str, date]:
    """Return since which day each stood there: not before it last went (1 query)."""
    zone = ZoneInfo(yard.timezone)
    since = {one.uid: one.created.astimezone(zone).date() for one in gone}
    before = PastEntry.objects.filter(yard=yard, uid__in=since)
    for uid, on in before.values_list("uid", "gone_on"):
        since[uid] = max(since[uid], on)
    return since


@transaction.atomic
def tick(horse: Horse, entry: Entry, on: date, who: str) -> DiaryTick:
    """Tick a plain task; a second time it is the same tick, by whoever was first."""
    row, made = DiaryTick.objects.get_or_create(
        horse=horse, key=entry.key, due_on=entry.on, defaults={"on": on, "who": who}
    )
    if made:
        touch(horse.yard)
    return row


@transaction.atomic
def take_tick_back(row: DiaryTick) -> None:
    """Take a tick back: the task is asked again, if it still is one."""
    yard = row.horse.yard
    row.delete()
    touch(yard)
