"""What was tried on, and whether a horse's tack fits it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet

from fitting import fit
from fitting.models import FirstWorn, Horse, Tack, TackSet, TryOn, TryOnPart, Yard
from fitting.pieces import KIND_WORDS, PARTS_OF_KIND, WITHOUT_HOLES, part_word
from fitting.reads.facts import tack_fact
from fitting.reads.horses import horse_words
from fitting.reads.outlook import seen_of
from fitting.told import Notes, Verdict, listed, notes_of, spare_words, verdicts


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedRow:
    """One try-on, as a row."""

    pk: int
    horse: str
    horse_key: str
    item: str
    on: date
    how: str
    answer: str
    seen: str
    who: str
    note: str


def tried_rows(tryons: QuerySet[TryOn], yard: Yard) -> tuple[TriedRow, ...]:
    """Return try-ons, the newest first (2 queries)."""
    rows = tryons.filter(horse__yard=yard).select_related("horse", "tack", "made_up")
    return tuple(_tried_row(row) for row in rows.prefetch_related("parts"))


def _tried_row(row: TryOn) -> TriedRow:
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
    )


def seen_words(part: TryOnPart) -> str:
    """Return what was seen of a part: noseband: too short, on hole 3."""
    hole = f", on hole {part.hole}" if part.hole else ""
    return f"{part_word(part.part)}: {part.get_seen_display()}{hole}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """One item, or one made-up set, on this horse."""

    name: str
    key: str
    is_set: bool
    told: Verdict
    spare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FitGroup:
    """The made-up sets, or the items of one kind."""

    title: str
    rows: tuple[FitRow, ...]


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


def horse_tack_page(horse: Horse, on: date) -> HorseTackPage:
    """Return one horse and all tack (6 queries: outlook, tack, sets, tried, worn)."""
    look = seen_of(horse)
    told = verdicts(look.fits) if look else {}
    groups = _groups(horse.yard, told)
    rows = [row for group in groups for row in group.rows]
    return HorseTackPage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        she=horse.she,
        groups=groups,
        notes=notes_of(row.told for row in rows),
        tried=tried_rows(horse.tryons.all(), horse.yard),
        worn=_worn(horse),
        planned=look is not None,
        no_tack=not rows,
    )


def _groups(yard: Yard, told: dict[str, Verdict]) -> tuple[FitGroup, ...]:
    """Return sets first, then by kind; each with its rows."""
    items = yard.tack.filter(gone__isnull=True).values_list("name", "key", "kind")
    sets = yard.sets.values_list("name", "key")
    made_up = [_fit_row(name, key, told, is_set=True) for name, key in sets]
    by_kind = [
        (
            title,
            [_fit_row(n, k, told, is_set=False) for n, k, of in items if of == kind],
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
    name: str, key: str, told: dict[str, Verdict], *, is_set: bool
) -> FitRow | None:
    of_it = told.get(name)
    if of_it is None:
        return None
    return FitRow(
        name=name, key=key, is_set=is_set, told=of_it, spare=spare_words(of_it)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ToTry:
    """What may be tried on."""

    name: str
    query: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ToTryGroup:
    """Sets, or the items of one kind."""

    title: str
    rows: tuple[ToTry, ...]


def to_try(yard: Yard) -> tuple[ToTryGroup, ...]:
    """Return what hangs on its peg, sets first (2 queries)."""
    sets = [
        ToTry(name=name, query=f"set={key}", kind="")
        for name, key in yard.sets.values_list("name", "key")
    ]
    rows = list(yard.tack.filter(gone__isnull=True).values_list("name", "key", "kind"))
    items = [
        ToTry(name=name, query=f"item={key}", kind=kind) for name, key, kind in rows
    ]
    groups = [("Made-up sets", sets)] + [
        (title, [one for one in items if one.kind == kind])
        for kind, (title, _) in KIND_WORDS.items()
    ]
    return tuple(ToTryGroup(title=title, rows=tuple(of)) for title, of in groups if of)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartToTry:
    """One part to be looked at; ``holes``: how many it has, if that is known."""

    part: str
    name: str
    holes: int | None
    has_hole: bool


def parts_of_item(item: Tack) -> tuple[PartToTry, ...]:
    """Return the parts to look at on an item (1 query)."""
    parts = tack_fact(item).parts
    usual = PARTS_OF_KIND[item.kind]
    words = parts or tuple(fit.Part(part=word) for word in usual if word != "whole")
    return _to_try(words)


def parts_of_set(made_up: TackSet) -> tuple[PartToTry, ...]:
    """Return the parts to look at on a made-up set (3 queries)."""
    lent = made_up.parts.select_related("tack").prefetch_related("tack__parts")
    made = fit.MadeUp(
        name=made_up.name,
        parts=tuple((part.slot, tack_fact(part.tack)) for part in lent),
    )
    return _to_try(fit.lent_parts(made))


def parts_to_try(row: TryOn) -> tuple[PartToTry, ...]:
    """Return the parts to look at, and any other that was looked at (3 queries)."""
    parts = parts_of_item(row.tack) if row.tack else ()
    if row.made_up:
        parts = parts_of_set(row.made_up)
    there = {part.part for part in parts}
    seen = row.parts.values_list("part", flat=True) if row.pk else ()
    more = [fit.Part(part=word) for word in seen if word not in there]
    return (*parts, *_to_try(more))


def _to_try(parts: Sequence[fit.Part]) -> tuple[PartToTry, ...]:
    """Return parts to look at; a headpiece is on the hole of its cheekpieces."""
    words = {part.part for part in parts}
    one_hole = {"headpiece"} if "cheekpieces" in words else set()
    return tuple(
        PartToTry(
            part=part.part,
            name=part_word(part.part),
            holes=part.holes,
            has_hole=part.part not in {*WITHOUT_HOLES, *one_hole},
        )
        for part in parts
    )


def kinds_of(
    item: Tack | None, made_up: TackSet | None
) -> tuple[tuple[str, Tack], ...]:
    """Return each kind of tack that is put on with an item or a set (1 query)."""
    if item is not None:
        return ((item.kind, item),)
    if made_up is None:
        return ()
    found: dict[str, Tack] = {}
    for part in made_up.parts.select_related("tack"):
        found.setdefault(part.tack.kind, part.tack)
    return tuple(found.items())


def never_worn(horse: Horse, kinds: tuple[tuple[str, Tack], ...]) -> str:
    """Return the kinds the horse has never worn, in words (1 query)."""
    worn = set(horse.first_worn.values_list("kind", flat=True))
    return listed(Tack.Kind(kind).label for kind, _ in kinds if kind not in worn)


def cautions_for(horse: Horse, name: str) -> tuple[str, ...]:
    """Return what stands beside an item on a horse (1 query)."""
    look = seen_of(horse)
    told = verdicts(look.fits).get(name) if look else None
    return told.cautions if told else ()
