"""What a horse has worn and when, from whatever says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from fitting.models import Horse, Tack, TryOn
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.tried import seen_words
from fitting.signals import worn_asked
from fitting.wearing import KindWorn, Wore, worn_by_kind


@dataclass(frozen=True, slots=True, kw_only=True)
class WornKind:
    """One kind of tack, by its name."""

    name: str
    worn: KindWorn


@dataclass(frozen=True, slots=True, kw_only=True)
class WornPage:
    """What one horse has worn and when."""

    head: HorseHead
    she: str
    kinds: tuple[WornKind, ...]


def worn_page(horse: Horse, on: date) -> WornPage:
    """Return what a horse has worn (9 queries).

    First times, try-ons put on with sets and parts, what sessions say was worn.
    """
    return WornPage(
        head=horse_head(horse, on),
        she=horse.she,
        kinds=tuple(
            WornKind(name=Tack.Kind(kind.kind).label.capitalize(), worn=kind)
            for kind in worn_by_kind(wore_of(horse))
        ),
    )


def wore_of(horse: Horse) -> tuple[Wore, ...]:
    """Return every record that a horse wore something (8 queries)."""
    told: list[tuple[Any, Any]] = worn_asked.send(Horse, horse=horse)
    others = (wore for _, of_one in told for wore in of_one)
    return (*_written(horse), *_tried(horse), *others)


def _written(horse: Horse) -> Iterator[Wore]:
    """Yield what was written down as first worn (1 query)."""
    for row in horse.first_worn.select_related("tack"):
        yield Wore(
            on=row.on,
            kind=row.kind,
            item=row.tack.name if row.tack else "",
            told="written",
            who=row.who,
            how_it_went=row.how_it_went,
            record=f"worn/{row.pk}/",
        )


def _tried(horse: Horse) -> Iterator[Wore]:
    """Yield each item of what was put on and not struck out (4 queries)."""
    rows = horse.tryons.filter(struck="", how=TryOn.How.WORN)
    rows = rows.select_related("tack", "made_up")
    for row in rows.prefetch_related("parts", "made_up__parts__tack"):
        seen = "; ".join(seen_words(part) for part in row.parts.all()).capitalize()
        for item in worn_items(row):
            yield Wore(
                on=row.on,
                kind=item.kind,
                item=item.name,
                told="tried",
                who=row.who,
                how_it_went=row.note or (f"{seen}." if seen else ""),
                record=f"tried/{row.pk}/",
            )


def worn_items(row: Any) -> tuple[Tack, ...]:
    """Return each item, once, of a row that names an item or a made-up set."""
    if row.tack:
        return (row.tack,)
    lent = {part.tack_id: part.tack for part in row.made_up.parts.all()}
    return tuple(lent.values())
