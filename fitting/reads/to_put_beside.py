"""What can be put beside each other: the items that hang here, and the made-up sets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from fitting import fit
from fitting.by_name import by_name
from fitting.mixing.values import word_of_slot
from fitting.models import Part, SetPart, Tack, TackSet, Yard
from fitting.pieces import KIND_WORDS
from fitting.reads.facts import tack_fact

SET: Final = "set-"  # before the key of a set, where a choice may be either
BRIDLE: Final = Tack.Kind.BRIDLE
SETS_TITLE: Final = "Made-up sets"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """An item or a set; ``choice`` names it in an address.

    ``rows``: its parts as they are written down, a set's from the items that lend them.
    """

    choice: str
    name: str
    kind: str
    title: str
    href: str
    label_size: str
    fact: fit.Tack
    rows: tuple[Part, ...]

    @property
    def said(self) -> str:
        """What kind of thing it is, in words."""
        return "made-up set" if self.title == SETS_TITLE else Tack.Kind(self.kind).label


def to_put_beside(yard: Yard) -> list[Thing]:
    """Return sets and items, by kind and name (4 queries: both with their parts)."""
    items = list(yard.tack.filter(gone__isnull=True).prefetch_related("parts"))
    by_pk = {item.pk: item for item in items}
    things = (*_sets(yard, by_pk), *map(_item, items))
    return sorted(things, key=lambda one: (_place(one), by_name(one.name)))


def _place(one: Thing) -> tuple[bool, str]:
    return one.title != SETS_TITLE, one.kind


def _item(row: Tack) -> Thing:
    return Thing(
        choice=row.key,
        name=row.name,
        kind=row.kind,
        title=KIND_WORDS[row.kind][0],
        href=row.get_absolute_url(),
        label_size=row.label_size,
        fact=tack_fact(row),
        rows=tuple(row.parts.all()),
    )


def _sets(yard: Yard, by_pk: Mapping[int, Tack]) -> Iterator[Thing]:
    """Yield the sets; what was taken down is in none of them (2 queries)."""
    lent: dict[int, list[tuple[str, Tack]]] = defaultdict(list)
    for row in SetPart.objects.filter(made_up__yard=yard, tack__in=by_pk):
        lent[row.made_up_id].append((row.slot, by_pk[row.tack_id]))
    for made_up in yard.sets.filter(gone__isnull=True):
        yield _set(made_up, lent[made_up.pk])


def _set(row: TackSet, lent: list[tuple[str, Tack]]) -> Thing:
    made = fit.MadeUp(
        name=row.name, parts=tuple((slot, tack_fact(item)) for slot, item in lent)
    )
    words = {word_of_slot(slot): item for slot, item in lent}
    return Thing(
        choice=f"{SET}{row.key}",
        name=row.name,
        kind=BRIDLE,
        title=SETS_TITLE,
        href=row.get_absolute_url(),
        label_size="",
        fact=fit.Tack(name=row.name, kind=BRIDLE, parts=fit.lent_parts(made)),
        rows=tuple(
            part
            for word, item in words.items()
            for part in item.parts.all()
            if part.part == word
        ),
    )
