"""The way up by hand: steps set, cautions passed with a reason, the plan."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.db import transaction

from fitting.models import Horse
from fitting.writes import remember_token, touch
from starting.models import Plan, StageRecord, WentAhead
from starting.reads.setting import set_with


@transaction.atomic
def set_step(record: StageRecord, token: str, led_to: str) -> None:
    """Save a step set by hand: established, or left out."""
    record.save()
    remember_token(record.horse.yard, token, led_to)
    touch(record.horse.yard)


@transaction.atomic
def set_steps(
    horse: Horse, stages: Sequence[str], on: date, note: str, token: str, led_to: str
) -> int:
    """Set many steps established on one day; return how many.

    A step that is set by hand already keeps its own day and note.
    """
    kept = set(horse.stage_records.values_list("stage", flat=True))
    rows = [
        StageRecord(horse=horse, stage=stage, state="established", on=on, note=note)
        for stage in stages
        if stage not in kept
    ]
    for row in rows:
        row.save()
    remember_token(horse.yard, token, led_to)
    touch(horse.yard)
    return len(rows)


@transaction.atomic
def undo_step(record: StageRecord, *, all_of_that_day: bool = False) -> int:
    """Take back a step set by hand, or all that were set with it; return how many."""
    horse = record.horse
    rows = StageRecord.objects.filter(pk=record.pk)
    if all_of_that_day:
        rows = set_with(record)
    gone, _ = rows.delete()
    touch(horse.yard)
    return gone


@transaction.atomic
def go_ahead(row: WentAhead, token: str, led_to: str) -> None:
    """Save why a caution was passed; what was written before is kept."""
    row.save()
    remember_token(row.horse.yard, token, led_to)
    touch(row.horse.yard)


@transaction.atomic
def take_back(row: WentAhead) -> None:
    """Take back that a caution was passed."""
    yard = row.horse.yard
    row.delete()
    touch(yard)


@transaction.atomic
def change_plan(plan: Plan, token: str, led_to: str) -> None:
    """Save how a horse is brought on."""
    plan.save()
    remember_token(plan.horse.yard, token, led_to)
    touch(plan.horse.yard)
