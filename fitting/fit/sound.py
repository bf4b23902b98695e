"""Figures that stand together: in their order, and none under what hurts the horse."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Final

from fitting.fit.edge_words import SAID, say_value
from fitting.fit.edges import (
    ASCENDING,
    EDGES,
    GROUPS,
    OURS,
    Change,
    Edge,
    Edges,
    Group,
)
from fitting.sources import SOURCES
from fitting.units import LengthUnit

# Ours: the largest figure that can be meant, by unit, and whether it may be a part.
MOST: Final = {"mm": 1000.0, "holes": 10.0, "days": 730.0, "months": 72.0, "share": 2.0}
WHOLE: Final = frozenset({"holes", "days", "months"})
# Where what is good begins and ends in the same place, nothing is good.
MUST_DIFFER: Final = ("good_from", "good_to")

Say = Callable[[Edge, float], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why a figure may not stand, in a sentence."""

    edge: str
    why: str


def troubles(edges: Edges, say: Say = say_value) -> tuple[Trouble, ...]:
    """Return why figures may not stand together; nothing if they may.

    ``say`` shows a figure of an edge; in millimetres if nothing else is given.
    """
    return tuple(
        trouble
        for group in GROUPS
        for trouble in (*_alone(edges, group, say), *_together(edges, group, say))
    )


def _alone(edges: Edges, group: Group, say: Say) -> Iterator[Trouble]:
    """Yield what is wrong with a figure whatever the others are."""
    for edge in group.edges:
        if edges.change(edge.path) is None:
            continue
        why = _why_not(edge, edges.value(edge.path), say)
        if why:
            yield Trouble(edge=edge.path, why=why)


def _why_not(edge: Edge, value: float, say: Say) -> str:
    """Return why one figure may not stand on its own, or nothing."""
    if edge.quoted:
        return "This is what others say, with its source: nobody changes it here."
    floor = edge.floor
    if floor is not None and value < floor.value:
        return (
            f"Never under {say(edge, floor.value)}: {floor.because}"
            f" ({SOURCES[floor.source].text})."
        )
    if edge.unit in WHOLE and value != round(value):
        return "A whole number is meant here."
    if edge.name not in ASCENDING and value < 0:
        return "This is never less than nothing."
    if abs(value) > MOST[edge.unit]:
        return f"{say(edge, MOST[edge.unit])} is the most that can be meant here."
    return ""


def _together(edges: Edges, group: Group, say: Say) -> Iterator[Trouble]:
    """Yield which figures do not keep their order.

    It stands by the figure that was changed; by the larger, if both were.
    """
    for low, high, apart in _ordered(group):
        small, large = edges.value(low.path), edges.value(high.path)
        if small < large or (small == large and not apart):
            continue
        at = high if edges.change(high.path) is not None else low
        than = "more than" if apart else "at least"
        other = f"“{SAID.get(low.name, low.says)}”, which is {say(low, small)}"
        if at is low:
            than = "less than" if apart else "at most"
            other = f"“{SAID.get(high.name, high.says)}”, which is {say(high, large)}"
        yield Trouble(edge=at.path, why=f"This has to be {than} {other}.")


def _ordered(group: Group) -> Iterator[tuple[Edge, Edge, bool]]:
    """Yield pairs of figures in their order, and whether they have to differ."""
    by_name = {edge.name: edge for edge in group.edges}
    usual = [by_name[name] for name in ASCENDING if name in by_name]
    for low, high in pairwise(usual):
        yield low, high, (low.name, high.name) == MUST_DIFFER
    for edge in group.edges:
        for path in edge.less_than:
            yield edge, EDGES[path], True


def latest(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Return the last word on every edge, leaving out what went back."""
    found = {change.edge: change for change in changes}
    return tuple(change for change in found.values() if change.to is not None)


def laid_over(yard: Iterable[Change], horse: Iterable[Change] = ()) -> Edges:
    """Return figures one over the other, sound or not: a horse's own, the yard's."""
    last = {
        change.edge: change
        for change in (*latest(yard), *latest(horse))
        if change.edge in EDGES
    }
    return Edges(changed=tuple(last[path] for path in sorted(last)))


def edges_of(
    yard: Iterable[Change],
    horse: Iterable[Change] = (),
    told_in: LengthUnit = "mm",
) -> Edges:
    """Return the figures for a yard, or for one horse: its own, the yard's, ours.

    What is not sound by now, as when a floor was raised since, is left out with all
    the changes of its table: it never makes tack good.
    """
    laid = laid_over(tuple(yard), tuple(horse))
    return _only_sound(replace(laid, told_in=told_in))


@lru_cache(maxsize=256)
def _only_sound(edges: Edges) -> Edges:
    found = troubles(edges)
    if not found:
        return edges
    wrong = {EDGES[trouble.edge].table for trouble in found}
    kept = tuple(c for c in edges.changed if EDGES[c.edge].table not in wrong)
    if kept == edges.changed:
        return replace(OURS, told_in=edges.told_in)
    return _only_sound(replace(edges, changed=kept))
