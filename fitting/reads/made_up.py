"""What the page of one made-up set shows: its parts, and whom it fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from fitting.fit.hung import HANGING
from fitting.listed import listed
from fitting.mixing.values import SAME_WIDTH_MM
from fitting.models import Part, SetPart, TackSet, Yard
from fitting.pieces import part_word
from fitting.reads.facts import tack_facts
from fitting.reads.in_sets import Uses, use_words, uses_in
from fitting.reads.item import FitRow, fits_of, part_row
from fitting.reads.rung import Rung, rung_of
from fitting.reads.sizes import fine_words
from fitting.reads.tried import TriedRow, tried_rows
from fitting.reads.units import units_of
from fitting.told import Notes, notes_of
from fitting.units import LengthUnit


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotRow:
    """One part of a set, and the item that lends it.

    ``others``: where else it is used, ``gone``: when its item was taken down.
    """

    part: str
    item: str
    key: str
    sizes: str
    others: str
    shared: bool
    gone: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPage:
    """One made-up set; ``like``: what an address asks for to make up another like it.

    ``widths`` tells headpiece and cheekpieces whose straps differ, ``moved`` the parts
    that another set uses too; ``unhung``: no strap of it goes over the head.
    """

    name: str
    key: str
    parts: tuple[SlotRow, ...]
    fits: tuple[FitRow, ...]
    notes: Notes
    tried: tuple[TriedRow, ...]
    widths: str
    moved: str
    unhung: bool
    like: str
    gone: date | None
    ring_vet: tuple[Rung, ...]


def set_page(row: TackSet, today: date) -> SetPage:
    """Return one set.

    At most 22 queries: its parts with theirs, the yard's tack and sets, who wears them,
    horses thrice, what was tried on and worn in sessions, signs to ring the vet.
    """
    tack, made_up = tack_facts(row.yard)
    uses = uses_in(row.yard, tack, made_up, today)
    lent = list(row.parts.select_related("tack").prefetch_related("tack__parts"))
    parts = tuple(_slot(one, row, uses) for one in lent)
    fits = () if row.gone else fits_of(row)
    return SetPage(
        name=row.name,
        key=row.key,
        parts=parts,
        fits=fits,
        notes=notes_of(fit.told for fit in fits),
        tried=tried_rows(row),
        widths=_widths(
            {one.slot: _part(one) for one in lent}, units_of(row.yard).length
        ),
        moved=listed(part.part.lower() for part in parts if part.shared),
        unhung=not any(one.slot in HANGING for one in lent),
        like=urlencode({one.slot: one.tack.key for one in lent}),
        gone=row.gone,
        ring_vet=rung_of(row, today),
    )


def _slot(one: SetPart, row: TackSet, uses: Uses) -> SlotRow:
    unit: LengthUnit = row.yard.length_unit  # type: ignore[assignment]
    part = _part(one)
    of_part = uses.get((one.tack.name, part.part), ()) if part else ()
    return SlotRow(
        part=part_word(one.slot).capitalize(),
        item=one.tack.name,
        key=one.tack.key,
        sizes=part_row(part, unit).sizes if part else "Not written down.",
        others=use_words(of_part, but=row.name),
        shared=any(use.made_up not in {"", row.name} for use in of_part),
        gone=one.tack.gone,
    )


def _part(one: SetPart) -> Part | None:
    """Return the part that is lent; a whole bridle stands for what hangs."""
    word = Part.Name.MOUTHPIECE if one.slot == SetPart.Slot.BIT else one.slot
    by_word = {part.part: part for part in one.tack.parts.all()}
    hangs = one.slot in {SetPart.Slot.HEADPIECE, SetPart.Slot.CHEEKPIECES}
    return by_word.get(word) or (by_word.get(Part.Name.WHOLE) if hangs else None)


def _widths(parts: Mapping[str, Part | None], unit: LengthUnit) -> str:
    """Return the widths of headpiece and cheekpieces in words, where they differ."""
    head, cheek = parts.get("headpiece"), parts.get("cheekpieces")
    if head is None or cheek is None or not head.strap_width_mm:
        return ""
    other = cheek.strap_width_mm
    if not other or abs(head.strap_width_mm - other) <= SAME_WIDTH_MM:
        return ""
    wide, narrow = fine_words(head.strap_width_mm, unit), fine_words(other, unit)
    return f"The headpiece is {wide} wide, the cheekpieces {narrow}"


def items_by_key(yard: Yard, asked: Mapping[str, str]) -> dict[str, str]:
    """Return the pk of the item that an address names for each slot (1 query)."""
    if not asked:
        return {}
    pks = dict(yard.tack.values_list("key", "pk"))
    return {slot: str(pks[key]) for slot, key in asked.items() if key in pks}
