"""What the page of one item shows: its sizes, whom it fits, what was tried."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.by_name import Order, by_name, in_order
from fitting.fit.answers import Answer
from fitting.models import FirstWorn, Part, Tack, TackSet
from fitting.pictured import DRAWN
from fitting.pieces import CHOICES, COUNTS, FINE, SIZES, label_of, part_word
from fitting.reads.item_edits import edits_of
from fitting.reads.lent import LoanRow, loans_of
from fitting.reads.measure import Edit
from fitting.reads.outlook import seen
from fitting.reads.rung import Rung, rung_of
from fitting.reads.sizes import CALLIPERS, fine_words, label_words
from fitting.reads.tack import first_capital
from fitting.reads.tried import TriedRow, tried_rows
from fitting.sources import Source
from fitting.told import (
    BEST_FIRST,
    Notes,
    Verdict,
    notes_of,
    spare_words,
    verdicts,
)
from fitting.units import LengthUnit, show_length
from fitting.words_of_bits import (
    BitWords,
    FirstBit,
    as_first_bit,
    sources_of,
    words_of,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """One part, with what is written down of it in a line."""

    name: str
    sizes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """How an item sits on one horse."""

    name: str
    key: str
    grown: bool
    told: Verdict
    spare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BitPage:
    """What a bit looks like, what it does for a young mouth, and on what ground."""

    cheek: str
    mouthpiece: str
    kind: str
    length: str
    does: tuple[BitWords, ...]
    first: FirstBit
    sources: tuple[Source, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NameAndKey:
    """Something to link to."""

    name: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WornRow:
    """The first time a horse wore an item."""

    name: str
    key: str
    on: date
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemPage:
    """One item."""

    name: str
    key: str
    kind: str
    about: str
    note: str
    gone: date | None
    drawn: bool
    bit: BitPage | None
    parts: tuple[PartRow, ...]
    fits: tuple[FitRow, ...]
    notes: Notes
    sets: tuple[NameAndKey, ...]
    loans: tuple[LoanRow, ...]
    tried: tuple[TriedRow, ...]
    worn: tuple[WornRow, ...]
    edits: tuple[Edit, ...]
    ring_vet: tuple[Rung, ...]

    @property
    def is_lent(self) -> bool:
        """Whether it is out: what is out cannot be lent."""
        return any(loan.out for loan in self.loans)


def item_page(row: Tack, today: date) -> ItemPage:
    """Return one item.

    At most 17 queries: parts (of a bit twice), horses thrice, sets, loans, try-ons
    twice, sessions thrice, worn, edits twice, signs to ring the vet twice.
    """
    unit: LengthUnit = row.yard.length_unit  # type: ignore[assignment]
    kept = list(row.parts.all())
    mouthpiece = next((p for p in kept if p.part == Part.Name.MOUTHPIECE), None)
    fits = () if row.gone else fits_of(row)
    return ItemPage(
        name=row.name,
        key=row.key,
        kind=row.get_kind_display(),
        about=_about(row, unit),
        note=row.note,
        gone=row.gone,
        drawn=row.kind in DRAWN,
        bit=bit_page(mouthpiece, unit) if mouthpiece else None,
        parts=tuple(part_row(part, unit) for part in kept),
        fits=fits,
        notes=notes_of(fit.told for fit in fits),
        sets=sets_with(row),
        loans=loans_of(row, today),
        tried=tried_rows(row),
        worn=_worn(row),
        edits=edits_of(row),
        ring_vet=rung_of(row, today),
    )


def _worn(row: Tack) -> tuple[WornRow, ...]:
    """Return which horses wore the item for the first time, and when (1 query)."""
    rows = FirstWorn.objects.filter(tack=row).select_related("horse")
    return tuple(
        WornRow(name=one.horse.name, key=one.horse.key, on=one.on, how=one.how_it_went)
        for one in rows
    )


def _about(row: Tack, unit: LengthUnit) -> str:
    """Return kind, owner, day of buying and label in short sentences."""
    kind = row.get_kind_display().capitalize()
    whose = f"Belongs to {row.belongs_to}." if row.belongs_to else ""
    bought = f"Bought {row.bought.day} {row.bought:%b %Y}." if row.bought else ""
    label = first_capital(label_words(row, unit))
    return " ".join(filter(None, (f"{kind}.", whose, bought, label)))


def bit_page(part: Part, unit: LengthUnit) -> BitPage:
    """Return what a mouthpiece looks like and does."""
    kinds = (part.cheek, part.mouthpiece, part.material)
    does = words_of(*kinds)
    said = (part.get_cheek_display(), part.get_mouthpiece_display(), part.material)
    return BitPage(
        cheek=part.cheek,
        mouthpiece=part.mouthpiece,
        kind=", ".join(filter(None, said)) or "Its kind is not written down",
        length=show_length(part.length_mm, unit) if part.length_mm else "",
        does=does,
        first=as_first_bit(*kinds),
        sources=sources_of(does),
    )


def part_row(part: Part, unit: LengthUnit) -> PartRow:
    """Return what is written down of a part, in a line."""
    said = [_said(part, key, unit) for key in (*SIZES, *COUNTS, *CHOICES, "material")]
    sizes = first_capital(", ".join(filter(None, said)))
    name = first_capital(part_word(part.part))
    return PartRow(name=name, sizes=f"{sizes}." if sizes else "Not measured.")


def _said(part: Part, key: str, unit: LengthUnit) -> str:
    if key in SIZES:
        return _said_size(part, key, unit)
    if key in CHOICES:
        return str(getattr(part, f"get_{key}_display")())
    value = getattr(part, key)
    if key == "holes" and value:
        return f"{value} hole{'s' if value > 1 else ''}"
    if key == "hole" and value:
        return f"measured on hole {value}"
    return str(value or "")


def _said_size(part: Part, key: str, unit: LengthUnit) -> str:
    """Return a size with its name; as it was typed too, if in another unit."""
    mm = getattr(part, f"{key}_mm")
    if not mm:
        return ""
    shown, units = show_length(mm, unit), {"", unit}
    if key in FINE:
        shown = fine_words(mm, "mm" if key in CALLIPERS else unit)
        units = {"", "mm", "in"} if "in" in shown else {"", "mm"}
    typed = part.written.get(key, "")
    other = _unit_of(typed) not in units
    return f"{label_of(key).lower()} {shown}{f' (written {typed})' if other else ''}"


def _unit_of(text: str) -> str:
    """Return the unit at the end of a size."""
    return text[len(text.rstrip("abcdefghijklmnopqrstuvwxyz")) :]


def fits_of(row: Tack | TackSet) -> tuple[FitRow, ...]:
    """Return how an item, or a set, sits on each horse: youngsters, then the best."""
    grown = dict(row.yard.horses.values_list("key", "grown"))
    found = []
    for key, look in seen(row.yard).items():
        told = verdicts(f for f in look.fits if f.item == row.name).get(row.name)
        if told is not None:
            found.append(
                FitRow(
                    name=look.horse,
                    key=key,
                    grown=grown.get(key, False),
                    told=told,
                    spare=spare_words(told) if told.answer is not Answer.NO else "",
                )
            )

    def place(fit: FitRow) -> tuple[bool, int, Order]:
        return fit.grown, BEST_FIRST.index(fit.told.answer), by_name(fit.name)

    return tuple(sorted(found, key=place))


def sets_with(row: Tack) -> tuple[NameAndKey, ...]:
    """Return the made-up sets on their pegs that use an item (1 query)."""
    sets = TackSet.objects.filter(parts__tack=row, gone__isnull=True).distinct()
    return tuple(
        NameAndKey(name=name, key=key)
        for name, key in in_order(sets.values_list("name", "key"))
    )
