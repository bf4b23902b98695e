"""Where what a try-on taught and what was measured are apart by more than both err."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from fitting.growth import Bound, Growth, Spread
from fitting.growth.bounds import days_of, of_measure
from fitting.taught import Lesson


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """A try-on and the measurements of one measure, apart by more than both errors.

    ``size`` and ``error`` (mm, one SD) are what the measurements alone say of the day
    of the try-on; ``measured_on`` is the measuring day nearest to it.
    """

    measure: str
    lesson: Lesson
    size: float
    error: float
    measured_on: date

    @property
    def tried_on(self) -> date:
        """The day of the try-on."""
        return self.lesson.bound.on


def disagreements(
    growth: Growth, lessons: Sequence[Lesson]
) -> tuple[Disagreement, ...]:
    """Return where a try-on and measurements differ by more than both errors.

    The try-on's error is half the rule's good window, the measurements' one SD of the
    size that they alone give for the day. Ours.
    """
    measured = growth.by_readings()
    sizes = _sizes(measured, [lesson.bound for lesson in lessons])
    found = (_disagreement(measured, lesson, sizes) for lesson in lessons)
    return tuple(one for one in found if one is not None)


def _sizes(measured: Growth, bounds: Sequence[Bound]) -> dict[tuple[str, date], Spread]:
    """Return the sizes on the days of the bounds, a measure at a time: that is fast."""
    found: dict[tuple[str, date], Spread] = {}
    for measure in {bound.measure for bound in bounds}:
        days = days_of(of_measure(bounds, measure))
        spreads = measured.at_days(measure, days) if measured.known(measure) else ()
        found |= {(measure, day): at for day, at in zip(days, spreads, strict=False)}
    return found


def _disagreement(
    measured: Growth, lesson: Lesson, sizes: Mapping[tuple[str, date], Spread]
) -> Disagreement | None:
    bound = lesson.bound
    days = measured.measured_on(bound.measure)
    spread = sizes.get((bound.measure, bound.on))
    if spread is None:
        return None
    size, error = spread.quantile(0.5), spread.sd
    apart = {
        "at_least": bound.value - size,
        "at_most": size - bound.value,
        "about": abs(size - bound.value),
    }[bound.kind]
    if apart <= bound.sigma + error:
        return None
    return Disagreement(
        measure=bound.measure,
        lesson=lesson,
        size=size,
        error=error,
        measured_on=min(days, key=lambda day: abs(day - bound.on)),
    )
