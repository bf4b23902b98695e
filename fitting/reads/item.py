"""What the page of one item shows: its sizes, whom it fits, what was tried."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.answers import Answer
from fitting.models import Part, Tack, TackSet
from fitting.pieces import CHOICES, COUNTS, SIZES, label_of, part_word
from fitting.reads.outlook import seen
from fitting.reads.tack import loan_words
from fitting.reads.tryons import TriedRow, tried_rows
from fitting.told import BEST_FIRST, Verdict, spare_words, verdicts
from fitting.units import LengthUnit, show_length


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeRow:
    """One size of a part: as it is understood, and as it was typed."""

    label: str
    shown: str
    typed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRows:
    """One part with what is written down of it."""

    name: str
    sizes: tuple[SizeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """How an item sits on one horse."""

    name: str
    key: str
    grown: bool
    told: Verdict
    spare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoanRow:
    """One loan."""

    pk: int
    said: str
    out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NameAndKey:
    """Something to link to."""

    name: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemPage:
    """One item."""

    name: str
    key: str
    kind: str
    about: str
    note: str
    gone: date | None
    parts: tuple[PartRows, ...]
    fits: tuple[FitRow, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    sets: tuple[NameAndKey, ...]
    loans: tuple[LoanRow, ...]
    tried: tuple[TriedRow, ...]


def item_page(row: Tack) -> ItemPage:
    """Return one item (8 queries: parts, horses twice, sets, loans, try-ons)."""
    unit: LengthUnit = row.yard.length_unit  # type: ignore[assignment]
    parts = tuple(part_rows(part, unit) for part in row.parts.all())
    fits = () if row.gone else _fits(row)
    return ItemPage(
        name=row.name,
        key=row.key,
        kind=row.get_kind_display(),
        about=_about(row),
        note=row.note,
        gone=row.gone,
        parts=parts,
        fits=fits,
        cautions=tuple(dict.fromkeys(c for fit in fits for c in fit.told.cautions)),
        sources=tuple(dict.fromkeys(s for fit in fits for s in fit.told.sources)),
        sets=sets_with(row),
        loans=tuple(
            LoanRow(pk=loan.pk, said=loan_words(loan), out=loan.returned is None)
            for loan in row.loans.select_related("to")
        ),
        tried=tried_rows(row.tryons.all(), row.yard),
    )


def _about(row: Tack) -> str:
    """Return kind, owner, day of buying and label in short sentences."""
    kind = row.get_kind_display().capitalize()
    whose = f"Belongs to {row.belongs_to}." if row.belongs_to else ""
    bought = f"Bought {row.bought.day} {row.bought:%b %Y}." if row.bought else ""
    label = f"The label says {row.label_size}." if row.label_size else ""
    return " ".join(filter(None, (f"{kind}.", whose, bought, label)))


def part_rows(part: Part, unit: LengthUnit) -> PartRows:
    """Return what is written down of a part."""
    sizes = []
    for key in (*SIZES, *COUNTS, *CHOICES, "material"):
        shown = _shown(part, key, unit)
        if shown:
            typed = part.written.get(key, "") if key in SIZES else ""
            sizes.append(SizeRow(label=label_of(key), shown=shown, typed=typed))
    name = part_word(part.part).capitalize()
    return PartRows(name=name, sizes=tuple(sizes))


def _shown(part: Part, key: str, unit: LengthUnit) -> str:
    if key in SIZES:
        mm = getattr(part, f"{key}_mm")
        in_mm = key in {"thickness", "ring", "spacing"}
        return show_length(mm, "mm" if in_mm else unit) if mm else ""
    if key in CHOICES:
        return str(getattr(part, f"get_{key}_display")())
    return str(getattr(part, key) or "")


def _fits(row: Tack) -> tuple[FitRow, ...]:
    """Return how the item sits on every horse: youngsters first, the best first."""
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
    return tuple(
        sorted(found, key=lambda fit: (fit.grown, BEST_FIRST.index(fit.told.answer)))
    )


def sets_with(row: Tack) -> tuple[NameAndKey, ...]:
    """Return the made-up sets that use an item (1 query)."""
    sets = TackSet.objects.filter(parts__tack=row).distinct()
    return tuple(NameAndKey(name=made_up.name, key=made_up.key) for made_up in sets)


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesWith:
    """What is lost with an item, and the sets that keep it from being deleted."""

    sets: tuple[NameAndKey, ...]
    tryons: int
    loans: int


def goes_with(row: Tack) -> GoesWith:
    """Return what goes with an item that is deleted (3 queries)."""
    return GoesWith(
        sets=sets_with(row), tryons=row.tryons.count(), loans=row.loans.count()
    )
