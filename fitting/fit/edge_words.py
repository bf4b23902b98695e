"""The figures tack is judged by, in words: what they mean, and what they rest on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from itertools import groupby
from typing import Final

from fitting.fit.edges import EDGES, Decided, Edge, Evidence
from fitting.sources import SOURCES
from fitting.units import LengthUnit, show_off

SAID: Final = {
    "no_below": "a no under",
    "good_from": "good from",
    "good_to": "good up to",
    "no_above": "a no over",
}
NO_SHORTER: Final = "a no when more than"  # and then: ``110 mm shorter``
CLASSES: Final[dict[Evidence, str]] = {
    "research": "research",
    "rule": "a rule",
    "common_practice": "common practice, no published source",
    "ours": "ours, no published source",
}
IN_MM: Final = "thickness."  # callipers are ruled in mm, and bits sold by them
Show = Callable[[float], str]


def say_length(mm: float, unit: LengthUnit = "mm") -> str:
    """Return a length as it is said: ``3.2 mm``, ``⅛ in (3.2 mm)``."""
    return show_off(round(mm, 1), unit, "g")


def say_value(edge: Edge, value: float, show: Show = say_length) -> str:
    """Return a figure with its unit; one under nothing as ``110 mm shorter``.

    ``show``: how a length is shown.
    """
    if edge.unit == "mm":
        shorter = " shorter" if value < 0 else ""
        return f"{show(abs(value))}{shorter}"
    if edge.unit == "share":
        return f"{value:g} of it"
    word = edge.unit if value != 1 else edge.unit.removesuffix("s")
    return f"{value:g} {word}"


def meaning(edge: Edge, value: float = 0.0) -> str:
    """Return what a figure means: ``good from``; of a value that is known, for it."""
    if value < 0 and edge.name == "no_below":
        return NO_SHORTER
    return edge.says or SAID.get(edge.name, edge.name.replace("_", " "))


def evidence(edge: Edge) -> str:
    """Return what a figure rests on, its source spelled out, and of which class."""
    said = CLASSES[edge.evidence]
    if edge.source in CLASSES:
        return said
    return f"{SOURCES[edge.source].text} ({said})"


def decided_words(decided: Iterable[Decided]) -> str:
    """Return which figures an answer went by, and whether they were changed.

    Figures side by side of the same standing share its words: ``good from 10 mm, up to
    50 mm (ours)``; behind inches, that have their mm in brackets, it follows a colon.
    """
    known = [one for one in dict.fromkeys(decided) if one.edge in EDGES]
    alike = groupby(known, lambda one: (EDGES[one.edge].short, _whose(one)))
    return "; ".join(_standing(list(of), whose) for (_, whose), of in alike)


def _standing(of: Sequence[Decided], whose: str) -> str:
    """Return figures of the same standing, with what it is."""
    if any(one.told_in == "in" for one in of):
        return f"{_figures(of)}: {whose}"
    return f"{_figures(of)} ({whose})"


def _figures(of: Sequence[Decided]) -> str:
    """Return figures of the same standing; what was named is not named again."""
    said, before = [], ""
    for one in of:
        edge = EDGES[one.edge]
        means, short = meaning(edge, one.value), edge.short
        if before and means == SAID["good_to"]:
            means = means.removeprefix("good ")
        if short and short != before:
            means = f"{short} {means}"
        unit = "mm" if one.edge.startswith(IN_MM) else one.told_in
        said.append(f"{means} {say_value(edge, one.value, _shown_in(unit))}")
        before = short or edge.table
    return ", ".join(said)


def _shown_in(unit: LengthUnit) -> Show:
    return lambda mm: say_length(mm, unit)


def _whose(decided: Decided) -> str:
    """Return whose a figure is, and which room was added to it."""
    said, room = _changed(decided), decided.room
    return f"{said}, with {say_length(room, decided.told_in)} of room" if room else said


def _changed(decided: Decided) -> str:
    edge = EDGES[decided.edge]
    if decided.on is None:
        return {"research": "research", "rule": "a rule"}.get(
            edge.evidence, edge.evidence.replace("_", " ")
        )
    whose = f"for {decided.horse}" if decided.horse else "yours"
    by = f" by {decided.by}" if decided.by else ""
    return f"{whose}, changed{by} on {_day(decided.on)}"


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
