"""When teeth and feet are due again where nobody has named a day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.age import Foaled, completed_months, reaches_months
from starting.gates import CareDone
from starting.gates.visits import FEET_DAYS, FOAL_DAYS, FOAL_MONTHS

# Source: advice of several practices agrees on every six months under five years and
# yearly for all; from which age they differ: two years is ours.
TEETH_FROM_MONTHS: Final = 24
TEETH_YEARLY_FROM_MONTHS: Final = 60
TEETH_EVERY_MONTHS: Final = (6, 12)
TEETH_WINDOW_DAYS: Final = 30  # ours
# Source: common practice, four to eight weeks; foals about monthly.
FEET_FROM_DAYS: Final = 28
FOAL_FEET_FROM_DAYS: Final = 21
# What these leave open is to be seen to again, without waiting for the usual time.
SEEN_TO: Final = ("teeth", "vet", "back", "saddle_fitter", "farrier")


@dataclass(frozen=True, slots=True, kw_only=True)
class NextCare:
    """A visit that is due in general: useful from, due by, and why."""

    kind: str
    useful_from: date
    due_by: date
    because: str


def last_of(care: Sequence[CareDone], kind: str, on: date) -> CareDone | None:
    """Return the last visit of a kind up to a day; of one day, what was left open."""
    visits = (one for one in care if one.kind == kind and one.on <= on)
    return max(visits, key=lambda one: (one.on, not one.clear), default=None)


def named_next(care: Sequence[CareDone], kind: str, on: date) -> date | None:
    """Return the day named for the next visit of a kind by the last one, if any."""
    last = last_of(care, kind, on)
    same_day = (v for v in care if last and v.kind == kind and v.on == last.on)
    days = (visit.next_due for visit in same_day if visit.next_due is not None)
    return max(days, default=None)


def next_care(
    care: Sequence[CareDone], foaled: Foaled, on: date
) -> tuple[NextCare, ...]:
    """Return what is due again, a visit a kind; a day that was named goes before.

    Vaccination, worming and the like have no date of ours: they follow the vet.
    """
    return tuple(
        due
        for due in (*_left_open(care, on), *_in_general(care, foaled, on))
        if named_next(care, due.kind, on) is None
    )


def _left_open(care: Sequence[CareDone], on: date) -> Iterator[NextCare]:
    for kind in SEEN_TO:
        last = last_of(care, kind, on)
        if last is not None and not last.clear:
            because = f"Something was left open on {_day(last.on)}."
            yield NextCare(kind=kind, useful_from=on, due_by=on, because=because)


def _in_general(
    care: Sequence[CareDone], foaled: Foaled, on: date
) -> Iterator[NextCare]:
    teeth, feet = last_of(care, "teeth", on), last_of(care, "farrier", on)
    if teeth is None or teeth.clear:
        yield _teeth(teeth, foaled)
    if feet is not None and feet.clear:
        yield _feet(feet, foaled)


def _teeth(last: CareDone | None, foaled: Foaled) -> NextCare:
    first = reaches_months(foaled, TEETH_FROM_MONTHS)
    if last is None:
        by = first
        because = (
            f"No look at the teeth is written down; under five years they are seen"
            f" every {TEETH_EVERY_MONTHS[0]} months, as practices advise."
        )
    else:
        old = completed_months(foaled, last.on) >= TEETH_YEARLY_FROM_MONTHS
        months = TEETH_EVERY_MONTHS[old]
        by = max(first, reaches_months(Foaled(first=last.on, last=last.on), months))
        because = (
            f"Last seen on {_day(last.on)}; in general every {months} months, as"
            " practices advise. Your vet's own date comes first."
        )
    useful = by - timedelta(days=TEETH_WINDOW_DAYS)
    return NextCare(kind="teeth", useful_from=useful, due_by=by, because=because)


def _feet(last: CareDone, foaled: Foaled) -> NextCare:
    foal = completed_months(foaled, last.on) < FOAL_MONTHS
    least, most = (
        (FOAL_FEET_FROM_DAYS, FOAL_DAYS) if foal else (FEET_FROM_DAYS, FEET_DAYS)
    )
    usual = "about every 4 weeks for a foal" if foal else "every 4 to 8 weeks"
    return NextCare(
        kind="farrier",
        useful_from=last.on + timedelta(days=least),
        due_by=last.on + timedelta(days=most),
        because=f"Last done on {_day(last.on)}; in general {usual} (common practice)."
        " Your farrier's own date comes first.",
    )


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
