"""What was seen of tack on horses: try-ons, and sessions that said how it sat."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import QuerySet

from fitting.models import Horse, Tack, TackSet, TryOn, TryOnPart, Yard
from fitting.nose_gap import gap_words
from fitting.pieces import part_word
from fitting.signals import tryons_asked, yard_tryons_asked
from fitting.tryons import TryOn as TryOnFact


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedRow:
    """One try-on, as a row.

    ``pk`` 0: it was not written in as one, but is told by another record, whose page
    lies at ``record`` below the horse's own pages. ``photo``: one was taken that day.
    """

    pk: int
    horse: str
    horse_key: str
    item: str
    on: date
    how: str
    answer: str
    seen: str
    who: str = ""
    note: str = ""
    stop: str = ""
    stop_sign: str = ""
    struck: str = ""
    record: str = ""
    photo: bool = False

    @property
    def ring_vet(self) -> bool:
        """Whether the vet was to be rung."""
        return self.stop == TryOn.Stop.RING_VET.label and not self.struck


def tried_on_horse(horse: Horse) -> tuple[TriedRow, ...]:
    """Return what was tried on a horse, the newest first (6 queries).

    Try-ons with their parts, photos, and what sessions and visits tell of tack.
    """
    told: list[tuple[Any, Any]] = tryons_asked.send(Horse, horse=horse)
    others = (_told_row(tryon, horse) for _, all_told in told for tryon in all_told)
    days = set(horse.photos.values_list("on", flat=True))
    rows = _kept(horse.tryons.all(), horse.yard, days)
    return _newest_first((*rows, *(row for row in others if row.record)))


def tried_rows(row: Tack | TackSet) -> tuple[TriedRow, ...]:
    """Return whom an item, or a set, was tried on, the newest first (6 queries)."""
    told: list[tuple[Any, Any]] = yard_tryons_asked.send(Yard, yard=row.yard)
    by_pk = {horse.pk: horse for horse in row.yard.horses.all()}
    others = (
        _told_row(tryon, by_pk[pk])
        for _, by_horse in told
        for pk, all_told in by_horse.items()
        for tryon in all_told
        if tryon.item == row.name and tryon.record
    )
    return _newest_first((*_kept(row.tryons.all(), row.yard, set()), *others))


def _newest_first(rows: Iterable[TriedRow]) -> tuple[TriedRow, ...]:
    return tuple(sorted(rows, key=lambda row: (row.on, row.pk), reverse=True))


def _kept(tryons: QuerySet[TryOn], yard: Yard, photo_days: set[date]) -> list[TriedRow]:
    """Return the try-ons that were written in as such (2 queries)."""
    rows = tryons.filter(horse__yard=yard).select_related("horse", "tack", "made_up")
    return [tried_row(row, photo_days) for row in rows.prefetch_related("parts")]


def tried_row(row: TryOn, photo_days: set[date] | frozenset[date]) -> TriedRow:
    """Return one try-on as a row; its thing and its parts are read already."""
    return TriedRow(
        pk=row.pk,
        horse=row.horse.name,
        horse_key=row.horse.key,
        item=row.item_name,
        on=row.on,
        how=row.get_how_display(),
        answer=row.answer,
        seen="; ".join(seen_words(part) for part in row.parts.all()),
        who=row.who,
        note=row.note,
        stop=row.get_stop_display(),
        stop_sign=row.stop_sign,
        struck=row.struck,
        record=f"tried/{row.pk}/",
        photo=row.on in photo_days,
    )


def _told_row(tryon: TryOnFact, horse: Horse) -> TriedRow:
    """Return what another record says of an item as a row."""
    parts = (TryOnPart(part=t.part, seen=t.seen, hole=t.hole) for t in tryon.parts)
    return TriedRow(
        pk=0,
        horse=horse.name,
        horse_key=horse.key,
        item=tryon.item,
        on=tryon.on,
        how=TryOn.How(tryon.how).label,
        answer=tryon.answer or "",
        seen="; ".join(seen_words(part) for part in parts),
        record=tryon.record,
    )


def seen_words(part: TryOnPart) -> str:
    """Return what was seen of a part: noseband: too short, on hole 3."""
    hole = f", on hole {part.hole}" if part.hole else ""
    gap = ""
    if part.gap_mm is not None:
        said = gap_words(part.gap_mm, part.gap_written)
        gap = f", {said} clear at the front"
    return f"{part_word(part.part)}: {part.get_seen_display()}{hole}{gap}"
