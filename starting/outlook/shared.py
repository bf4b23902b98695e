"""What is to be done shares its days: which may, which may not."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from starting.measuring import Due, Errand, shared_days
from starting.outlook.care_days import vaccinated
from starting.outlook.care_due import named_next
from starting.outlook.entries import Planned
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.to_dos import CARE_NAMES, ToDo
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION

LOOKED_DAYS: Final = 29  # ours: so far a day is looked for to try on what was got


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be done for one horse: its measures, and all else."""

    horse: HorseFacts
    due: tuple[Due, ...]
    to_dos: tuple[ToDo, ...]


def on_fewest_days(
    yard: YardFacts, asked: Sequence[Asked], on: date
) -> dict[str, Planned]:
    """Return all that is to be done, by horse's key, on the yard's fewest days."""
    each = {one.horse.key: first_of_each(one.to_dos) for one in asked}
    shared = shared_days(
        [replace(due, horse=one.horse.key) for one in asked for due in one.due],
        [e for one in asked for e in errands_of(one.horse, each[one.horse.key])],
        yard.free_days,
        on,
        [day for one in asked for day in booked_days(one.horse, on)],
    )
    return {
        one.horse.key: Planned(
            measuring=shared.measuring.get(one.horse.key, ()),
            on_their_days=after_getting(
                one.horse,
                on_their_days(one.horse, each[one.horse.key], shared.errands),
                yard.free_days,
            ),
            for_steps=one.to_dos,
        )
        for one in asked
    }


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
            Errand(
                key=one.key(horse),
                useful_from=one.useful_from,
                due_by=one.due_by,
                horse=horse.key,
                at_once=one.late,
            ),
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


def after_getting(
    horse: HorseFacts, planned: Sequence[tuple[ToDo, date]], free: Collection[int]
) -> tuple[tuple[ToDo, date], ...]:
    """Return the same, with what is got first tried on a day of the yard after that."""
    got: dict[str, date] = {}
    for one, day in planned:
        if one.kind == "get":
            kind = one.name.partition("-")[0]
            got[kind] = max(day, got.get(kind, day))
    return tuple(
        (one, _day_after(horse, got[one.name], free))
        if one.kind == "try_on" and day <= got.get(one.name, date.min)
        else (one, day)
        for one, day in planned
    )


def _day_after(horse: HorseFacts, got: date, free: Collection[int]) -> date:
    """Return the first free day after one, not of those a vaccination keeps quiet."""
    quiet = timedelta(days=QUIET_DAYS_AFTER_VACCINATION)
    starts = vaccinated(horse.care)
    days = (got + timedelta(days=ahead) for ahead in range(1, LOOKED_DAYS))
    return next(
        (
            day
            for day in days
            if day.weekday() in free
            and not any(start <= day <= start + quiet for start in starts)
        ),
        got + timedelta(days=1),
    )


def booked_days(horse: HorseFacts, on: date) -> tuple[date, ...]:
    """Return the days to come that somebody has named for a visit.

    Not those of a vaccination or a gelding: nothing else is done on them.
    """
    kinds = (kind for kind in CARE_NAMES if kind not in {"vaccination", "gelding"})
    named = (named_next(horse.care, kind, on) for kind in kinds)
    return tuple(day for day in named if day is not None and day >= on)
