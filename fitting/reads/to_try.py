"""What may be tried on a horse, and what to look at when it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fitting import fit, nose_gap
from fitting.by_name import in_order
from fitting.fit.kind_cautions import cautions_of
from fitting.listed import listed
from fitting.looks import Seen
from fitting.models import Horse, Tack, TackSet, TryOn, Yard
from fitting.pieces import (
    KIND_WORDS,
    LOOKED_AT_IN_TURN,
    PARTS_OF_KIND,
    WITHOUT_HOLES,
    part_word,
)
from fitting.reads.facts import tack_fact
from fitting.reads.worn import wore_of
from fitting.told import verdicts


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
    made_up = yard.sets.filter(gone__isnull=True).values_list("name", "key")
    sets = [
        ToTry(name=name, query=f"set={key}", kind="") for name, key in in_order(made_up)
    ]
    rows = yard.tack.filter(gone__isnull=True).values_list("name", "key", "kind")
    items = [
        ToTry(name=name, query=f"item={key}", kind=kind)
        for name, key, kind in in_order(rows)
    ]
    groups = [("Made-up sets", sets)] + [
        (title, [one for one in items if one.kind == kind])
        for kind, (title, _) in KIND_WORDS.items()
    ]
    return tuple(ToTryGroup(title=title, rows=tuple(of)) for title, of in groups if of)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartToTry:
    """One part to be looked at.

    ``holes``: how many it has, if that is known; ``reckoned``: the hole by arithmetic.
    """

    part: str
    name: str
    holes: int | None
    has_hole: bool
    has_gap: bool = False
    reckoned: int | None = None


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


def parts_to_try(row: TryOn, look: Seen | None) -> tuple[PartToTry, ...]:
    """Return the parts to look at as one stands, and any other seen (3 queries)."""
    parts = parts_of_item(row.tack) if row.tack else ()
    if row.made_up:
        parts = parts_of_set(row.made_up)
    there = {part.part for part in parts}
    seen = row.parts.values_list("part", flat=True) if row.pk else ()
    more = _to_try([fit.Part(part=word) for word in seen if word not in there])
    fits = look.fits if look else ()
    reckoned = {f.part: f.hole for f in fits if f.item == row.item_name}
    return tuple(
        replace(part, reckoned=_within(reckoned.get(part.part), part.holes))
        for part in as_one_stands((*parts, *more))
    )


def as_one_stands(parts: Iterable[PartToTry]) -> tuple[PartToTry, ...]:
    """Return parts in the order in which two people look at them."""
    place = {part: at for at, part in enumerate(LOOKED_AT_IN_TURN)}
    return tuple(sorted(parts, key=lambda part: place.get(part.part, len(place))))


def _within(hole: int | None, holes: int | None) -> int | None:
    """Return a reckoned hole, if the part is known to have it."""
    return hole if hole and holes and hole <= holes else None


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
            has_gap=part.part in nose_gap.PARTS,
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


def kinds_never_worn(
    horse: Horse, kinds: Sequence[tuple[str, Tack]]
) -> tuple[tuple[str, Tack], ...]:
    """Return the kinds that no record says the horse ever wore (8 queries)."""
    worn = {wore.kind for wore in wore_of(horse)}
    return tuple((kind, item) for kind, item in kinds if kind not in worn)


def kind_words(kinds: Iterable[tuple[str, Tack]]) -> str:
    """Return kinds of tack in words: bridle and bit."""
    return listed(Tack.Kind(kind).label for kind, _ in kinds)


def cautions_for(
    look: Seen | None, name: str, kinds: Sequence[tuple[str, Tack]]
) -> tuple[str, ...]:
    """Return what stands beside an item on a horse; not planned yet: by its kinds."""
    told = verdicts(look.fits).get(name) if look else None
    return told.cautions if told else cautions_of(*(kind for kind, _ in kinds))


def thing_named(yard: Yard, name: str) -> tuple[Tack | None, TackSet | None]:
    """Return the set, or the item, of a name; neither if there is none (2 queries)."""
    made_up = yard.sets.filter(name=name).first()
    item = None if made_up else yard.tack.filter(name=name).first()
    return item, made_up
