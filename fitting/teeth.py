"""Which teeth change at which age, as it is published."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import Foaled, reaches_months


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """Teeth that change between two ages (completed months of true age).

    ``caps``: cheek teeth, whose milk teeth sit on the new ones like caps.
    """

    key: str
    name: str
    from_months: int
    to_months: int
    caps: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """The first and the last day on which teeth may be expected to change."""

    change: Change
    first: date
    last: date


# Source: the envelope of three textbooks' ages, which differ by up to a year: Munroe
# (ed.), table 4.1, its ages of breaking through and of coming into wear; Coumbe; Craig
# 1912. The last half year before and after is ours where they leave none.
CHANGES: Final = (
    Change(
        key="front_1",
        name="the middle pair of front teeth",
        from_months=24,
        to_months=36,
    ),
    Change(
        key="cheek_1",
        name="the first cheek teeth, next to the bit",
        from_months=24,
        to_months=36,
        caps=True,
    ),
    Change(
        key="cheek_2",
        name="the second cheek teeth",
        from_months=30,
        to_months=42,
        caps=True,
    ),
    Change(
        key="front_2",
        name="the second pair of front teeth",
        from_months=36,
        to_months=48,
    ),
    Change(
        key="cheek_3",
        name="the third cheek teeth",
        from_months=36,
        to_months=48,
        caps=True,
    ),
    Change(
        key="front_3",
        name="the corner front teeth",
        from_months=48,
        to_months=60,
    ),
)
# Source: BEVA Congress 2010: wolf teeth come through at 6 to 18 months; 40 to 80 % of
# horses have one at some time, 15 to 20 % of those over two and a half still do.
WOLF_TEETH_MONTHS: Final = (6, 18)


def spans(foaled: Foaled) -> tuple[Span, ...]:
    """Return when a horse's teeth may be expected to change, in order of the age.

    Where the foaling day is not known the span runs from the oldest to the youngest
    that the horse can be.
    """
    oldest = Foaled(first=foaled.first, last=foaled.first)
    return tuple(
        Span(
            change=change,
            first=reaches_months(oldest, change.from_months),
            last=reaches_months(foaled, change.to_months),
        )
        for change in CHANGES
    )


def changing(foaled: Foaled, on: date) -> tuple[Span, ...]:
    """Return the teeth that may be changing on a day, both ends inside."""
    return tuple(span for span in spans(foaled) if span.first <= on <= span.last)


def beginning(foaled: Foaled, on: date) -> Iterator[tuple[date, tuple[Change, ...]]]:
    """Yield the days, that one or later, from which more teeth may change."""
    days = sorted({span.first for span in spans(foaled) if span.first >= on})
    for day in days:
        yield day, tuple(s.change for s in spans(foaled) if s.first == day)
