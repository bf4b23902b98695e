"""The diary as published: entries settle, sequences go up, bodies are stored."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from typing import Final
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

import msgspec
from django.conf import settings
from django.db.models import TextField
from django.db.models.functions import Cast
from django.utils import timezone

from fitting.models import Yard
from starting.diary import Entry, entry_uid, horse_key_of
from starting.feed import (
    FeedHead,
    FeedOptions,
    Gone,
    Rendered,
    Revised,
    gzipped,
    render_all,
    render_anew,
    retire,
    revise,
    weak_etag,
    whole_seconds,
)
from starting.models import CalendarKey, DiaryEntry, RetiredEntry, StoredFeed
from starting.settling import settle
from starting.writes.past import keep_past

LOG: Final = logging.getLogger(__name__)
# As text: to read times one by one takes longer than all else of a diary's rows.
CREATED: Final = Cast("created", TextField())
CHANGED: Final = Cast("changed", TextField())
CONTENT: Final = msgspec.json.Decoder(tuple[Entry, tuple[str, ...]])


def site_host() -> str:
    """Return the public host, as it stands in every UID."""
    return urlsplit(settings.SITE_URL).hostname or "localhost"


def uid_at(yard: Yard, key: str) -> str:
    """Return an entry's UID: by the yard's address, which stays when it is renamed."""
    return entry_uid(yard.slug, key, site_host())


def publish(yard: Yard, wanted: Iterable[Entry], today: date) -> None:
    """Settle the diary, count its revisions, and render every calendar link anew."""
    now = timezone.now()
    before, wanted = published(yard), tuple(wanted)
    retired = retired_of(yard, before, wanted)
    keys = list(yard.calendar_keys.filter(revoked_at__isnull=True))
    moment = next_moment(now, before, keys)
    after = next_diary(yard, before, retired, wanted, today, moment)
    if after != before:
        _keep(yard, before, after, today)
        _keep_retired(yard, retired, retire(retired, before, after))
    for key in keys:
        store_feed(yard, key, after, now)


def next_moment(
    now: datetime, diary: Iterable[Revised], keys: Iterable[CalendarKey]
) -> datetime:
    """Return when the next revision is: now, or a second after the last one.

    Some programs look at LAST-MODIFIED alone, and a link's own revision counts there
    too: it goes up even where the clock of the machine was set back.
    """
    entries = [revised.changed for revised in diary]
    links = [key.options_changed_at for key in keys if key.options_changed_at]
    last = max((*entries, *links), default=None)
    moment = whole_seconds(now)
    return moment if last is None else max(moment, last + timedelta(seconds=1))


def next_diary(
    yard: Yard,
    before: Sequence[Revised],
    retired: Mapping[str, Gone],
    wanted: Iterable[Entry],
    today: date,
    moment: datetime,
) -> list[Revised]:
    """Return the diary as it is to be published."""
    settled = settle(
        [revised.entry for revised in before],
        tuple(wanted),
        today,
        only_the_day=yard.planned_version == yard.version,
    )
    slug, host = yard.slug, site_host()
    return list(
        revise(
            before,
            settled,
            uid_of=lambda key: entry_uid(slug, key, host),
            now=moment,
            retired=retired,
        )
    )


def _keep(
    yard: Yard, before: Sequence[Revised], after: Sequence[Revised], today: date
) -> None:
    """Write the diary's rows: only those that differ are touched."""
    horses = dict(yard.horses.values_list("key", "pk"))
    former = {revised.entry.key: revised for revised in before}
    gone = former.keys() - {revised.entry.key for revised in after}
    if gone:
        keep_past(yard, horses, [former[key] for key in sorted(gone)], today)
        yard.diary.filter(key__in=gone).delete()
    DiaryEntry.objects.bulk_create(
        [
            _row(yard, horses, revised)
            for revised in after
            if revised != former.get(revised.entry.key)
        ],
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


def _keep_retired(
    yard: Yard, before: Mapping[str, Gone], after: Mapping[str, Gone]
) -> None:
    """Write what stays of entries that left: only rows that differ are touched."""
    back, left = before.keys() - after.keys(), after.keys() - before.keys()
    if back:
        yard.retired_entries.filter(uid__in=back).delete()
    if left:
        RetiredEntry.objects.bulk_create(
            (_retired(yard, uid, after[uid]) for uid in sorted(left)),
            update_conflicts=True,
            unique_fields=["yard", "uid"],
            update_fields=["sequence", "created", "changed"],
        )


def _retired(yard: Yard, uid: str, gone: Gone) -> RetiredEntry:
    return RetiredEntry(
        yard=yard,
        uid=uid,
        sequence=gone.sequence,
        created=gone.created,
        changed=gone.changed,
    )


def retired_of(
    yard: Yard, before: Iterable[Revised], wanted: Iterable[Entry]
) -> dict[str, Gone]:
    """Return what stays of wanted entries that left once, by UID (at most 1 query)."""
    here, slug, host = {revised.uid for revised in before}, yard.slug, site_host()
    new = {entry_uid(slug, entry.key, host) for entry in wanted} - here
    if not new:
        return {}
    left = yard.retired_entries.filter(uid__in=new)
    rows = left.values_list("uid", "sequence", "created", "changed")
    return {
        uid: Gone(sequence=sequence, created=created, changed=changed)
        for uid, sequence, created, changed in rows
    }


def store_feed(
    yard: Yard, key: CalendarKey, entries: Sequence[Revised], now: datetime
) -> None:
    """Render the body of one link; if its bytes stay the same, so does its stamp.

    What did not change is taken from the body that is stored. Where this program, or
    the site's address, writes entries otherwise now, all count as revised.
    """
    stored = StoredFeed.objects.filter(calendar_key=key).order_by()
    before = bytes(next(iter(stored.values_list("body", flat=True)), b""))
    rendered = render_anew(feed_head(yard), entries, options_of(key), before)
    if rendered.otherwise:
        key.revision += 1
        key.options_changed_at = next_moment(now, entries, [key])
        rendered = render_anew(feed_head(yard), entries, options_of(key), b"")
    body = _said(rendered)
    key.valid_until = next_midnight(yard, now)
    if body != before or key.changed_at is None:
        moment = now.replace(microsecond=0)
        if key.changed_at is not None:
            moment = max(moment, key.changed_at + timedelta(seconds=1))
        key.etag, key.changed_at = weak_etag(body), moment
        packed = gzipped(body)
        if not (before and stored.update(body=body, gzipped=packed)):
            # another poll may be at it too
            said = {"body": body, "gzipped": packed}
            StoredFeed.objects.update_or_create(said, calendar_key=key)
    stamps = ["etag", "changed_at", "valid_until", "revision", "options_changed_at"]
    key.save(update_fields=stamps)


def next_midnight(yard: Yard, now: datetime) -> datetime:
    """Return when the next day begins at the yard: then its diary may change."""
    zone = ZoneInfo(yard.timezone)
    tomorrow = now.astimezone(zone).date() + timedelta(days=1)
    return datetime.combine(tomorrow, time(), tzinfo=zone)


def calendar_body(
    yard: Yard, entries: Sequence[Revised], options: FeedOptions
) -> bytes:
    """Return the yard's calendar file."""
    return _said(render_all(feed_head(yard), entries, options))


def _said(rendered: Rendered) -> bytes:
    if rendered.skipped:
        LOG.warning("Left out of a calendar file: %s", ", ".join(rendered.skipped))
    return rendered.body


def feed_head(yard: Yard) -> FeedHead:
    """Return what stands at the head of the yard's calendar files."""
    return FeedHead(
        name=yard.name,
        description=f"What is due at {yard.name}. The site is always right.",
        site_url=settings.SITE_URL,
    )


def options_of(key: CalendarKey) -> FeedOptions:
    """Return what a link asks for."""
    return FeedOptions(
        alarm=key.alarm,
        kinds=tuple(key.kinds),
        horses=tuple(key.horses),
        plain_titles=key.plain_titles,
        as_tasks=key.as_tasks,
        revision=key.revision,
        changed=key.options_changed_at,
    )


def published(yard: Yard) -> list[Revised]:
    """Return the diary as it stands published, by day and key (1 query)."""
    rows = yard.diary.order_by().values_list(
        "uid", "sequence", CREATED, CHANGED, "digest", "content"
    )
    diary = (_revised(*row) for row in rows)
    return sorted(diary, key=lambda revised: (revised.entry.on, revised.entry.key))


@lru_cache(maxsize=2048)  # a yard is published again and again
def _revised(
    uid: str,
    sequence: int,
    created: str,
    changed: str,
    digest: str,
    content: bytes | memoryview,
) -> Revised:
    entry, after_uids = CONTENT.decode(content)
    return Revised(
        entry=entry,
        uid=uid,
        sequence=sequence,
        created=_moment(created),
        changed=_moment(changed),
        digest=digest,
        after_uids=after_uids,
    )


def _moment(text: str) -> datetime:
    """Return a time as the database writes it; without a zone it is UTC."""
    moment = datetime.fromisoformat(text)
    return moment.astimezone(UTC) if moment.tzinfo else moment.replace(tzinfo=UTC)
