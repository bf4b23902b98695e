"""The ages that a horse's chart marks: the first tack, the first rider."""

from __future__ import annotations

from collections.abc import Iterable

from fitting.looks import AgeMark
from starting.gates.age import TACK_FLOOR_MONTHS
from starting.programme import Programme, Stage, mounted
from starting.programme.ages import said_age


def age_marks(programme: Programme | None) -> tuple[AgeMark, ...]:
    """Return from which ages (months) the programme has tack on, and a rider up."""
    if programme is None:
        return ()
    tack = [
        stage
        for stage in programme.stages
        if (stage.floor_months or 0) >= TACK_FLOOR_MONTHS and not mounted(stage)
    ]
    ridden = [stage for stage in programme.stages if mounted(stage)]
    return (*_first("tack", tack), *_first("rider", ridden))


def _first(what: str, stages: Iterable[Stage]) -> Iterable[AgeMark]:
    months = min((stage.earliest_months for stage in stages), default=None)
    if months is not None:
        yield AgeMark(
            months=months,
            said=f"{what} from {said_age(months)}",
            said_shortly=f"{what}: {months:g} mo",
        )
