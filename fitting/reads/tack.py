"""What the tack room shows: what hangs there, and whom it fits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.by_name import by_name
from fitting.fit.kind_cautions import SETS, brief_cautions_of
from fitting.listed import listed
from fitting.models import SetPart, Tack, TackSet, Yard
from fitting.pieces import KIND_WORDS
from fitting.reads.lent import LoanRow, loan_row
from fitting.reads.sizes import size_and_label
from fitting.reads.whom import Column, ItemRow, Sight, sight_of
from fitting.units import LengthUnit

BRIEF_FROM: Final = 60  # items: from here on a phone shows a kind at a time; ours
ALL: Final = ""
LENT: Final = "lent"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """The made-up sets, or the items of one kind."""

    kind: str
    title: str
    rows: tuple[ItemRow, ...]

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside the answers on all of them."""
        return brief_cautions_of(self.kind)

    @property
    def of_sets(self) -> bool:
        """Whether the rows are made-up sets."""
        return self.kind == SETS


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneRow:
    """An item, or a set, that was taken down."""

    name: str
    key: str
    gone: date
    is_set: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way to look at the room: all of it, the sets, one kind, what is lent."""

    key: str
    title: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPage:
    """The tack room; ``columns`` is empty where there are too many youngsters.

    ``brief``: on a phone nothing is said of each horse, there is too much.
    ``late``: what should have gone back, the longest ago first, whatever is shown.
    """

    columns: tuple[Column, ...]
    many: bool
    groups: tuple[Rows, ...]
    gone: tuple[GoneRow, ...]
    can_make_up: bool
    shown: str
    brief: bool
    choices: tuple[Choice, ...]
    late: tuple[LoanRow, ...]

    @property
    def told(self) -> bool:
        """Whether answers stand here: there is a youngster."""
        return self.many or bool(self.columns)

    @property
    def empty(self) -> bool:
        """Whether nothing ever hung here."""
        return not self.choices[0].count and not self.gone


def tack_room(yard: Yard, today: date, shown: str = "") -> RoomPage:
    """Return the tack room (9 queries: horses twice, tack and sets with theirs).

    ``shown``: a kind of tack, ``sets`` or ``lent``; anything else: all of it.
    """
    rows = sorted(
        yard.tack.prefetch_related("parts", "loans__to", "loans__tack"),
        key=lambda row: by_name(row.name),
    )
    hanging = [row for row in rows if row.gone is None]
    sight = sight_of(yard)
    made_up = yard.sets.prefetch_related("parts__tack")
    sets = sorted(made_up, key=lambda row: by_name(row.name))
    groups = (*_sets(sets, sight), *_kinds(hanging, sight, today))
    choices = _choices(groups)
    known = {choice.key for choice in choices}
    shown = shown if shown in known else ALL
    return RoomPage(
        columns=() if sight.many else sight.columns,
        many=sight.many,
        groups=_shown(groups, shown),
        gone=_gone((*sets, *rows)),
        can_make_up=any(row.kind == Tack.Kind.BRIDLE for row in hanging),
        shown=shown,
        brief=shown == ALL and choices[0].count >= BRIEF_FROM,
        choices=choices,
        late=tuple(loan for loan in _out(groups) if loan.late),
    )


def _choices(groups: Sequence[Rows]) -> tuple[Choice, ...]:
    """Return the ways to look at the room, with how many each shows."""
    lent = len(_out(groups))
    every = sum(len(group.rows) for group in groups)
    return (
        Choice(key=ALL, title="All", count=every),
        *(Choice(key=g.kind, title=g.title, count=len(g.rows)) for g in groups),
        *((Choice(key=LENT, title="Lent", count=lent),) if lent else ()),
    )


def _shown(groups: Sequence[Rows], shown: str) -> tuple[Rows, ...]:
    """Return the groups, or of one kind, or those rows that are lent."""
    if shown != LENT:
        return tuple(g for g in groups if shown in {ALL, g.kind})
    out = (replace(g, rows=tuple(r for r in g.rows if r.lent)) for g in groups)
    return tuple(group for group in out if group.rows)


def _out(groups: Sequence[Rows]) -> tuple[LoanRow, ...]:
    """Return what is lent, the soonest back first."""
    lent = [loan for g in groups for row in g.rows for loan in row.lent]
    return tuple(sorted(lent, key=lambda loan: loan.back_by or date.max))


def _gone(rows: Iterable[Tack | TackSet]) -> tuple[GoneRow, ...]:
    """Return what was taken down, sets first."""
    return tuple(
        GoneRow(
            name=row.name,
            key=row.key,
            gone=row.gone,
            is_set=isinstance(row, TackSet),
        )
        for row in rows
        if row.gone is not None
    )


def _sets(sets: Sequence[TackSet], sight: Sight) -> tuple[Rows, ...]:
    rows = tuple(_set_row(row, sight) for row in sets if row.gone is None)
    return (Rows(kind=SETS, title="Made-up sets", rows=rows),) if rows else ()


def _kinds(rows: Sequence[Tack], sight: Sight, today: date) -> tuple[Rows, ...]:
    return tuple(
        Rows(
            kind=kind,
            title=title,
            rows=tuple(_item_row(r, sight, today) for r in rows if r.kind == kind),
        )
        for kind, (title, _) in KIND_WORDS.items()
        if any(row.kind == kind for row in rows)
    )


def _item_row(row: Tack, sight: Sight, today: date) -> ItemRow:
    unit: LengthUnit = row.yard.length_unit  # type: ignore[assignment]
    item = ItemRow(
        name=row.name,
        key=row.key,
        size=size_and_label(row, unit),
        about=f"Belongs to {row.belongs_to}." if row.belongs_to else "",
        lent=tuple(
            loan_row(loan, today) for loan in row.loans.all() if loan.returned is None
        ),
    )
    return sight.row(item)


def _set_row(row: TackSet, sight: Sight) -> ItemRow:
    parts = row.parts.all()
    gone = dict.fromkeys(p.tack.name for p in parts if p.tack.gone is not None)
    about = f"Taken down: {listed(gone)}." if gone else ""
    size = made_up_words(parts)
    return sight.row(ItemRow(name=row.name, key=row.key, size=size, about=about))


def made_up_words(parts: Iterable[SetPart]) -> str:
    """Return which item lends what to a set."""
    by_item: dict[str, list[str]] = {}
    for part in parts:
        by_item.setdefault(part.tack.name, []).append(part.get_slot_display())
    said = (f"{listed(words)}: {item}" for item, words in by_item.items())
    return f"{first_capital('; '.join(said))}." if by_item else "Nothing."


def first_capital(words: str) -> str:
    """Return words with a capital at their start; names keep theirs."""
    return words[:1].upper() + words[1:]
