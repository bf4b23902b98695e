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


def revise(
    before: Sequence[Revised],
    entries: Sequence[Entry],
    *,
    uid_of: Callable[[str], str],
    now: datetime,
    retired: Mapping[str, int] | None = None,
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
        retired: UID to the last sequence of entries that were published once and
            left, see ``retire``; one that returns counts on from there.

    Raises:
        ValueError: ``now`` has no time zone.
    """
    former = {revised.uid: revised for revised in before}
    moment = whole_seconds(now)
    revisions: dict[str, Revised] = {}
    for entry in entries:
        fresh = _fresh(entry, uid_of, moment, retired or {})
        old = former.get(fresh.uid)
        revisions.setdefault(fresh.uid, _counted(old, fresh) if old else fresh)
    return tuple(revisions.values())


def retire(
    retired: Mapping[str, int], before: Sequence[Revised], after: Sequence[Revised]
) -> dict[str, int]:
    """Return UID to last sequence of all that is no longer published."""
    last = {revised.uid: revised.sequence for revised in before}
    here = {revised.uid for revised in after}
    return {u: n for u, n in {**retired, **last}.items() if u not in here}


def _fresh(
    entry: Entry,
    uid_of: Callable[[str], str],
    moment: datetime,
    retired: Mapping[str, int],
) -> Revised:
    uid = uid_of(entry.key)
    return Revised(
        entry=entry,
        uid=uid,
        sequence=retired.get(uid, -1) + 1,
        created=moment,
        changed=moment,
        digest=digest(entry),
        after_uids=tuple(uid_of(key) for key in entry.after),
    )


def _counted(old: Revised, new: Revised) -> Revised:
    same = (old.digest, old.after_uids) == (new.digest, new.after_uids)
    if same:
        return replace(old, entry=new.entry)
    return replace(
        new,
        sequence=old.sequence + 1,
        created=old.created,
        changed=max(new.changed, old.changed + timedelta(seconds=1)),
    )


def whole_seconds(moment: datetime) -> datetime:
    """Return whole seconds of UTC, all that a calendar file can hold.

    Raises:
        ValueError: the moment has no time zone.
    """
    if moment.tzinfo is None:
        raise ValueError(f"a time of revision needs a time zone: {moment}")
    return moment.astimezone(UTC).replace(microsecond=0)
