"""Rows of bodies and tack become a yard file, in one order and with every unit."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from fitting.body import measure_by_key
from fitting.models import (
    FirstWorn,
    Horse,
    Loan,
    Measurement,
    Part,
    Tack,
    TackSet,
    TryOn,
    TryOnPart,
    Yard,
)
from fitting.models.horse import OWN_EDGES
from fitting.models.yard import WEEKDAYS
from fitting.nose_gap import write_gap
from fitting.units import write_height, write_length
from fitting.yardfile import shapes
from fitting.yardfile.pegs import SIZED
from fitting.yardfile.sizes import write_reading


def iso(day: date | None) -> str | None:
    """Return a day as the file writes it."""
    return day.isoformat() if day else None


def in_order(words: Iterable[str], order: Iterable[str]) -> list[str]:
    """Return words in the order of a list."""
    all_words = set(words)
    return [word for word in order if word in all_words]


def yard_shape(yard: Yard) -> shapes.Yard:
    """Return the yard and its days."""
    return shapes.Yard(
        name=yard.name,
        timezone=yard.timezone,
        hemisphere=yard.hemisphere,
        units=shapes.Units(
            height=yard.height_unit, length=yard.length_unit, weight=yard.weight_unit
        ),
        free_days=in_order(yard.free_days, WEEKDAYS),
        helper_days=in_order(yard.helper_days, WEEKDAYS),
        sessions_a_day=yard.sessions_a_day,
        covered_area=yard.covered_area,
        settings=_sorted(yard.settings),
    )


def _sorted(value: Any) -> Any:
    """Return settings with their keys in order, all the way down."""
    if isinstance(value, dict):
        return {key: _sorted(value[key]) for key in sorted(value)}
    return [_sorted(item) for item in value] if isinstance(value, list) else value


def body_keys(horse: Horse) -> dict[str, Any]:
    """Return the keys of a horse and its body; its records are read already."""
    return {
        "key": horse.key,
        "name": horse.name,
        "sex": horse.sex,
        "foaled": horse.foaled,
        "horse_type": horse.horse_type,
        "grown": horse.grown,
        "lives_out": horse.lives_out,
        "dam_height": _height(horse.dam_height_mm, horse.dam_height_written),
        "sire_height": _height(horse.sire_height_mm, horse.sire_height_written),
        "clearances": {
            kind: room
            if kind == OWN_EDGES
            else write_length(room["mm"], room.get("written", ""))
            for kind, room in sorted(horse.clearances.items())
        },
        "measurements": _measurements(horse.measurements.all()),
        "tryons": _tryons(horse.tryons.all()),
        "first_worn": _first_worn(horse.first_worn.all()),
    }


def _height(mm: float | None, written: str) -> str | None:
    return None if mm is None else write_height(mm, written)


def _measurements(rows: Iterable[Measurement]) -> list[shapes.Measurement]:
    ordered = sorted(rows, key=lambda row: (row.on, row.measure, row.pk))
    return [
        shapes.Measurement(
            measure=row.measure,
            on=row.on.isoformat(),
            readings=[
                write_reading(reading, measure_by_key(row.measure).dimension)
                for reading in row.readings
            ],
            method=row.method,
            same_person=row.same_person,
            who=row.who,
            shod=row.shod,
            struck=row.struck,
            note=row.note,
        )
        for row in ordered
    ]


def _tryons(rows: Iterable[TryOn]) -> list[shapes.TryOn]:
    ordered = sorted(rows, key=lambda row: (row.on, row.item_name, row.pk))
    return [
        shapes.TryOn(
            on=row.on.isoformat(),
            item=row.tack.name if row.tack else "",
            made_up=row.made_up.name if row.made_up else "",
            how=row.how,
            answer=row.answer,
            who=row.who,
            parts=[_tried_part(part) for part in row.parts.all()],
            stop=row.stop,
            stop_sign=row.stop_sign,
            struck=row.struck,
            note=row.note,
        )
        for row in ordered
    ]


def _tried_part(row: TryOnPart) -> shapes.TriedPart:
    gap = None if row.gap_mm is None else write_gap(row.gap_mm, row.gap_written)
    return shapes.TriedPart(part=row.part, seen=row.seen, hole=row.hole, gap=gap)


def _first_worn(rows: Iterable[FirstWorn]) -> list[shapes.FirstWorn]:
    found = [
        shapes.FirstWorn(
            kind=row.kind,
            item=row.tack.name if row.tack else "",
            on=row.on.isoformat(),
            who=row.who,
            how_it_went=row.how_it_went,
        )
        for row in rows
    ]
    return sorted(found, key=lambda worn: (worn.on, worn.kind, worn.item))


def tack_shapes(yard: Yard) -> list[shapes.Tack]:
    """Return the tack by name, with its parts and loans (4 queries)."""
    rows = yard.tack.prefetch_related("parts", "loans__to")
    return [_item(row) for row in sorted(rows, key=lambda row: row.name)]


def _item(row: Tack) -> shapes.Tack:
    return shapes.Tack(
        key=row.key,
        name=row.name,
        kind=row.kind,
        label_size=row.label_size,
        belongs_to=row.belongs_to,
        bought=iso(row.bought),
        gone=iso(row.gone),
        loans=[_loan(loan) for loan in row.loans.all()],
        note=row.note,
        parts=[_part(part) for part in row.parts.all()],
    )


def _loan(row: Loan) -> shapes.Loan:
    return shapes.Loan(
        to=row.to.name,
        start=iso(row.start),
        own_hole=row.own_hole,
        back_by=iso(row.back_by),
        returned=iso(row.returned),
    )


def _part(row: Part) -> shapes.Part:
    sizes = {what: getattr(row, f"{what}_mm") for what in SIZED}
    return shapes.Part(
        part=row.part,
        cheek=row.cheek,
        mouthpiece=row.mouthpiece,
        material=row.material,
        holes=row.holes,
        hole=row.hole,
        **{
            what: write_length(mm, str(row.written.get(what, "")))
            for what, mm in sizes.items()
            if mm is not None
        },
    )


def set_shapes(yard: Yard) -> list[shapes.TackSet]:
    """Return the made-up sets by name (3 queries)."""
    rows = TackSet.objects.filter(yard=yard).prefetch_related("parts__tack")
    return [
        shapes.TackSet(
            name=row.name,
            parts=shapes.Slots(**{p.slot: p.tack.name for p in row.parts.all()}),
            gone=iso(row.gone),
        )
        for row in sorted(rows, key=lambda row: row.name)
    ]
