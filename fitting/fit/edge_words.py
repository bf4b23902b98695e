"""The figures tack is judged by, in words: what they mean, and what they rest on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from itertools import groupby
from typing import Final

from fitting.fit.edges import EDGES, Decided, Edge, Evidence
from fitting.sources import SOURCES

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
Show = Callable[[float], str]


def say_mm(mm: float) -> str:
    """Return a length as it is said: ``3.2 mm``."""
    return f"{round(mm, 1):g} mm"


def say_value(edge: Edge, value: float, show: Show = say_mm) -> str:
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
    50 mm (ours)``.
    """
    known = [one for one in dict.fromkeys(decided) if one.edge in EDGES]
    alike = groupby(known, lambda one: (EDGES[one.edge].short, _whose(one), one.room))
    return "; ".join(
        f"{_figures(list(of))} ({whose}{_room(room)})" for (_, whose, room), of in alike
    )


def _room(room: float) -> str:
    return f", with {say_mm(room)} of room" if room else ""


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
        said.append(f"{means} {say_value(edge, one.value)}")
        before = short or edge.table
    return ", ".join(said)


def _whose(decided: Decided) -> str:
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
