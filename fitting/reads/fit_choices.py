"""What may be chosen to ask whether it fits: a horse, then an item or a set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitting.by_name import in_order
from fitting.fit.kind_cautions import SETS, brief_cautions_of
from fitting.models import Horse, Yard
from fitting.pieces import KIND_WORDS
from fitting.reads.who_fits import stored_fits
from fitting.who_fits import ItemLook


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A horse, or an item, to choose by one touch."""

    name: str
    query: str
    answer: str = ""
    hole: int | None = None
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """Those of one heading."""

    title: str
    rows: tuple[Choice, ...]
    cautions: tuple[str, ...] = ()


def horses_to_ask(yard: Yard) -> tuple[Choices, ...]:
    """Return the horses to choose from, youngsters first (1 query)."""
    rows = in_order(yard.horses.values_list("name", "key", "grown"))
    groups = (("Youngsters", False), ("Grown horses", True))
    found = (
        Choices(
            title=title,
            rows=tuple(
                Choice(name=name, query=f"horse={key}")
                for name, key, is_grown in rows
                if is_grown == grown
            ),
        )
        for title, grown in groups
    )
    return tuple(choices for choices in found if choices.rows)


def items_to_ask(horse: Horse) -> tuple[Choices, ...]:
    """Return sets and items with their answers of today (3 queries)."""
    looks = {look.item: look for look in stored_fits(horse).items}
    made_up = horse.yard.sets.filter(gone__isnull=True).values_list("name", "key")
    sets = [_choice(name, f"set={key}", looks) for name, key in in_order(made_up)]
    found = horse.yard.tack.filter(gone__isnull=True)
    items = in_order(found.values_list("name", "key", "kind"))
    by_kind = (
        (
            kind,
            title,
            [_choice(n, f"item={k}", looks) for n, k, of in items if of == kind],
        )
        for kind, (title, _) in KIND_WORDS.items()
    )
    groups = ((SETS, "Made-up sets", sets), *by_kind)
    return tuple(
        Choices(title=title, rows=tuple(rows), cautions=brief_cautions_of(kind))
        for kind, title, rows in groups
        if rows
    )


def _choice(name: str, query: str, looks: Mapping[str, ItemLook]) -> Choice:
    look = looks.get(name)
    if look is None:
        return Choice(name=name, query=query)
    return Choice(
        name=name, query=query, answer=look.answer, hole=look.hole, more=look.more
    )
