"""The diary as published: entries settle, and their sequences go up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, date, datetime
from functools import lru_cache
from typing import Final
from urllib.parse import urlsplit

import msgspec
from django.conf import settings
from django.db.models import TextField
from django.db.models.functions import Cast
from django.utils import timezone

from fitting.models import Yard
from starting.diary import Entry, entry_uid, horse_key_of
from starting.edition import EDITION
from starting.feed import Gone, Revised, retire, revise
from starting.models import DiaryEntry, RetiredEntry
from starting.settling import settle
from starting.writes.calendar_files import next_moment, store_feed
from starting.writes.past import keep_past

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
        only_the_day=(yard.planned_version, yard.planned_by) == (yard.version, EDITION),
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
