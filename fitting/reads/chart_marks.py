"""The marks of a growth chart: each reading as it counts, each try-on, and the key."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitting.age import months_old
from fitting.body import HorseType, middle
from fitting.drawings import marks
from fitting.drawings.marks import Mark, Reading, Side
from fitting.growth import growth_key
from fitting.growth.bounds import Bound
from fitting.growth.observed import observations
from fitting.models import Horse, Measurement
from fitting.reads.facts import taken_fact

NINE_IN_TEN_SDS: Final = 1.645
STANDS_FIRM: Final = frozenset({"stick", "laser", "weighbridge", "calliper"})
SIDES: Final[dict[str, Side]] = {
    "at_least": "least", "at_most": "most", "about": "about",
}  # fmt: skip


def reading(horse: Horse, row: Measurement) -> Reading:
    """Return a measurement as it counts: less shoes and what the method reads over."""
    age = months_old(horse.foaled_days.last, row.on)
    if row.struck:
        return Reading(age_months=age, value=middle(row.values), mark="struck")
    horse_type: HorseType = horse.horse_type  # type: ignore[assignment]
    ((_, (seen,)),) = observations([taken_fact(row)], horse_type)
    return Reading(
        age_months=age,
        value=seen.value,
        half_width=NINE_IN_TEN_SDS * seen.error,
        mark=_mark(row),
    )


def _mark(row: Measurement) -> Mark:
    if row.struck:
        return "struck"
    if growth_key(row.measure, row.method) != row.measure:
        return "other"
    return "stick" if row.method in STANDS_FIRM else "string"


def bounds(horse: Horse, taught: Iterable[Bound]) -> tuple[marks.Bound, ...]:
    """Return what try-ons said of a measure, as it is marked."""
    born = horse.foaled_days.last
    return tuple(
        marks.Bound(
            age_months=months_old(born, bound.on),
            value=bound.value,
            side=SIDES[bound.kind],
        )
        for bound in taught
    )


def key_of(rows: Iterable[Measurement]) -> tuple[tuple[Mark, str], ...]:
    """Return the marks used, each with its methods in words."""
    methods: dict[Mark, dict[str, None]] = {}
    for row in rows:
        methods.setdefault(_mark(row), {})[row.get_method_display()] = None
    words: dict[Mark, str] = {mark: ", ".join(said) for mark, said in methods.items()}
    ends: dict[Mark, str] = {
        "stick": ", with its error",
        "string": ", with its error",
        "other": " over the shoulder: reads high, kept out",
    }
    return tuple(
        (mark, "struck out" if mark == "struck" else f"{said}{ends[mark]}")
        for mark, said in words.items()
    )
