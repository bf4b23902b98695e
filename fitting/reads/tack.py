"""What the tack room shows: what hangs there, and whom it fits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.fit.answers import Answer
from fitting.fit.kind_cautions import SETS, brief_cautions_of
from fitting.listed import listed
from fitting.looks import Seen
from fitting.models import SetPart, Tack, TackSet, Yard
from fitting.pieces import KIND_WORDS
from fitting.reads.lent import LoanRow, loan_row
from fitting.reads.outlook import seen
from fitting.reads.sizes import size_and_label
from fitting.told import Verdict, verdicts
from fitting.units import LengthUnit

MOST_COLUMNS: Final = 6  # youngsters beside each other; more: only those it fits
SHOWN_NAMES: Final = 6
BRIEF_FROM: Final = 60  # items: from here on a phone shows a kind at a time; ours
ALL: Final = ""
LENT: Final = "lent"
FITS: Final = (Answer.GOOD, Answer.WATCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A youngster at the head of a column, or in a run of names.

    ``stale``: how old the size is that an answer on it goes by, if too old.
    """

    name: str
    key: str
    stale: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What an item is on one youngster."""

    name: str
    key: str
    answer: Answer
    more: str
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Youngsters that an item is alike on, as a run of names."""

    answer: Answer
    names: tuple[Column, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemRow:
    """One item, or one made-up set: a cell each, or of many youngsters the runs."""

    name: str
    key: str
    size: str
    about: str
    lent: tuple[LoanRow, ...] = ()
    cells: tuple[Cell, ...] = ()
    runs: tuple[Run, ...] = ()


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sight:
    """The youngsters with their verdicts by item."""

    columns: tuple[Column, ...]
    told: Mapping[str, Mapping[str, Verdict]]
    many: bool

    def row(self, item: ItemRow) -> ItemRow:
        """Return a row with what it is on each youngster."""
        cells = [self._cell(column, item.name) for column in self.columns]
        if self.many:
            return replace(item, runs=_runs(cells))
        return replace(item, cells=tuple(cells))

    def _cell(self, column: Column, item: str) -> Cell:
        return cell_of(column, self.told[column.key].get(item))


def _runs(cells: Sequence[Cell]) -> tuple[Run, ...]:
    """Return those it fits: good first, then only just."""
    found = []
    for answer in FITS:
        names = [
            Column(name=cell.name, key=cell.key, stale=cell.stale)
            for cell in cells
            if cell.answer is answer
        ]
        more = len(names) - SHOWN_NAMES
        if more <= 1:  # to say "and 1 more" takes as much room as the name
            more = 0
        if names:
            shown = tuple(names[: len(names) - more])
            found.append(Run(answer=answer, names=shown, more=more))
    return tuple(found)


def tack_room(yard: Yard, today: date, shown: str = "") -> RoomPage:
    """Return the tack room (9 queries: horses twice, tack and sets with theirs).

    ``shown``: a kind of tack, ``sets`` or ``lent``; anything else: all of it.
    """
    rows = sorted(
        yard.tack.prefetch_related("parts", "loans__to", "loans__tack"),
        key=lambda row: row.name.casefold(),
    )
    hanging = [row for row in rows if row.gone is None]
    sight = _sight(yard)
    sets = list(yard.sets.prefetch_related("parts__tack"))
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


def _sight(yard: Yard) -> _Sight:
    young = yard.horses.filter(grown=False).values_list("name", "key")
    looks: Mapping[str, Seen] = seen(yard)
    columns = tuple(Column(name=name, key=key) for name, key in young)
    told = {
        column.key: verdicts(looks[column.key].fits) if column.key in looks else {}
        for column in columns
    }
    return _Sight(columns=columns, told=told, many=len(columns) > MOST_COLUMNS)


def cell_of(column: Column, told: Verdict | None) -> Cell:
    """Return what an item is on a youngster, with its hole or what would tell."""
    if told is None:
        answer, more = Answer.NOT_KNOWN, ""
    elif told.answer is Answer.NOT_KNOWN:
        answer, more = told.answer, told.known or told.ask
    else:
        answer = told.answer
        more = f"hole {told.hole}" if told.hole and answer is not Answer.NO else ""
    return Cell(
        name=column.name,
        key=column.key,
        answer=answer,
        more=more,
        stale=told.stale if told else "",
    )


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


def _sets(sets: Sequence[TackSet], sight: _Sight) -> tuple[Rows, ...]:
    rows = tuple(_set_row(row, sight) for row in sets if row.gone is None)
    return (Rows(kind=SETS, title="Made-up sets", rows=rows),) if rows else ()


def _kinds(rows: Sequence[Tack], sight: _Sight, today: date) -> tuple[Rows, ...]:
    return tuple(
        Rows(
            kind=kind,
            title=title,
            rows=tuple(_item_row(r, sight, today) for r in rows if r.kind == kind),
        )
        for kind, (title, _) in KIND_WORDS.items()
        if any(row.kind == kind for row in rows)
    )


def _item_row(row: Tack, sight: _Sight, today: date) -> ItemRow:
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


def _set_row(row: TackSet, sight: _Sight) -> ItemRow:
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
