"""What the page of horses put beside one another shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.beside import Beside, Difference, differences, youngest_age
from fitting.body import Measure, measure_by_key
from fitting.drawings.beside import BesideChart, GrownHorse, Youngster
from fitting.drawings.ends import LETTERS
from fitting.drawings.marks import BandPoint
from fitting.drawings.scale import Unit
from fitting.growth import Observation, Spread, quantiles
from fitting.growth.bounds import of_measure
from fitting.models import Horse, Yard
from fitting.readings import Units, show, show_between, show_difference
from fitting.reads.growths import growths_of
from fitting.reads.units import units_of

SHARES: Final = (0.05, 0.5, 0.95)
BAND_STEP_MONTHS: Final = 2
LAST_MONTHS: Final = 84


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideRow:
    """One horse of the table: its size at the age, and grown."""

    letter: str
    name: str
    key: str
    rests_on: str
    measured: bool
    grown: bool
    at_age: str
    at_age_between: str
    when: str
    size: str
    size_between: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is said of two horses."""

    said: str
    sure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BesidePage:
    """The chosen horses beside one another."""

    title: str
    at: str
    rows: tuple[BesideRow, ...]
    told: tuple[Told, ...]
    chart: BesideChart | None
    height: bool
    in_hands: bool


def standing_here(yard: Yard) -> list[Horse]:
    """Return the horses that may be put beside one another, youngsters first (1)."""
    return list(yard.horses.select_related("yard").order_by("grown", "name"))


def beside_page(
    horses: Sequence[Horse], measure: str, age: float | None, on: date
) -> BesidePage:
    """Return horses of one yard beside one another (at most 10 queries: growth)."""
    units = units_of(horses[0].yard)
    kind = measure_by_key(measure)
    compared = _compared(horses)
    asked = youngest_age(compared, on) if age is None else age
    if all(horse.grown for horse in compared):
        asked = None
    rows = tuple(
        _row(at, row, one, _Asked(measure=kind, age=asked, on=on, units=units))
        for at, (row, one) in enumerate(zip(horses, compared, strict=True))
    )
    told = tuple(
        _told(one, kind, asked, units) for one in differences(compared, measure, asked)
    )
    return BesidePage(
        title=kind.name.capitalize(),
        at=_age_words(asked) if asked is not None else "",
        rows=rows,
        told=told,
        chart=_chart(compared, kind, asked, on, units, told),
        height=kind.dimension == "height",
        in_hands=_unit(kind, units) == "hands",
    )


