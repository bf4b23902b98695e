"""What a list comes to, told to the keeper: sentences with their lines, sums."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby, islice
from typing import Final

from fitting.body import MEASURES, measure_by_key, middle
from fitting.bringing_in.values import Entry, KnownHorse, Trouble
from fitting.readings import Units, show, show_between, understood

MOST_LEFT_TOLD: Final = 200  # sentences kept of what was left; ours
MOST_TOLD: Final = 500  # sentences on one page; the lines of the rest are named; ours
MOST_LOOKED_AT: Final = 300  # ticks on one page; ours


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One sentence, and the lines that it is said of: ``3, 8 to 12``."""

    lines: str
    said: str

    @property
    def whole(self) -> str:
        """The sentence with its lines."""
        return f"{self.lines}: {self.said}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """One measurement to be looked at: what a tick stands for, and why."""

    key: str
    lines: str
    title: str
    doubts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One measurement to be summed; the middle of its readings in mm, kg or score."""

    horse: str
    measure: str
    on: date
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """All measurements of one measure of one horse, in words."""

    horse: str
    measure: str
    count: int
    days: str
    sizes: str


def tell(troubles: Iterable[Trouble]) -> tuple[Told, ...]:
    """Return sentences with all their lines, in the order of the first of these."""
    lines: dict[str, list[int]] = {}
    for trouble in troubles:
        lines.setdefault(trouble.said, []).append(trouble.line)
    told = [Told(lines=lines_words(at), said=said) for said, at in lines.items()]
    rest = [line for at in list(lines.values())[MOST_TOLD:] for line in at]
    if rest:
        said = "The same kind of thing: mend those above first."
        told[MOST_TOLD:] = [Told(lines=lines_words(rest), said=said)]
    return tuple(told)


def lines_words(lines: Iterable[int]) -> str:
    """Return lines in words: ``Line 3`` or ``Lines 3, 8 to 12``."""
    ordered = sorted(set(lines))
    runs = []
    for _, run in groupby(enumerate(ordered), key=lambda at: at[1] - at[0]):
        numbers = [number for _, number in run]
        joined = f"{numbers[0]} to {numbers[-1]}"
        runs.append(joined if len(numbers) > 1 else str(numbers[0]))
    return f"{'Line' if len(ordered) == 1 else 'Lines'} {', '.join(runs)}"


def looked_at(
    entries: Iterable[Entry], horses: Iterable[KnownHorse], units: Units
) -> tuple[Looked, ...]:
    """Return what is to be looked at, as much as one page holds."""
    names = {horse.key: horse.name for horse in horses}
    return tuple(
        Looked(
            key=entry.key,
            lines=lines_words(entry.lines),
            title=_title(entry, names[entry.horse], units),
            doubts=entry.doubts,
        )
        for entry in islice(entries, MOST_LOOKED_AT)
    )


def _title(entry: Entry, name: str, units: Units) -> str:
    measure = measure_by_key(entry.measure)
    size = understood(middle(entry.values), measure.dimension, units)
    method = measure.method(entry.method).name.split(",")[0]
    return f"{name}, {day_words(entry.on)}: {measure.name} {size}, {method}"


def sums(
    sizes: Iterable[Size], names: Mapping[str, str], units: Units
) -> tuple[Sum, ...]:
    """Return what stands of each measure of each horse, by the horses' names."""
    places = {measure.key: at for at, measure in enumerate(MEASURES)}
    grouped: dict[tuple[str, str], list[Size]] = {}
    for size in sizes:
        grouped.setdefault((size.horse, size.measure), []).append(size)
    ordered = sorted(grouped, key=lambda key: (names[key[0]], places[key[1]]))
    return tuple(
        _sum(names[horse], measure, grouped[horse, measure], units)
        for horse, measure in ordered
    )


def _sum(name: str, measure: str, sizes: Sequence[Size], units: Units) -> Sum:
    dimension = measure_by_key(measure).dimension
    days = sorted(size.on for size in sizes)
    values = sorted(size.value for size in sizes)
    first, last = day_words(days[0]), day_words(days[-1])
    one = show(values[0], dimension, units)
    same = one == show(values[-1], dimension, units)
    between = one if same else show_between(values[0], values[-1], dimension, units)
    return Sum(
        horse=name,
        measure=measure_by_key(measure).name.capitalize(),
        count=len(sizes),
        days=first if first == last else f"{first} to {last}",
        sizes=between,
    )


def sizes_of(entries: Iterable[Entry]) -> tuple[Size, ...]:
    """Return measurements ready to be summed."""
    return tuple(
        Size(horse=e.horse, measure=e.measure, on=e.on, value=middle(e.values))
        for e in entries
    )


def left_words(troubles: Iterable[Trouble], left: Iterable[Entry]) -> list[str]:
    """Return what was left of a list, in sentences, the first of them whole."""
    told = [told.whole for told in tell(troubles)]
    told += [
        f"{lines_words(entry.lines)}: {measure_by_key(entry.measure).name}:"
        f" {' '.join(entry.doubts)} Not ticked."
        for entry in left
    ]
    more = len(told) - MOST_LEFT_TOLD
    if more <= 0:
        return told
    return [*told[:MOST_LEFT_TOLD], f"And {more} more of the kind."]


def day_words(on: date) -> str:
    """Return a day in words: ``12 Nov 2026``."""
    return f"{on.day} {on:%b %Y}"
