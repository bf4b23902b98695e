"""Where a try-on and the tape do not agree, and what a try-on taught, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.body import measure_by_key
from fitting.disagreements import Disagreement, disagreements
from fitting.fit.judging import say_day
from fitting.growth import Growth
from fitting.pieces import part_word
from fitting.readings import Units, show, show_between
from fitting.taught import Lesson
from fitting.tryons import How
from fitting.units import show_off

SAT: Final = {
    "sits_right": "sat right",
    "too_short": "was too short",
    "too_long": "was too long",
}
_DONE: Final[dict[How, str]] = {
    "worn": "put on",
    "held": "held against the horse on",
}
_TRIED: Final = (
    "tried/"  # the pages of try-ons begin so; other records tell of them too
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """A try-on and the measurements of one measure that do not agree (mm).

    ``low`` and ``high``: between what the size was by the try-on, None where it sets no
    end. ``size``, ``error``: what the measurements say of that day, with one SD.
    ``record``: the page of what was written of the try-on, below the horse's pages.
    """

    measure: str
    item: str
    part: str
    how: How
    seen: str
    hole: int | None
    tried_on: date
    low: float | None
    high: float | None
    size: float
    error: float
    measured_on: date
    record: str = ""

    @property
    def of_try_on(self) -> bool:
        """Whether it was written in as a try-on; else a session told of it."""
        return self.record.startswith(_TRIED)


def contradictions(
    growth: Growth, lessons: Sequence[Lesson]
) -> tuple[Contradiction, ...]:
    """Return the contradictions that are still to be settled, the newest first.

    A later try-on of the same item that speaks of the same measure settles one.
    """
    last: dict[tuple[str, str], date] = {}
    for lesson in lessons:
        key = lesson.item, lesson.bound.measure
        last[key] = max(lesson.bound.on, last.get(key, lesson.bound.on))
    found = (
        _contradiction(one)
        for one in disagreements(growth, lessons)
        if one.tried_on == last[one.lesson.item, one.measure]
    )
    return tuple(sorted(found, key=lambda one: (one.tried_on, one.item), reverse=True))


def _contradiction(found: Disagreement) -> Contradiction:
    lesson = found.lesson
    low, high = _ends(lesson)
    return Contradiction(
        measure=found.measure,
        item=lesson.item,
        part=lesson.part,
        how=lesson.how,
        seen=lesson.seen,
        hole=lesson.hole,
        tried_on=found.tried_on,
        low=low,
        high=high,
        size=found.size,
        error=found.error,
        measured_on=found.measured_on,
        record=lesson.record,
    )


def _ends(lesson: Lesson) -> tuple[float | None, float | None]:
    """Return between which sizes a lesson says the body lies; None: no end that way."""
    bound = lesson.bound
    match bound.kind:
        case "at_least":
            return bound.value, None
        case "at_most":
            return None, bound.value
        case _:
            return bound.value - bound.sigma, bound.value + bound.sigma


def tried_sentence(one: Contradiction, units: Units) -> str:
    """Return what the try-on says: what was seen, and what the size is by that."""
    hole = "" if one.hole is None else f" on hole {one.hole}"
    seen = f"{part_word(one.part)} {SAT[one.seen]}"
    said = _between(one.measure, (one.low, one.high), units)
    done = f"{_DONE[one.how]} {say_day(one.tried_on)}{hole}"
    return f"{one.item}, {done}: {seen}. By that, {said}."


def measured_sentence(one: Contradiction, units: Units) -> str:
    """Return what the measurements say of that day, and when the nearest was taken."""
    measure = measure_by_key(one.measure)
    size = show(one.size, measure.dimension, units)
    same = one.measured_on == one.tried_on
    when = "that day" if same else f"nearest on {say_day(one.measured_on)}"
    error = show_off(max(1, round(one.error)), units.length)
    return (
        f"Measured {when}. By what was measured, {measure.name} was {size} on the day"
        f" of the try-on, give or take {error}."
    )


def taught_sentence(lessons: Iterable[Lesson], units: Units) -> str:
    """Return what a try-on taught of the body: So: head length at least 37¾ in."""
    said = [_between(one.bound.measure, _ends(one), units) for one in lessons]
    return f"So: {'; '.join(said)}." if said else ""


def _between(key: str, ends: tuple[float | None, float | None], units: Units) -> str:
    """Return a measure's name and between which sizes it lies."""
    measure, (low, high) = measure_by_key(key), ends
    if low is not None and high is not None:
        said = show_between(low, high, measure.dimension, units)
    elif low is not None:
        said = f"at least {show(low, measure.dimension, units)}"
    else:
        said = f"at most {show(high or 0.0, measure.dimension, units)}"
    return f"{measure.name} {said}"
