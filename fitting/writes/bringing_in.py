"""Bring a list of readings in, and take it back."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from django.db import transaction
from simple_history.utils import bulk_create_with_history

from fitting.bringing_in import Entry
from fitting.models import BroughtIn, Horse, Measurement
from fitting.reads.bringing_in import AS_IT_CAME
from fitting.writes.touch import remember_token, touch

ROWS_AT_ONCE = 500


@transaction.atomic
def bring_in(row: BroughtIn, entries: Sequence[Entry], token: str) -> None:
    """Write every measurement of a list in, all of them or nothing."""
    row.came = len(entries)
    row.full_clean(exclude=["yard", "by"])
    row.save()
    horses = {horse.key: horse for horse in row.yard.horses.all()}
    rows = [_measurement(row, entry, horses[entry.horse]) for entry in entries]
    for one in rows:
        one.full_clean(exclude=["horse", "written_by", "brought_in"])
    bulk_create_with_history(
        rows, Measurement, batch_size=ROWS_AT_ONCE, default_user=row.by
    )
    remember_token(row.yard, token, row.get_absolute_url())
    touch(row.yard)


def _measurement(row: BroughtIn, entry: Entry, horse: Horse) -> Measurement:
    return Measurement(
        horse=horse,
        measure=entry.measure,
        on=entry.on,
        method=entry.method,
        readings=[{"written": r.written, "value": r.value} for r in entry.readings],
        who=entry.who,
        same_person=entry.same_person,
        shod=entry.shod,
        note=entry.note,
        written_by=row.by,
        brought_in=row,
        revision=AS_IT_CAME,  # what is made at once does not count itself
    )


@transaction.atomic
def rename_brought(row: BroughtIn, token: str) -> None:
    """Save what a list is called."""
    row.save()
    remember_token(row.yard, token, row.get_absolute_url())


@transaction.atomic
def take_back(row: BroughtIn, also: Collection[str], token: str, led_to: str) -> int:
    """Delete what came with a list; return how many of its measurements are kept.

    What was corrected since is kept, unless ``also`` names it with its revision.
    """
    yard = row.yard
    rows = row.measurements.select_for_update()
    kept = [
        one.pk
        for one in rows
        if one.revision > AS_IT_CAME and f"{one.pk}-{one.revision}" not in also
    ]
    row.measurements.exclude(pk__in=kept).delete()
    if not kept:
        row.delete()
    remember_token(yard, token, led_to)
    touch(yard)
    return len(kept)
