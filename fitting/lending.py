"""What is lent to a horse, and how it goes back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

FAR_DAYS: Final = 180  # from here on a day is told with its year
# Common practice, no published source.
WASH: Final = "Wash and disinfect the bit before it goes into another mouth."


@dataclass(frozen=True, slots=True, kw_only=True)
class Lent:
    """An item lent to a horse.

    ``key`` is the item's; ``time``: the how manieth loan of it to this horse, from 1.
    ``lender``: the horse, person or place it belongs to; empty: the yard.
    """

    item: str
    key: str
    kind: str
    time: int = 1
    lender: str = ""
    start: date | None = None
    own_hole: int | None = None
    back_by: date | None = None
    returned: date | None = None

    def is_late(self, on: date) -> bool:
        """Whether it should have gone back before that day."""
        return not self.returned and self.back_by is not None and self.back_by < on


def say_loan(lent: Lent, to: str) -> str:
    """Return a loan in a sentence: to whom, since when, on which hole it goes back."""
    said = f"Lent to {to}"
    if lent.start:
        said += f" {'on' if lent.returned else 'since'} {say_day(lent.start)}"
    if lent.own_hole:
        said += f"; put back on hole {lent.own_hole}, the lender's own"
    if lent.returned:
        return f"{said}; back since {say_day(lent.returned)}."
    if lent.back_by:
        said += f"; back by {say_day(lent.back_by)}"
    return f"{said}."


def on_giving_back(lent: Lent) -> tuple[str, ...]:
    """Return what is done when an item goes back, a sentence each."""
    hole = lent.own_hole
    back = (f"Put it back on hole {hole}, the lender's own.",) if hole else ()
    return (*back, WASH) if lent.kind == "bit" else back


def why_back(lent: Lent, on: date) -> str:
    """Return why an item goes back, without its name, in a sentence."""
    to = f" to {lent.lender}" if lent.lender else ""
    if lent.back_by is None:
        return f"Lent, and goes back{to}."
    day = say_day(lent.back_by)
    if lent.is_late(on):
        return f"It should have gone back{to} by {day}."
    return f"It goes back{to} by {day}."


def near_day(on: date, today: date | None = None) -> str:
    """Return a day in words: Thu 26 Nov; half a year off and more, with its year."""
    far = today is not None and abs((on - today).days) >= FAR_DAYS
    return f"{on:%a} {on.day} {on:%b}{f' {on.year}' if far else ''}"


def say_day(day: date) -> str:
    """Return a day as it is said: 26 Nov 2026."""
    return f"{day.day} {day:%b %Y}"
