"""What the page shows that puts two items of tack beside each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from fitting.fit.answers import Answer
from fitting.models import Part, Yard
from fitting.pieces import label_of, part_word
from fitting.reads.outlook import seen
from fitting.reads.sizes import CALLIPERS
from fitting.reads.tack import first_capital
from fitting.reads.to_put_beside import BRIDLE, Thing
from fitting.reads.whom import Cell, Column, cell_of
from fitting.tack_beside import (
    ALIKE_MM,
    OVER_ALL,
    HoleBeside,
    PartBeside,
    SizeBeside,
    holes_beside,
    not_measured,
    parts_beside,
)
from fitting.told import verdicts
from fitting.units import LengthUnit, show_length, show_off

FINE: Final = frozenset({"thickness", "ring"})
_WAYS: Final = {"thickness": ("thicker", "thinner"), "ring": ("larger", "smaller")}
NOT_THERE: Final = "not there"
NOT_MEASURED: Final = "not measured"
_QUARTERS: Final = ("", "¼", "½", "¾")


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeRow:
    """One size of both, and what differs."""

    part: str
    size: str
    one: str
    other: str
    differs: str
    holes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WearerRow:
    """How both sit on one horse."""

    name: str
    key: str
    one: Cell
    other: Cell
    hole: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRow:
    """A hole of the first, and in words which of the second is the same."""

    one: int
    who: tuple[str, ...]
    said: str
    reaches: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BesidePage:
    """Two items or sets; ``unmeasured``: sentences on why no hole is named."""

    one: Thing
    other: Thing
    sizes: tuple[SizeRow, ...]
    kinds: tuple[tuple[str, str, str], ...]
    holes: tuple[HoleRow, ...]
    unmeasured: tuple[str, ...]
    wearers: tuple[WearerRow, ...]


def beside_page(yard: Yard, one: Thing, other: Thing) -> BesidePage:
    """Return two items or sets put beside each other (1 query; the rest is read)."""
    unit: LengthUnit = yard.length_unit  # type: ignore[assignment]
    first, second = one.fact, other.fact
    bridles = one.kind == BRIDLE
    found, wearers = parts_beside(first, second), _wearers(yard, one, other)
    missing = not_measured((first, second)) if bridles else ()
    return BesidePage(
        one=one,
        other=other,
        sizes=tuple(row for part in found for row in _part_rows(part, unit)),
        kinds=_kinds(one, other),
        holes=_holes(holes_beside(first, second), wearers, unit) if bridles else (),
        unmeasured=tuple(f"{name}: {why}" for name, why in missing),
        wearers=wearers,
    )


def _part_rows(part: PartBeside, unit: LengthUnit) -> tuple[SizeRow, ...]:
    name = first_capital(part_word(part.part))
    rows = [_size_row(name, size, unit) for size in part.sizes] or [_bare(name)]
    match part.missing:
        case "one":
            return tuple(replace(row, one=NOT_THERE) for row in rows)
        case "other":
            return tuple(replace(row, other=NOT_THERE) for row in rows)
    return tuple(rows)


def _bare(part: str) -> SizeRow:
    """Return a part that neither is measured of."""
    bare = NOT_MEASURED
    return SizeRow(part=part, size="", one=bare, other=bare, differs="", holes="")


def _size_row(part: str, size: SizeBeside, unit: LengthUnit) -> SizeRow:
    fine = CALLIPERS if unit == "in" else FINE
    shown = "mm" if size.key in fine else unit
    return SizeRow(
        part=part,
        size=_size_word(part, size),
        one=_shown(size.one_mm, shown),
        other=_shown(size.other_mm, shown),
        differs=_differs(size, shown),
        holes=_in_holes(size),
    )


def _size_word(part: str, size: SizeBeside) -> str:
    label = label_of(size.key).lower()
    return f"on its {label} hole" if part == first_capital(OVER_ALL) else label


def _shown(mm: float | None, unit: LengthUnit) -> str:
    return NOT_MEASURED if mm is None else show_length(mm, unit)


def _differs(size: SizeBeside, unit: LengthUnit) -> str:
    """Return by how much the second differs, in the yard's unit and in millimetres."""
    more = size.more_mm
    if more is None:
        return ""
    if size.alike:
        return "alike"
    more_or_less = _WAYS.get(size.key, ("longer", "shorter"))
    much = show_length(abs(more), "mm")
    if unit != "mm":
        much = f"{show_length(abs(more), unit)} ({much})"
    return f"{much} {more_or_less[more < 0]}"


def _in_holes(size: SizeBeside) -> str:
    """Return a difference in holes, to the quarter: about 1½ holes."""
    if size.holes is None or size.alike:
        return ""
    quarters = round(abs(size.holes) * len(_QUARTERS))
    whole, part = divmod(quarters, len(_QUARTERS))
    if not quarters:
        return "under ¼ hole"
    count = f"{whole or ''}{_QUARTERS[part]}"
    return f"about {count} hole{'' if quarters <= len(_QUARTERS) else 's'}"


def _kinds(one: Thing, other: Thing) -> tuple[tuple[str, str, str], ...]:
    """Return what is no size: the labels, and of shared parts holes and kinds."""
    twins = {part.part: part for part in other.rows}
    rows = [("Label", one.label_size, other.label_size)]
    for part in one.rows:
        twin = twins.get(part.part)
        if twin is None:
            continue
        name = first_capital(part_word(part.part))
        pairs = zip(_said_of(part), _said_of(twin), strict=True)
        rows += [(f"{name}, {word}", first, twin) for (word, first), (_, twin) in pairs]
    return tuple(row for row in rows if row[1] or row[2])


def _said_of(part: Part) -> tuple[tuple[str, str], ...]:
    return (
        ("holes", str(part.holes or "")),
        ("cheeks", part.get_cheek_display()),
        ("kind", part.get_mouthpiece_display()),
        ("material", part.material),
    )


def _holes(
    holes: Sequence[HoleBeside], wearers: Sequence[WearerRow], unit: LengthUnit
) -> tuple[HoleRow, ...]:
    """Return the holes, each with whom the first sits on it."""
    return tuple(
        HoleRow(
            one=hole.one,
            who=tuple(who.name for who in wearers if who.hole == hole.one),
            said=_hole(hole, unit),
            reaches=hole.other is not None,
        )
        for hole in holes
    )


def _hole(hole: HoleBeside, unit: LengthUnit) -> str:
    off = f"{show_off(abs(hole.off_mm), unit)} a side"
    if hole.other is None:
        end = "longest" if hole.off_mm < 0 else "shortest"
        short = "short" if hole.off_mm < 0 else "long"
        return f"none: even its {end} hole is {off} too {short}"
    if abs(hole.off_mm) < ALIKE_MM:
        return f"hole {hole.other}"
    return f"hole {hole.other}, {off} {'longer' if hole.off_mm > 0 else 'shorter'}"


def _wearers(yard: Yard, one: Thing, other: Thing) -> tuple[WearerRow, ...]:
    """Return how both sit on each horse of the yard (1 query)."""
    rows = []
    for key, look in seen(yard).items():
        told = verdicts(f for f in look.fits if f.item in {one.name, other.name})
        column = Column(name=look.horse, key=key)
        cells = [cell_of(column, told.get(item.name)) for item in (one, other)]
        worn = told.get(one.name)
        hole = worn.hole if worn and worn.answer is not Answer.NO else None
        rows.append(
            WearerRow(name=look.horse, key=key, one=cells[0], other=cells[1], hole=hole)
        )
    return tuple(rows)
