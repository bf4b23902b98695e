"""What the tack room shows: what hangs there, and whom it fits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.fit.answers import Answer
from fitting.looks import Seen
from fitting.models import Loan, Part, SetPart, Tack, TackSet, Yard
from fitting.pieces import KIND_WORDS, part_word
from fitting.reads.outlook import seen
from fitting.told import Verdict, listed, verdicts
from fitting.units import LengthUnit, show_length, show_range

MOST_COLUMNS: Final = 6  # youngsters beside each other; more: only those it fits
SHOWN_PARTS: Final = 2
SHOWN_NAMES: Final = 6
FITS: Final = (Answer.GOOD, Answer.WATCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A youngster at the head of a column."""

    name: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What an item is on one youngster."""

    name: str
    key: str
    answer: Answer
    more: str


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
    cells: tuple[Cell, ...] = ()
    runs: tuple[Run, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """The made-up sets, or the items of one kind."""

    title: str
    rows: tuple[ItemRow, ...]
    of_sets: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneRow:
    """An item that was taken down."""

    name: str
    key: str
    gone: date


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPage:
    """The tack room; ``columns`` is empty where there are too many youngsters."""

    columns: tuple[Column, ...]
    many: bool
    groups: tuple[Rows, ...]
    gone: tuple[GoneRow, ...]
    can_make_up: bool

    @property
    def empty(self) -> bool:
        """Whether nothing ever hung here."""
        return not self.groups and not self.gone


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
            Column(name=cell.name, key=cell.key)
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


def tack_room(yard: Yard) -> RoomPage:
    """Return the tack room (9 queries: horses twice, tack and sets with theirs)."""
    rows = list(yard.tack.prefetch_related("parts", "loans__to"))
    hanging = [row for row in rows if row.gone is None]
    sight = _sight(yard)
    unit: LengthUnit = yard.length_unit  # type: ignore[assignment]
    return RoomPage(
        columns=() if sight.many else sight.columns,
        many=sight.many,
        groups=(*_sets(yard, sight), *_kinds(hanging, sight, unit)),
        gone=tuple(
            GoneRow(name=row.name, key=row.key, gone=row.gone)
            for row in rows
            if row.gone is not None
        ),
        can_make_up=any(row.kind == Tack.Kind.BRIDLE for row in hanging),
    )


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
    return Cell(name=column.name, key=column.key, answer=answer, more=more)


def _sets(yard: Yard, sight: _Sight) -> tuple[Rows, ...]:
    sets = yard.sets.prefetch_related("parts__tack")
    rows = tuple(_set_row(row, sight) for row in sets)
    return (Rows(title="Made-up sets", rows=rows, of_sets=True),) if rows else ()


def _kinds(rows: Sequence[Tack], sight: _Sight, unit: LengthUnit) -> tuple[Rows, ...]:
    return tuple(
        Rows(
            title=title,
            rows=tuple(_item_row(r, sight, unit) for r in rows if r.kind == kind),
        )
        for kind, (title, _) in KIND_WORDS.items()
        if any(row.kind == kind for row in rows)
    )


def _item_row(row: Tack, sight: _Sight, unit: LengthUnit) -> ItemRow:
    size = size_and_label(row.parts.all(), row.label_size, unit)
    item = ItemRow(name=row.name, key=row.key, size=size, about=about(row))
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


def size_and_label(parts: Iterable[Part], label: str, unit: LengthUnit) -> str:
    """Return the measured size beside the label's; the first counts."""
    sized = [(part, size_of(part, unit)) for part in parts]
    known = [(part, size) for part, size in sized if size]
    said = _measured(known) if known else "Not measured"
    if not label:
        return f"{said}."
    return f"{said}; the label says {label}."


def _measured(known: Sequence[tuple[Part, str]]) -> str:
    if len(known) == 1:
        return f"Measured {known[0][1]}"
    shown = [f"{part_word(part.part)} {size}" for part, size in known[:SHOWN_PARTS]]
    more = len(known) - SHOWN_PARTS
    if more > 0:
        shown.append(f"{more} more part{'s' if more > 1 else ''}")
    return f"Measured {listed(shown)}"


def size_of(part: Part, unit: LengthUnit) -> str:
    """Return the size a part is known by."""
    if part.length_mm:
        return show_length(part.length_mm, unit)
    if part.shortest_mm and part.longest_mm:
        return show_range(part.shortest_mm, part.longest_mm, unit)
    one = part.longest_mm or part.shortest_mm
    return show_length(one, unit) if one else ""


def about(row: Tack) -> str:
    """Return whose an item is, and to whom it is lent."""
    said = [f"Belongs to {row.belongs_to}."] if row.belongs_to else []
    said += [loan_words(loan) for loan in row.loans.all() if loan.returned is None]
    return " ".join(said)


def loan_words(loan: Loan) -> str:
    """Return a loan in a sentence: to whom, the lender's hole, back by when."""
    words = f"Lent to {loan.to.name}"
    if loan.own_hole:
        words += f"; the lender's own hole is {loan.own_hole}"
    if loan.back_by and loan.returned is None:
        words += f"; back by {say_day(loan.back_by)}"
    if loan.returned:
        words += f"; back since {say_day(loan.returned)}"
    return f"{words}."


def say_day(day: date) -> str:
    """Return a day as it is said: 26 Nov 2026."""
    return f"{day.day} {day:%b %Y}"
