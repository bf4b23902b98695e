"""What was tried on, and whether a horse's tack fits it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.by_name import in_order
from fitting.looks import Seen
from fitting.models import FirstWorn, Horse, TryOn, Yard
from fitting.pictured import DRAWN
from fitting.pieces import KIND_WORDS
from fitting.reads.apart import Apart, also_apart, apart_of
from fitting.reads.horses import horse_words
from fitting.reads.on_horse import Shown, shown_on
from fitting.reads.outlook import seen_of
from fitting.reads.rung import Rung, rung_for
from fitting.reads.tried import TriedRow, tried_on_horse
from fitting.told import Notes, Verdict, notes_of, spare_words, verdicts


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """One item, or one made-up set, on this horse."""

    name: str
    key: str
    is_set: bool
    drawn: bool
    told: Verdict
    spare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FitGroup:
    """The made-up sets, or the items of one kind."""

    title: str
    rows: tuple[FitRow, ...]

    @property
    def notes(self) -> Notes:
        """What stands once beside its answers."""
        return notes_of(row.told for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class WornRow:
    """The first day of a kind of tack."""

    pk: int
    kind: str
    item: str
    on: date
    who: str
    how_it_went: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseTackPage:
    """Does it fit? One horse, all tack."""

    name: str
    key: str
    kind: str
    she: str
    groups: tuple[FitGroup, ...]
    notes: Notes
    tried: tuple[TriedRow, ...]
    worn: tuple[WornRow, ...]
    planned: bool
    no_tack: bool
    apart: tuple[Apart, ...]
    ring_vet: tuple[Rung, ...]
    shown: Shown | None


def horse_tack_page(horse: Horse, on: date) -> HorseTackPage:
    """Return one horse and all tack (15 queries: outlook, tack, sets, worn, tried)."""
    look = seen_of(horse)
    told = verdicts(look.fits) if look else {}
    groups = _groups(horse.yard, told)
    rows = [row for group in groups for row in group.rows]
    tried = tried_on_horse(horse)
    worn = _worn(horse)
    keys = {row.name: row.key for row in rows}
    return HorseTackPage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        she=horse.she,
        groups=groups,
        notes=notes_of(row.told for row in rows),
        tried=tried,
        worn=worn,
        planned=look is not None,
        no_tack=not rows,
        apart=_apart(look, tried, horse.yard) if look else (),
        ring_vet=rung_for(horse, on),
        shown=shown_on(horse, look, _put_on(tried, worn), keys),
    )


def _put_on(
    tried: tuple[TriedRow, ...], worn: tuple[WornRow, ...]
) -> tuple[tuple[date, str], ...]:
    """Return what was put on, with its day; what was struck out was not."""
    put_on = (r for r in tried if r.how == TryOn.How.WORN.label and not r.struck)
    return (
        *((row.on, row.item) for row in put_on),
        *((row.on, row.item) for row in worn if row.item),
    )


def _apart(look: Seen, tried: tuple[TriedRow, ...], yard: Yard) -> tuple[Apart, ...]:
    found = apart_of(look.contradictions, yard)
    return (*found, *also_apart(look.fits, found, tried))


def _groups(yard: Yard, told: dict[str, Verdict]) -> tuple[FitGroup, ...]:
    """Return sets first, then by kind; each with its rows."""
    hanging = yard.tack.filter(gone__isnull=True)
    items = in_order(hanging.values_list("name", "key", "kind"))
    sets = yard.sets.filter(gone__isnull=True).values_list("name", "key")
    made_up = [_fit_row(name, key, told) for name, key in in_order(sets)]
    by_kind = [
        (
            title,
            [_fit_row(n, k, told, of) for n, k, of in items if of == kind],
        )
        for kind, (title, _) in KIND_WORDS.items()
    ]
    groups = [("Made-up sets", made_up), *by_kind]
    return tuple(
        FitGroup(title=title, rows=tuple(row for row in rows if row is not None))
        for title, rows in groups
        if any(rows)
    )


def _fit_row(
    name: str, key: str, told: dict[str, Verdict], kind: str = ""
) -> FitRow | None:
    """Return a row; without a kind it is a made-up set."""
    of_it = told.get(name)
    if of_it is None:
        return None
    return FitRow(
        name=name,
        key=key,
        is_set=not kind,
        drawn=not kind or kind in DRAWN,
        told=of_it,
        spare=spare_words(of_it),
    )


def _worn(horse: Horse) -> tuple[WornRow, ...]:
    rows = FirstWorn.objects.filter(horse=horse).select_related("tack")
    return tuple(
        WornRow(
            pk=row.pk,
            kind=row.get_kind_display(),
            item=row.tack.name if row.tack else "",
            on=row.on,
            who=row.who,
            how_it_went=row.how_it_went,
        )
        for row in rows
    )
