"""The figures tack is judged by, each with its source, and those a yard put in place.

Every one of them is read from ``clearances.toml``: a new one there needs no code here.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from importlib.resources import files
from typing import Any, Final, Literal, Self

from fitting.units import LengthUnit

Unit = Literal["mm", "holes", "days", "months", "share"]
Evidence = Literal["research", "rule", "common_practice", "ours"]

NUMBERS: Final[dict[str, Any]] = tomllib.loads(
    files("fitting.fit").joinpath("clearances.toml").read_text(encoding="utf-8")
)
UNITS: Final[tuple[Unit, ...]] = ("mm", "holes", "days", "months", "share")
FLOORS: Final = "floor"
# The usual names, in their order: part less body, from too small to too large.
ASCENDING: Final = ("no_below", "good_from", "good_to", "no_above")


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """What nobody may go under, as the horse would be hurt; in the figure's unit."""

    value: float
    source: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One figure of ours: in a table, of a name, with its unit and its evidence.

    ``path`` is table and name: ``strap.noseband.good_from``. ``says``: what it means,
    where its name is not one of the usual four. ``quoted``: others' word, which nobody
    changes. ``less_than``: paths of figures that it stays under. ``short``: what an
    answer calls what it is of, if it is not what the answer is about anyway.
    """

    path: str
    table: str
    name: str
    value: float
    unit: Unit
    source: str
    evidence: Evidence
    says: str = ""
    quoted: bool = False
    less_than: tuple[str, ...] = ()
    floor: Floor | None = None
    short: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A table of figures: what they are of, and under which heading they stand."""

    key: str
    under: str
    what: str
    edges: tuple[Edge, ...]

    @property
    def may_change(self) -> bool:
        """Whether a yard may put figures of its own in place of any."""
        return any(not edge.quoted for edge in self.edges)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A figure put in place of ours, by whom, when and why; in the edge's unit.

    ``to`` None: back to what stood before, ours or the yard's. ``written``: as it was
    typed, with its unit. ``horse``: for that horse alone; empty: for the whole yard.
    """

    edge: str
    to: float | None
    by: str
    on: date
    why: str
    written: str = ""
    horse: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """One edge that an answer went by; its value, and who changed it, if anybody did.

    ``room``: what was added for this horse, of that value. ``told_in``: the unit it is
    told in; the value stays in its own.
    """

    edge: str
    value: float
    room: float = 0.0
    by: str = ""
    on: date | None = None
    horse: str = ""
    told_in: LengthUnit = "mm"

    def with_room(self, room_mm: float) -> Self:
        """Return the edge with room added for a horse."""
        return replace(self, value=self.value + room_mm, room=room_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The figures one horse's tack is judged by: ours, but for those changed.

    ``changed``: at most one an edge, sound with the rest. ``told_in``: the unit that
    they, and what is held to them, are told in.
    """

    changed: tuple[Change, ...] = ()
    told_in: LengthUnit = "mm"

    def change(self, path: str) -> Change | None:
        """Return what stands in place of ours; None: ours."""
        return next((one for one in self.changed if one.edge == path), None)

    def value(self, path: str) -> float:
        """Return a figure, in its unit."""
        if not self.changed:  # as nearly everywhere, and asked very often
            return EDGES[path].value
        found = self.change(path)
        if found is None or found.to is None:
            return EDGES[path].value
        return found.to

    def decided(self, *paths: str) -> tuple[Decided, ...]:
        """Return figures as what an answer went by."""
        if not self.changed:
            return _ours(paths, self.told_in)
        return tuple(self._decided(path) for path in paths)

    def _decided(self, path: str) -> Decided:
        found = self.change(path)
        if found is None:
            value = self.value(path)
            return Decided(edge=path, value=value, told_in=self.told_in)
        return Decided(
            edge=path,
            value=self.value(path),
            by=found.by,
            on=found.on,
            horse=found.horse,
            told_in=self.told_in,
        )


OURS: Final = Edges()


@lru_cache(maxsize=256)  # the same for every part of a kind
def _ours(paths: tuple[str, ...], told_in: LengthUnit) -> tuple[Decided, ...]:
    return tuple(
        Decided(edge=path, value=EDGES[path].value, told_in=told_in) for path in paths
    )


def _tables(numbers: dict[str, Any], above: str = "") -> Iterator[tuple[str, Any]]:
    """Yield every table that holds figures, with its path, in the file's order."""
    for key, inner in numbers.items():
        if not isinstance(inner, dict) or "source" in inner or key == FLOORS:
            continue
        path = f"{above}{key}"
        if any(isinstance(one, dict) and "source" in one for one in inner.values()):
            yield path, inner
        yield from _tables(inner, f"{path}.")


def _edge(key: str, table: dict[str, Any], name: str, floors: dict[str, Any]) -> Edge:
    row, path = table[name], f"{key}.{name}"
    unit = next(unit for unit in UNITS if unit in row)
    return Edge(
        path=path,
        table=key,
        name=name,
        value=float(row[unit]),
        unit=unit,
        source=row["source"],
        evidence=row["class"],
        says=row.get("says", ""),
        quoted=row.get("quoted", False),
        less_than=tuple(row.get("less_than", ())),
        floor=_floor(floors.get(path), unit),
        short=table.get("short", ""),
    )


def _floor(row: dict[str, Any] | None, unit: Unit) -> Floor | None:
    if row is None:
        return None
    return Floor(value=float(row[unit]), source=row["source"], because=row["because"])


def groups_of(numbers: dict[str, Any]) -> tuple[Group, ...]:
    """Return every table of figures, in the order of the file."""
    floors = numbers.get(FLOORS, {})
    return tuple(
        Group(
            key=path,
            under=table.get("under", _words(path.partition(".")[0])),
            what=table.get("what", _words(path)),
            edges=tuple(
                _edge(path, table, name, floors)
                for name, row in table.items()
                if isinstance(row, dict) and "source" in row
            ),
        )
        for path, table in _tables(numbers)
    )


def _words(path: str) -> str:
    said = path.replace(".", ", ").replace("_", " ")
    return f"{said[:1].upper()}{said[1:]}"


GROUPS: Final = groups_of(NUMBERS)
EDGES: Final = {edge.path: edge for group in GROUPS for edge in group.edges}


def group_by_key(key: str) -> Group | None:
    """Return the table of that path; None: there is none."""
    return next((group for group in GROUPS if group.key == key), None)
