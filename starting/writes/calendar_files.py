"""The files of calendar links: rendered from the published diary, and stored."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Sequence
from datetime import datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from django.conf import settings

from fitting.models import Yard
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
