"""What a try-on taught, and what changed with it, once it is written in."""

from __future__ import annotations

from dataclasses import dataclass

from fitting.changes import changes, stands_now
from fitting.contradictions import measured_sentence, taught_sentence
from fitting.looks import Seen
from fitting.models import Horse, TryOn
from fitting.reads.growth import subject_of, tried_on
from fitting.reads.outlook import seen_of
from fitting.reads.units import units_of
from fitting.taught import lessons_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What a try-on taught and changed; ``apart``: what the tape says against it."""

    changed: tuple[str, ...]
    apart: tuple[str, ...]


def meaning_of(row: TryOn, before: Seen | None) -> Meaning:
    """Return what a try-on taught, how its tack stands and what else changed.

    11 queries: the horse with its outlook, and what growth rests on but measurements.
    """
    horse = row.horse
    record = f"tried/{row.pk}/"
    lessons = lessons_of(subject_of(horse), tried_on(horse))
    taught = [lesson for lesson in lessons if lesson.record == record]
    after = seen_of(Horse.objects.get(pk=horse.pk))
    units = units_of(horse.yard)
    stands = stands_now(before, after, row.item_name, units.length)
    moved = changes(before, after, units.length)
    others = (said for said in moved if said != stands)
    so = taught_sentence(taught, units)
    return Meaning(
        changed=tuple(filter(None, (so, stands, *others))),
        apart=_apart(after, record, horse),
    )


def _apart(after: Seen | None, record: str, horse: Horse) -> tuple[str, ...]:
    """Return both sides, where the try-on and the measurements do not agree."""
    units = units_of(horse.yard)
    found = after.contradictions if after else ()
    return tuple(
        f"That does not agree with the tape. {measured_sentence(one, units)}"
        for one in found
        if one.record == record
    )


def changed_since(row: TryOn, before: Seen | None) -> tuple[str, ...]:
    """Return what changed for the tack since a look at the horse (2 queries)."""
    after = seen_of(Horse.objects.get(pk=row.horse_id))
    return changes(before, after, units_of(row.horse.yard).length)
