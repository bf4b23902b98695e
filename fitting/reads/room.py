"""The figures tack is judged by, as pages list them: ours, a yard's, a horse's."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from fitting.fit.edge_words import evidence, meaning, say_length
from fitting.fit.edges import EDGES, GROUPS, Change, Edge, Edges, Group, group_by_key
from fitting.fit.sound import edges_of, latest
from fitting.reads.facts import clearances, yard_changes
from fitting.reads.units import units_of
from fitting.reads.whose import Whose, shown_by


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeRow:
    """One figure: what it means, what stands, ours and its evidence, who changed it.

    ``differs``: it was changed for the yard, or for the horse, that is looked at;
    ``left_out``: so it was, but it may not stand by now.
    """

    meaning: str
    stands: str
    ours: str
    evidence: str
    changed: Change | None
    differs: bool
    left_out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupRow:
    """One table of figures; ``differs``: some of it is not as it stood before."""

    key: str
    what: str
    rows: tuple[EdgeRow, ...]
    differs: bool
    may_change: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Tables under one heading."""

    title: str
    anchor: str
    groups: tuple[GroupRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change, as it is told."""

    on: date
    by: str
    what: str
    to: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPage:
    """All figures; those that differ first. ``room``: added for the horse, by kind."""

    differing: tuple[GroupRow, ...]
    sections: tuple[Section, ...]
    edits: tuple[Edit, ...]
    room: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """What rows are made from: whose, what stands, what was changed here last."""

    whose: Whose
    edges: Edges
    own: dict[str, Change]

    def row(self, edge: Edge) -> EdgeRow:
        show = shown_by(self.whose.yard)
        stands = self.edges.change(edge.path)
        asked = self.own.get(edge.path)
        return EdgeRow(
            meaning=meaning(edge, self.edges.value(edge.path)),
            stands=show(edge, self.edges.value(edge.path)),
            ours=show(edge, edge.value),
            evidence=evidence(edge),
            changed=stands,
            differs=asked is not None,
            left_out=asked is not None and stands is None,
        )

    def group(self, group: Group) -> GroupRow:
        return GroupRow(
            key=group.key,
            what=group.what,
            rows=tuple(self.row(edge) for edge in group.edges),
            differs=any(edge.path in self.own for edge in group.edges),
            may_change=group.may_change,
        )


def room_page(whose: Whose) -> RoomPage:
    """Return every figure for a yard, or one horse, which are read (no query)."""
    horse = whose.horse
    own = {one.edge: one for one in latest(whose.changes)}
    of_yard = yard_changes(whose.yard)
    edges = edges_of(of_yard, whose.changes) if horse else edges_of(of_yard)
    look = _Look(whose=whose, edges=edges, own=own)
    unit = units_of(whose.yard).length
    groups = [(group.under, look.group(group)) for group in GROUPS]
    titles = list(dict.fromkeys(under for under, _ in groups))
    groups.sort(key=lambda one: titles.index(one[0]))
    return RoomPage(
        differing=tuple(_only_changed(row) for _, row in groups if row.differs),
        sections=tuple(
            Section(
                title=title,
                anchor=f"room-{titles.index(title)}",
                groups=tuple(row for _, row in of),
            )
            for title, of in groupby(groups, key=lambda one: one[0])
        ),
        edits=edits_of(whose),
        room=tuple(
            f"{kind.replace('_', ' ')}: {say_length(mm, unit)}"
            for kind, mm in (clearances(horse) if horse else ())
        ),
    )


def _only_changed(group: GroupRow) -> GroupRow:
    """Return a table with only what differs in it."""
    return replace(group, rows=tuple(row for row in group.rows if row.differs))


def edits_of(whose: Whose, group: str = "") -> tuple[Edit, ...]:
    """Return what was changed, the newest first; of one table, if it is named."""
    show = shown_by(whose.yard)
    return tuple(
        _edit(change, "" if change.to is None else show(EDGES[change.edge], change.to))
        for change in reversed(whose.changes)
        if not group or EDGES[change.edge].table == group
    )


def _edit(change: Change, to: str) -> Edit:
    edge = EDGES[change.edge]
    table = group_by_key(edge.table)
    what = table.what if table else edge.table
    return Edit(
        on=change.on,
        by=change.by,
        what=f"{what}: {meaning(edge)}",
        to=to,
        why=change.why,
    )