def _compared(horses: Sequence[Horse]) -> tuple[Beside, ...]:
    """Return each horse with its growth."""
    return tuple(
        Beside(
            name=horse.name,
            growth=growth,
            born=horse.foaled_days.last,
            grown=horse.grown,
        )
        for horse, growth in zip(horses, growths_of(horses), strict=True)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is asked of each horse."""

    measure: Measure
    age: float | None
    on: date
    units: Units


def _row(at: int, row: Horse, one: Beside, asked: _Asked) -> BesideRow:
    key, units = asked.measure.key, asked.units
    size = one.size(key, asked.age) if asked.age is not None else None
    grown = one.growth.grown_size(key)
    middle, between = _size_words(size, asked.measure, units)
    grown_middle, grown_between = _size_words(grown, asked.measure, units)
    return BesideRow(
        letter=LETTERS[at],
        name=row.name,
        key=row.key,
        rests_on=_rests_on(one, key),
        measured=one.growth.known(key) or one.growth.taught(key),
        grown=one.grown,
        at_age=middle,
        at_age_between=between,
        when=_when(one, asked) if size else "",
        size=grown_middle,
        size_between=grown_between,
    )


def _size_words(size: Spread | None, measure: Measure, units: Units) -> tuple[str, str]:
    """Return a size in words and where nine in ten lie; nothing where not known."""
    if size is None:
        return "", ""
    ((low, middle, high),) = quantiles((size,), SHARES)
    return (
        _bare(show(middle, measure.dimension, units)),
        _bare(show_between(low, high, measure.dimension, units)),
    )


def _bare(said: str) -> str:
    """Return a height without the word that the whole table shares."""
    return said.removesuffix(" hands")


def _rests_on(one: Beside, measure: str) -> str:
    """Return what a size rests on: readings, from which age to which; try-ons."""
    seen = one.observed(measure)
    tried = of_measure(one.growth.bounds, measure)
    said = [_readings_words(one, seen)] if seen else []
    if tried:
        said.append(f"{len(tried)} try-on{'' if len(tried) == 1 else 's'}")
    if said:
        return "; ".join(said)
    known = one.growth.grown_size(measure) is not None
    return "never measured: by type alone" if known else "never measured"


def _readings_words(one: Beside, seen: Sequence[Observation]) -> str:
    count = f"{len(seen)} reading{'' if len(seen) == 1 else 's'}"
    if one.grown:
        return count
    first, last = (round(one.age_on(seen[end].on)) for end in (0, -1))
    return f"{count}, at {last if first == last else f'{first} to {last}'} months"


def _when(one: Beside, asked: _Asked) -> str:
    """Return when the horse was, is or will be of the age."""
    if asked.age is None:
        return ""
    day = one.day_at(asked.age)
    if day == asked.on:
        return "today"
    return f"{'expected in' if day > asked.on else 'in'} {day:%b %Y}"


def _age_words(age: float) -> str:
    said = f"{age:.1f}".removesuffix(".0")
    return f"{said} month{'' if said == '1' else 's'}"


def _told(one: Difference, measure: Measure, age: float | None, units: Units) -> Told:
    """Return in words how two horses differ, and whether the errors explain it."""
    by = show_difference(one.by, measure.dimension, units)
    grown = one.when == "grown" or age is None
    when = "Grown," if grown or age is None else f"At {_age_words(age)}"
    if one.is_sure:
        said = f"{one.larger} is {by} above {one.smaller}: more than the error."
    else:
        said = (
            f"{one.larger} and {one.smaller} are {by} apart: within the error, so they"
            " cannot be told apart yet."
        )
    said = f"{when} {said}"
    return Told(said=said, sure=one.is_sure)


def _chart(
    compared: Sequence[Beside],
    measure: Measure,
    age: float | None,
    on: date,
    units: Units,
    told: Sequence[Told],
) -> BesideChart | None:
    """Return the chart; None: all are grown, or no size of a youngster is known."""
    drawn = tuple(_drawn(one, measure.key, age, on) for one in compared)
    if not any(isinstance(one, Youngster) and one.band for one in drawn):
        return None
    names = " and ".join(one.name for one in compared)
    return BesideChart(
        uid="beside",
        title=f"{names}: {measure.name} by age",
        desc=" ".join(one.said for one in told) or "Nothing is known of them yet.",
        unit=_unit(measure, units),
        horses=drawn,
        age=age,
    )


def _unit(measure: Measure, units: Units) -> Unit:
    if measure.dimension == "height":
        return units.height
    return units.weight if measure.dimension == "weight" else units.length


def _drawn(
    one: Beside, measure: str, age: float | None, on: date
) -> Youngster | GrownHorse:
    if one.grown:
        size = one.growth.grown_size(measure)
        if size is not None:
            ((low, middle, high),) = quantiles((size,), SHARES)
            return GrownHorse(name=one.name, p5=low, p50=middle, p95=high)
    seen = one.observed(measure)
    today = one.age_on(on)
    ages = [one.age_on(each.on) for each in seen]
    begins = min([*ages, today, *([age] if age is not None else [])])
    return Youngster(
        name=one.name,
        band=() if one.grown else _band(one, measure, max(0.0, begins)),
        readings=tuple(zip(ages, (each.value for each in seen), strict=True)),
        today=today,
    )


def _band(one: Beside, measure: str, begins: float) -> tuple[BandPoint, ...]:
    """Return the band from an age on, a point every other month."""
    steps = range(int(begins / BAND_STEP_MONTHS), LAST_MONTHS // BAND_STEP_MONTHS + 1)
    ages = [begins, *(a for s in steps if (a := float(s * BAND_STEP_MONTHS)) > begins)]
    spreads = one.growth.at_days(measure, [one.day_at(age) for age in ages])
    bands = quantiles(spreads, SHARES)
    return tuple(
        BandPoint(age_months=age, p5=low, p50=middle, p95=high)
        for age, (low, middle, high) in zip(ages, bands, strict=False)
    )
