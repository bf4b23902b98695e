"""The diary as published: entries settle, sequences go up, bodies are stored."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

import msgspec
from django.conf import settings
from django.utils import timezone

from fitting.models import Yard
from starting.diary import Entry, entry_uid, horse_key_of
from starting.feed import (
    FeedHead,
    FeedOptions,
    Revised,
    gzipped,
    render,
    retire,
    revise,
    weak_etag,
)
from starting.models import CalendarKey, DiaryEntry, RetiredEntry, StoredFeed
from starting.outlook import Outlook
from starting.settling import settle


def site_host() -> str:
    """Return the public host, as it stands in every UID."""
    return urlsplit(settings.SITE_URL).hostname or "localhost"


def publish(yard: Yard, outlooks: Sequence[Outlook], today: date) -> None:
    """Settle the diary, count its revisions, and render every calendar link anew."""
    now = timezone.now()
    before = published(yard)
    wanted = [entry for outlook in outlooks for entry in outlook.entries]
    settled = settle(
        [revised.entry for revised in before],
        wanted,
        today,
        only_the_day=yard.planned_version == yard.version,
    )
    retired = dict(yard.retired_entries.values_list("uid", "sequence"))
    host = site_host()
    after = revise(
        before,
        settled,
        uid_of=lambda key: entry_uid(yard.name, key, host),
        now=now,
        retired=retired,
    )
    if after != tuple(before):
        _keep(yard, before, after)
        _keep_retired(yard, retire(retired, before, after))
    for key in yard.calendar_keys.filter(revoked_at__isnull=True):
        store_feed(yard, key, after, now)


def _revised(row: DiaryEntry) -> Revised:
    kept: tuple[Entry, tuple[str, ...]] = msgspec.json.decode(
        row.content, type=tuple[Entry, tuple[str, ...]]
    )
    return Revised(
        entry=kept[0],
        uid=row.uid,
        sequence=row.sequence,
        created=row.created,
        changed=row.changed,
        digest=row.digest,
        after_uids=kept[1],
    )


def _keep(yard: Yard, before: Sequence[Revised], after: Sequence[Revised]) -> None:
    """Write the diary's rows: only those that differ are touched."""
    horses = dict(yard.horses.values_list("key", "pk"))
    former, here = set(before), {revised.entry.key for revised in after}
    gone = [r.entry.key for r in before if r.entry.key not in here]
    yard.diary.filter(key__in=gone).delete()
    DiaryEntry.objects.bulk_create(
        [_row(yard, horses, revised) for revised in after if revised not in former],
        update_conflicts=True,
        unique_fields=["yard", "key"],
        update_fields=[
            "horse", "uid", "sequence", "created", "changed", "digest", "on", "content",
        ],
    )  # fmt: skip


def _row(yard: Yard, horses: dict[str, int], revised: Revised) -> DiaryEntry:
    return DiaryEntry(
        yard=yard,
        horse_id=horses.get(horse_key_of(revised.entry.key)),
        key=revised.entry.key,
        uid=revised.uid,
        sequence=revised.sequence,
        created=revised.created,
        changed=revised.changed,
        digest=revised.digest,
        on=revised.entry.on,
        content=msgspec.json.encode((revised.entry, revised.after_uids)),
    )


def _keep_retired(yard: Yard, retired: dict[str, int]) -> None:
    yard.retired_entries.all().delete()
    RetiredEntry.objects.bulk_create(
        RetiredEntry(yard=yard, uid=uid, sequence=sequence)
        for uid, sequence in retired.items()
    )


def store_feed(
    yard: Yard, key: CalendarKey, entries: Sequence[Revised], now: datetime
) -> None:
    """Render the body of one link; if its bytes stay the same, so does its stamp."""
    body = calendar_body(yard, entries, options_of(key))
    etag, key.valid_until = weak_etag(body), next_midnight(yard, now)
    if key.etag != etag:
        moment = now.replace(microsecond=0)
        if key.changed_at is not None:
            moment = max(moment, key.changed_at + timedelta(seconds=1))
        key.etag, key.changed_at = etag, moment
        StoredFeed.objects.update_or_create(
            calendar_key=key, defaults={"body": body, "gzipped": gzipped(body)}
        )
    key.save(update_fields=["etag", "changed_at", "valid_until"])


def next_midnight(yard: Yard, now: datetime) -> datetime:
    """Return when the next day begins at the yard: then its diary may change."""
    zone = ZoneInfo(yard.timezone)
    tomorrow = now.astimezone(zone).date() + timedelta(days=1)
    return datetime.combine(tomorrow, time(), tzinfo=zone)


def calendar_body(
    yard: Yard, entries: Sequence[Revised], options: FeedOptions
) -> bytes:
    """Return the yard's calendar file."""
    head = FeedHead(
        name=yard.name,
        description=f"What is due at {yard.name}. The site is always right.",
        site_url=settings.SITE_URL,
    )
    return render(head, entries, options)


def options_of(key: CalendarKey) -> FeedOptions:
    """Return what a link asks for."""
    return FeedOptions(
        alarm=key.alarm,
        kinds=tuple(key.kinds),
        horses=tuple(key.horses),
        plain_titles=key.plain_titles,
        revision=key.revision,
        changed=key.options_changed_at,
    )


def published(yard: Yard) -> list[Revised]:
    """Return the diary as it stands published (1 query)."""
    return [_revised(row) for row in yard.diary.all()]
