"""What is to be done shares its days: which may, which may not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from starting.measuring import Errand
from starting.outlook.care_days import vaccinated
from starting.outlook.care_due import named_next
from starting.outlook.facts import HorseFacts
from starting.outlook.to_dos import CARE_NAMES, ToDo
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION


def first_of_each(to_dos: Sequence[ToDo]) -> tuple[ToDo, ...]:
    """Return one of each name: the one that is due first serves the others too."""
    first: dict[tuple[str, str], ToDo] = {}
    for one in sorted(to_dos, key=lambda one: (one.due_by, not one.fixed)):
        first.setdefault((one.kind, one.name), one)
    return tuple(first.values())


def errands_of(horse: HorseFacts, to_dos: Sequence[ToDo]) -> tuple[Errand, ...]:
    """Return those that may share a day with others.

    Nothing is tried on while a horse is to be left in peace after a vaccination.
    """
    quiet = vaccinated(horse.care)
    return tuple(
        _clear_of(quiet, errand) if one.kind == "try_on" else errand
        for one in to_dos
        if not one.fixed
        for errand in (
            Errand(key=one.key(horse), useful_from=one.useful_from, due_by=one.due_by),
        )
    )


def _clear_of(vaccinations: Sequence[date], errand: Errand) -> Errand:
    """Return the errand after the quiet days in its window, else before them."""
    for start in vaccinations:
        after = start + timedelta(days=QUIET_DAYS_AFTER_VACCINATION + 1)
        before = start - timedelta(days=1)
        if after <= errand.useful_from or start > errand.due_by:
            continue
        if after <= errand.due_by:
            errand = replace(errand, useful_from=after)
        elif errand.useful_from <= before:
            errand = replace(errand, due_by=before)
    return errand


def on_their_days(
    horse: HorseFacts, to_dos: Sequence[ToDo], days: Mapping[str, date]
) -> tuple[tuple[ToDo, date], ...]:
    """Return each with its day: the shared one, or the one that stands."""
    return tuple((one, days.get(one.key(horse), one.due_by)) for one in to_dos)


def booked_days(horse: HorseFacts, on: date) -> tuple[date, ...]:
    """Return the days to come that somebody has named for a visit.

    Not those of a vaccination or a gelding: nothing else is done on them.
    """
    kinds = (kind for kind in CARE_NAMES if kind not in {"vaccination", "gelding"})
    named = (named_next(horse.care, kind, on) for kind in kinds)
    return tuple(day for day in named if day is not None and day >= on)
