"""From when and until when an item is good, with the chance of a no on those days."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit.answers import Answer, Finding, worst
from fitting.lending import say_day
from fitting.pieces import part_word

ONE_IN: Final = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """The days on which a whole item is good.

    ``start``: None where it is good now. ``end``: the first day it is no longer good;
    None where it is good as far as was looked. ``chances``: the chance of a no on the
    first of those days to come, with the part it is reckoned of.
    """

    start: date | None
    end: date | None
    chances: tuple[tuple[str, float], ...] = ()


def stretch_of(parts: Sequence[Finding]) -> Stretch | None:
    """Return when an item of these parts is good; None: not as far as is known."""
    if worst(parts) is Answer.GOOD:
        return _good_now(parts)
    days = [_days_of(part) for part in parts]
    if any(one is None for one in days):
        return None
    found = [one for one in days if one is not None]
    start = max(one[0] for one in found if one[0])
    end = min((one[1] for one in found if one[1]), default=None)
    if end is not None and end <= start:
        return None
    last = (part for part in parts if part.good_from == start)
    return Stretch(
        start=start,
        end=end,
        chances=_chances((part.part, part.from_chance) for part in last),
    )


def _good_now(parts: Sequence[Finding]) -> Stretch:
    end = min((one.good_until for one in parts if one.good_until), default=None)
    first = (one for one in parts if end is not None and one.good_until == end)
    return Stretch(
        start=None,
        end=end,
        chances=_chances((one.part, one.until_chance) for one in first),
    )


def _days_of(part: Finding) -> tuple[date | None, date | None] | None:
    """Return from when (None: now) until when a part is good; None: never."""
    if part.answer is Answer.GOOD:
        return None, part.good_until
    if part.good_from is None:
        return None
    return part.good_from, part.from_until


def _chances(
    found: Iterable[tuple[str, float | None]],
) -> tuple[tuple[str, float], ...]:
    return tuple((part, chance) for part, chance in found if chance is not None)


def from_words(stretch: Stretch | None) -> str:
    """Return from when to when it will be good, in a sentence; or nothing."""
    if stretch is None or stretch.start is None:
        return ""
    until = f" until {say_day(stretch.end)}" if stretch.end else ""
    return f"Likely good from {say_day(stretch.start)}{until}."


def chance_words(stretch: Stretch | None, *, named: bool) -> str:
    """Return the chance of a no on its first or last day; ``named``: of which part."""
    if stretch is None or not stretch.chances:
        return ""
    part, chance = max(stretch.chances, key=lambda one: one[1])
    of = f" of the {part_word(part)}" if named else ""
    day = "that day" if stretch.start is None else "the first day"
    return f"The chance of a no{of} on {day}: {in_hundred(chance)}."


def in_hundred(chance: float) -> str:
    """Return a chance (0 to 1) in words: 12 in 100."""
    count = round(chance * ONE_IN)
    if count < 1:
        return f"under 1 in {ONE_IN}"
    return f"{count} in {ONE_IN}" if count < ONE_IN else f"over 99 in {ONE_IN}"
