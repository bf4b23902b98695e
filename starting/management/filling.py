"""A yard filled for measuring: the demo's horses and tack, many times over."""

from __future__ import annotations

from fitting.models import Part, Tack, Yard


def copy_horse(yard: Yard, pk: int, name: str) -> None:
    """Copy a horse with all its records."""
    horse = yard.horses.get(pk=pk)
    kept = {
        relation: list(getattr(horse, relation).all())
        for relation in ("measurements", "sessions", "care", "stage_records", "tryons")
    }
    plan = horse.plan
    horse.pk, horse.name, horse.key = None, name, name.lower().replace(" ", "-")
    horse.save()
    for rows in kept.values():
        for row in rows:
            row.pk, row.horse = None, horse
        type(rows[0]).objects.bulk_create(rows)
    plan.pk, plan.horse = None, horse
    plan.save()


def fill_room(yard: Yard, items: int) -> None:
    """Hang up copies of the demo's tack, each a little longer or shorter."""
    rows = list(yard.tack.prefetch_related("parts"))
    for number in range(items - len(rows)):
        old = rows[number % len(rows)]
        parts = list(old.parts.all())
        key, name = f"{old.key}-{number}", f"{old.name} {number}"
        item = Tack.objects.create(yard=yard, key=key, name=name, kind=old.kind)
        for part in parts:
            part.pk, part.tack = None, item
            if part.length_mm:
                part.length_mm *= 1 + (number % 17 - 8) / 100
        Part.objects.bulk_create(parts)
