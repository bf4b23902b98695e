"""Who may sit on which horse of the yard, by weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import completed_months, reaches_months, say_age
from fitting.body import Taken
from fitting.models import Horse, Yard
from fitting.readings import show, show_between
from fitting.reads.facts import taken_by_horse
from fitting.reads.units import day_words, units_of
from fitting.reads.weight import whom
from fitting.weight import BestWeight, Weight, best_weight
from starting.gates import GateAnswer, Somebody
from starting.models import Plan
from starting.programme import MOUNTED_FLOOR_MONTHS
from starting.reads.facts import somebody
from starting.reads.outlook import briefs
from starting.seats import Seat, seat, usable

SIGNS: Final = {
    GateAnswer.MET: "good",
    GateAnswer.CAUTION: "watch",
    GateAnswer.SHUT: "no",
    GateAnswer.NOT_KNOWN: "not_known",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatRow:
    """One rider as a row."""

    rider: str
    sign: str
    word: str
    share: str
    more: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Seats:
    """Who may sit on one horse, and what that is reckoned from."""

    name: str
    key: str
    weighs: str
    age: str
    rows: tuple[SeatRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seated:
    """One horse with its riders to be: what it weighs, and what the tack does."""

    horse: Horse
    best: BestWeight
    tack_kg: float | None
    riders: tuple[Somebody, ...]
    on: date
    grown_kg: float | None = None  # the most it may weigh grown

    @property
    def weight(self) -> Weight | None:
        """The weight a load is reckoned by."""
        return usable(self.best, self.on)


def riders_page(yard: Yard, on: date) -> tuple[Seats, ...]:
    """Return who may sit on which youngster (4 queries).

    Horses, readings, people, outlooks.
    """
    taken, riders, seen = taken_by_horse(yard), riders_of(yard), briefs(yard)
    rows = yard.horses.filter(grown=False).select_related("yard", "plan")
    return tuple(
        seats_of(
            Seated(
                horse=row,
                best=best_of(row, [one for one, _ in taken[row.pk]], on),
                tack_kg=tack_of(getattr(row, "plan", None)),
                riders=riders,
                on=on,
                grown_kg=seen[row.key].grown_kg if row.key in seen else None,
            )
        )
        for row in rows
    )


def tack_of(plan: Plan | None) -> float | None:
    """Return what all the tack of a plan weighs (kg); None: not written down."""
    return plan.tack_weight_kg if plan else None


def best_of(horse: Horse, taken: Sequence[Taken], on: date) -> BestWeight:
    """Return the weight to go by on a day (1 query: the horse's plan)."""
    return best_weight(taken, whom(horse), on)


def riders_of(yard: Yard) -> tuple[Somebody, ...]:
    """Return who rides here (1 query)."""
    found = (somebody(row) for row in yard.people.all() if "ride" in row.can)
    return tuple(rider for rider in found if rider)


def weighs(told: Seated) -> str:
    """Return the weight to go by in words, with its band."""
    if told.weight is None:
        return "Not known: no weight stands that a load could be reckoned by."
    units, one = units_of(told.horse.yard), told.weight
    between = show_between(one.low_kg, one.high_kg, "weight", units)
    return f"{show(one.kg, 'weight', units)} on {day_words(one.on)}, so {between}."


def seats_of(told: Seated) -> Seats:
    """Return who may sit on one horse, and what that is reckoned from."""
    horse, months = told.horse, completed_months(told.horse.foaled_days, told.on)
    tack = told.tack_kg
    small = told.best.small
    found = [
        seat(rider, tack, told.weight, months, small=small, grown_kg=told.grown_kg)
        for rider in told.riders
    ]
    floor = reaches_months(horse.foaled_days, MOUNTED_FLOOR_MONTHS)
    units = units_of(horse.yard)
    carried = f"All the tack: {show(tack, 'weight', units)}." if tack else ""
    young = (
        f"Nobody yet, whoever it is: no rider before {MOUNTED_FLOOR_MONTHS} months"
        f" (ours), on {day_words(floor)}."
        if told.on < floor
        else ""
    )
    return Seats(
        name=horse.name,
        key=horse.key,
        weighs=f"{weighs(told)} {carried}".strip(),
        age=young or f"{say_age(horse.foaled_days, told.on).capitalize()}.",
        rows=tuple(_seat_row(one) for one in found),
    )


def _seat_row(one: Seat) -> SeatRow:
    share = ""
    if one.share is not None and one.heaviest is not None:
        share = f"{percent(one.share)}, at most {percent(one.heaviest)}"
    return SeatRow(
        rider=one.rider, sign=SIGNS[one.answer], word=one.word, share=share,
        more=one.more,
    )  # fmt: skip


def percent(share: float) -> str:
    """Return a share in words, to a tenth of a per cent."""
    return f"{100 * share:.1f}".removesuffix(".0") + " %"
