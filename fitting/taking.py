"""What is said of taking a measure: how well it repeats, what would be doubted."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitting.body import Dimension, Measure, Method
from fitting.doubts import ONE_PERSON_MM, THREE_PEOPLE_MM
from fitting.readings import Units, show_between, show_difference
from fitting.sources import SOURCES

_SMALL_MM: Final = 5.0  # below this an eighth of an inch says too little
OURS: Final = "ours"
NO_BY: Final = ("by ", "from ")


def repeats_words(measure: Measure, units: Units) -> str:
    """Return how well each method of a measure repeats, with where that comes from.

    Source: as beside the methods in ``body``.
    """
    if measure.dimension == "height":
        one = show_difference(ONE_PERSON_MM, "height", units)
        three = show_difference(THREE_PEOPLE_MM, "height", units)
        return (
            f"Stick readings of one person spread by {one}, of three people by"
            f" {three}: {cited('lamas_2007')}."
        )
    told = [
        f"{', '.join(_by(measure, source, units))} ({cited(source)})"
        for source in dict.fromkeys(method.source for method in measure.methods)
    ]
    return f"A reading repeats, two times in three, to within {'; '.join(told)}."


def _by(measure: Measure, source: str, units: Units) -> Iterator[str]:
    """Yield each error of one source, with the methods that have it."""
    found: dict[str, list[str]] = {}
    for method in measure.methods:
        if method.source == source:
            name = method.name.split(",")[0]
            found.setdefault(_error(method, measure.dimension, units), []).append(name)
    for error, names in found.items():
        by = f"{', '.join(names[:-1])} or {names[-1]}" if names[1:] else names[0]
        yield f"{error} {'' if by.startswith(NO_BY) else 'by '}{by}"


def a_method(method: Method) -> str:
    """Return a method that begins a sentence: ``A tape``, ``A reading by eye``."""
    name = method.name.split(",")[0]
    if name.startswith(NO_BY):
        return f"A reading {name}"
    return f"{'An' if name[0] in 'aeiou' else 'A'} {name}"


def _error(method: Method, dimension: Dimension, units: Units) -> str:
    if method.relative:
        return f"{100 * method.error:.0f} %"
    if dimension == "score":
        return "half a point"
    if method.error < _SMALL_MM:
        return f"{method.error:.0f} mm"
    return show_difference(method.error, dimension, units)


def cited(source: str) -> str:
    """Return a source as it is named in a sentence: ``Ellis, Hollands 1998``.

    Raises:
        KeyError: there is no such source.
    """
    text = SOURCES[source].text
    return OURS if source == OURS else text[: text.index(")")].replace(" (", " ")


def doubted_words(low: float, high: float, dimension: Dimension, units: Units) -> str:
    """Return outside which sizes (mm, kg) a reading is asked about once more."""
    between = show_between(low, high, dimension, units)
    return f"Outside {between} it is asked about once more; that range is ours."
