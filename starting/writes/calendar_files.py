"""The files of calendar links: rendered from the published diary, and stored."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterable, Sequence
from datetime import datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from django.conf import settings

from fitting.models import Yard
from starting.edition import EDITION
from starting.feed import (
    FeedHead,
    FeedOptions,
    Rendered,
    Revised,
    gzipped,
    render_all,
    render_anew,
    weak_etag,
    whole_seconds,
)
from starting.models import CalendarKey, StoredFeed

LOG: Final = logging.getLogger(__name__)


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


def store_feed(
    yard: Yard, key: CalendarKey, entries: Sequence[Revised], now: datetime
) -> None:
    """Render the body of one link; if its bytes stay the same, so does its stamp.

    What did not change is taken from the body that is stored. Where this program, or
    the site's address, writes entries otherwise now, all count as revised.
    """
    stored = StoredFeed.objects.filter(calendar_key=key).order_by()
    kept = next(iter(stored.values_list("body", "written_by")), (b"", ""))
    before, by = bytes(kept[0]), writer(feed_head(yard))
    rendered = _rendered(yard, key, entries, before, doubted=kept[1] != by)
    if rendered.otherwise:
        key.revision += 1
        key.options_changed_at = next_moment(now, entries, [key])
        rendered = _rendered(yard, key, entries, b"", doubted=False)
    body = _said(rendered)
    key.valid_until = next_midnight(yard, now)
    if body != before or key.changed_at is None:
        key.etag, key.changed_at = weak_etag(body), _later(key, now)
        _store(key, body=body, gzipped=gzipped(body), written_by=by)
    elif kept[1] != by:
        stored.update(written_by=by)
    stamps = ["etag", "changed_at", "valid_until", "revision", "options_changed_at"]
    key.save(update_fields=stamps)


def _rendered(
    yard: Yard,
    key: CalendarKey,
    entries: Sequence[Revised],
    body: bytes,
    *,
    doubted: bool,
) -> Rendered:
    head, options = feed_head(yard), options_of(key)
    return render_anew(head, entries, options, body, doubted=doubted)


def _later(key: CalendarKey, now: datetime) -> datetime:
    """Return when a link's file changed: now, or a second after the last time."""
    moment = now.replace(microsecond=0)
    if key.changed_at is None:
        return moment
    return max(moment, key.changed_at + timedelta(seconds=1))


def _store(key: CalendarKey, **file: bytes | str) -> None:
    """Store a link's file; where it had none, another poll may be at it too."""
    if not StoredFeed.objects.filter(calendar_key=key).update(**file):
        StoredFeed.objects.update_or_create(file, calendar_key=key)


def writer(head: FeedHead) -> str:
    """Return by what a file is written: this edition, for this address of the site."""
    by = f"{EDITION} {head.site_url}"
    return hashlib.sha256(by.encode()).hexdigest()[:32]


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
