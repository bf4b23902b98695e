"""Answers about a growing body: when it passes a limit, what it is on a day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import say_age
from fitting.body import MEASURES, measure_by_key
from fitting.growth import Growth, quantiles
from fitting.models import Horse
from fitting.passing import Passing, passing
from fitting.readings import show, show_between, understood
from fitting.reads.units import day_words, units_of

BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle
IN_100: Final = 100
SHOES: Final = (
    "Heights are reckoned without shoes. Where a rule asks for a height, an official"
    " measurer takes it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PassAnswer:
    """When a size passes a limit, in words; no rows: nothing is known of it."""

    limit: str
    sentence: str
    rows: tuple[tuple[str, str, str], ...]
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRow:
    """One measure on a day."""

    title: str
    likely: str
    between: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DayAnswer:
    """Every measure on a day gone by or to come."""

    day: str
    age: str
    ahead: bool
    rows: tuple[DayRow, ...]
    unknown: tuple[str, ...]


def pass_answer(
    horse: Horse, growth: Growth, measure: str, limit: float, on: date
) -> PassAnswer:
    """Return when a horse passes a limit of one measure; asks for no rows."""
    units = units_of(horse.yard)
    asked = measure_by_key(measure)
    said = f"{understood(limit, asked.dimension, units)}, {asked.name}"
    found = passing(growth, measure, limit, on)
    if found is None:
        unknown = f"Nothing is known of this yet: measure the {asked.name} once."
        return PassAnswer(limit=said, sentence=unknown, rows=())
    return PassAnswer(
        limit=said,
        sentence=(
            f"Today the chance that {horse.she} is past it is {_chance(found.today)};"
            f" grown, {_chance(found.grown)}."
        ),
        rows=_days(found, on),
        caution=SHOES if asked.dimension == "height" else "",
    )


def _chance(share: float) -> str:
    """Return a chance in words: ``about 35 in 100``."""
    in_100 = round(IN_100 * share)
    if in_100 == 0:
        return "under 1 in 100"
    return "over 99 in 100" if in_100 == IN_100 else f"about {in_100} in {IN_100}"


def _days(found: Passing, on: date) -> tuple[tuple[str, str, str], ...]:
    """Return early, likely and late day: the word, the day, and its chance."""
    asked = (
        ("early", found.early, "one in five by then"),
        ("as likely as not", found.likely, "one in two"),
        ("late", found.late, "four in five"),
    )
    never = f"not by {day_words(found.looked_until)}"
    return tuple(
        (word, _day(day, on) if day else never, chance) for word, day, chance in asked
    )


def _day(day: date, on: date) -> str:
    return f"{day_words(day)}, gone by" if day <= on else day_words(day)


def day_answer(horse: Horse, growth: Growth, day: date, on: date) -> DayAnswer:
    """Return every measure that grows on a day; asks for no rows."""
    growing = [measure for measure in MEASURES if measure.grows]
    sizes = [growth.at(measure.key, day) for measure in growing]
    found = iter(quantiles([s for s in sizes if s is not None], BAND_SHARES))
    rows = tuple(
        _day_row(horse, measure.key, next(found))
        for measure, size in zip(growing, sizes, strict=True)
        if size is not None
    )
    return DayAnswer(
        day=day_words(day),
        age=say_age(horse.foaled_days, day),
        ahead=day > on,
        rows=rows,
        unknown=tuple(
            measure.name
            for measure, size in zip(growing, sizes, strict=True)
            if size is None
        ),
    )


def _day_row(horse: Horse, key: str, band: Sequence[float]) -> DayRow:
    units, measure = units_of(horse.yard), measure_by_key(key)
    low, middle, high = band
    return DayRow(
        title=measure.name.capitalize(),
        likely=_bare(show(middle, measure.dimension, units)),
        between=_bare(show_between(low, high, measure.dimension, units)),
    )


def _bare(said: str) -> str:
    """Return a height as a table shows it, without the word that all of them share."""
    return said.removesuffix(" hands")
