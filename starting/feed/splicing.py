"""A calendar file is written anew: what did not change is taken from the last one."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import lru_cache
from typing import Final

from starting.feed import rendering
from starting.feed.rendering import FeedHead, FeedOptions, Rendered, revision_of
from starting.feed.revision import Revised
from starting.feed.wire import folded

# Text cannot look like a property: its line ends are escaped, its folds begin blank.
_BEGIN: Final = re.compile(rb"\r\nBEGIN:V(?:EVENT|TODO)\r\n")
_END: Final = b"\r\nEND:VCALENDAR\r\n"
_BEFORE: Final = b"\r\nDTSTAMP:"  # the time, UID and SEQUENCE stand together ...
_AFTER: Final = b"\r\nCATEGORIES:"  # ... up to here


def render_anew(
    head: FeedHead,
    entries: Sequence[Revised],
    options: FeedOptions,
    body: bytes,
    *,
    doubted: bool = False,
) -> Rendered:
    """Return the whole calendar file, as ``render_all`` does, much sooner.

    An event that stands in ``body`` in its present revision is taken over. Where that
    is ``doubted``, as another edition of the program wrote it, or for another address
    of the site, all of them are written again to compare. Should one differ, nothing is
    taken over; that is said, as a calendar program may look at revisions only.
    """
    kept = events_by_stamp(body)
    chosen = rendering.wanted(entries, options)
    otherwise = doubted and _written_otherwise(chosen, options, head, kept)
    if otherwise:
        kept = {}
    events: list[bytes] = []
    skipped: list[str] = []
    for revised in chosen:
        event = kept.get(_stamp(revised, options)) or rendering.try_event(
            revised, options, head
        )
        if event is None:
            skipped.append(revised.entry.key)
        else:
            events.append(event)
    return Rendered(
        body=rendering.splice(rendering.render_head(head), events),
        skipped=tuple(skipped),
        otherwise=otherwise,
    )


def events_by_stamp(body: bytes) -> dict[bytes, bytes]:
    """Return the events of a file of ours, each by what says its UID and revision."""
    first = _BEGIN.search(body)
    if first is None:
        return {}
    begin = first[0]  # a file holds events or tasks, never both
    events = body.removesuffix(_END).split(begin)[1:]
    return {_stamp_in(event): begin[2:] + event + b"\r\n" for event in events}


def _stamp_in(event: bytes) -> bytes:
    begins = event.find(_BEFORE)
    return event[begins : event.find(_AFTER, begins)]


def _stamp(revised: Revised, options: FeedOptions) -> bytes:
    """Return the lines of an event that say its UID and revision."""
    sequence, changed = revision_of(revised, options)
    moment, uid = _written(changed), _uid_line(revised.uid)
    return b"%s%s\r\n%sSEQUENCE:%d" % (_BEFORE, moment, uid, sequence)


@lru_cache(maxsize=8192)  # a yard is published again and again
def _uid_line(uid: str) -> bytes:
    return folded(f"UID:{uid}")


@lru_cache(maxsize=1024)  # a diary written at once has one moment
def _written(moment: datetime) -> bytes:
    return f"{moment:%Y%m%dT%H%M%SZ}".encode()


def _written_otherwise(
    chosen: Sequence[Revised],
    options: FeedOptions,
    head: FeedHead,
    kept: Mapping[bytes, bytes],
) -> bool:
    return any(
        event is not None and event != rendering.try_event(revised, options, head)
        for revised in chosen
        for event in (kept.get(_stamp(revised, options)),)
    )
