"""What changed since the last publishing: sequences and times of entries."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import astuple, dataclass, replace
from datetime import UTC, datetime, timedelta

from starting.diary import Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Revised:
    """An entry with its revision: what SEQUENCE, CREATED and LAST-MODIFIED say."""

    entry: Entry
    uid: str
    sequence: int
    created: datetime
    changed: datetime
    digest: str
    after_uids: tuple[str, ...] = ()  # UIDs of ``entry.after``


def digest(entry: Entry) -> str:
    """Return the SHA-256 (hex) of what is rendered, without its revision."""
    # since when it is due shows in the title only
    said = astuple(replace(entry, due_since=None))
    return hashlib.sha256(json.dumps(said, default=str).encode()).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """What stays of an entry that left: should it return, it goes on from here.

    Without its times, as older versions kept it, only the sequence goes on.
    """

    sequence: int
    created: datetime | None = None
    changed: datetime | None = None


def revise(
    before: Sequence[Revised],
    entries: Sequence[Entry],
    *,
    uid_of: Callable[[str], str],
    now: datetime,
    retired: Mapping[str, Gone] | None = None,
) -> tuple[Revised, ...]:
    """Return the entries with their revisions, in the order of ``entries``.

    An unchanged entry keeps its revision to the byte, a changed one counts up and is
    changed now (at least a second after the last time), one that is gone is left out.
    Of two entries with one key the first stays.

    Args:
        before: what was published last.
        entries: what is to be published, see ``settling.settle``.
        uid_of: an entry's key to its UID, see ``diary.entry_uid``.
        now: the time of this revision, aware.
        retired: UID to what stays of entries that were published once and left, see
            ``retire``; one that returns counts on from there.

    Raises:
        ValueError: ``now`` has no time zone.
    """
    former = {revised.uid: revised for revised in before}
    moment, gone = whole_seconds(now), retired or {}
    revisions: dict[str, Revised] = {}
    for entry in entries:
        uid = uid_of(entry.key)
        if uid in revisions:
            continue
        after, old = tuple(map(uid_of, entry.after)), former.get(uid)
        same = old and _still(old, entry, after)
        last = old or gone.get(uid)
        revisions[uid] = same or _counted(entry, uid, after, moment, last)
    return tuple(revisions.values())


def retire(
    retired: Mapping[str, Gone], before: Sequence[Revised], after: Sequence[Revised]
) -> dict[str, Gone]:
    """Return UID to what stays of all that is no longer published."""
    here = {revised.uid for revised in after}
    left = {
        revised.uid: Gone(
            sequence=revised.sequence, created=revised.created, changed=revised.changed
        )
        for revised in before
        if revised.uid not in here
    }
    return {uid: gone for uid, gone in retired.items() if uid not in here} | left


def _still(old: Revised, entry: Entry, after: tuple[str, ...]) -> Revised | None:
    """Return the revision that stands, if the entry says the same as it did."""
    if old.after_uids != after:
        return None
    if old.entry == entry:
        return old
    # or it is due since another day, see ``digest``
    return replace(old, entry=entry) if old.digest == digest(entry) else None


def _counted(
    entry: Entry,
    uid: str,
    after: tuple[str, ...],
    moment: datetime,
    last: Revised | Gone | None,
) -> Revised:
    """Return the next revision of an entry, or its first."""
    changed = moment
    if last is not None and last.changed is not None:
        changed = max(moment, last.changed + timedelta(seconds=1))
    return Revised(
        entry=entry,
        uid=uid,
        sequence=0 if last is None else last.sequence + 1,
        created=(last.created if last is not None else None) or moment,
        changed=changed,
        digest=digest(entry),
        after_uids=after,
    )


def whole_seconds(moment: datetime) -> datetime:
    """Return whole seconds of UTC, all that a calendar file can hold.

    Raises:
        ValueError: the moment has no time zone.
    """
    if moment.tzinfo is None:
        raise ValueError(f"a time of revision needs a time zone: {moment}")
    if moment.tzinfo is UTC and not moment.microsecond:
        return moment
    return moment.astimezone(UTC).replace(microsecond=0)
