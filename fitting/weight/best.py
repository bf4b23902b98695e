"""The best weight of a horse on a day, from what stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.age import completed_months
from fitting.body import Taken, measure_by_key
from fitting.weight.formulas import ADULT_MONTHS, FOAL, YOUNG_SAID, formula_for
from fitting.weight.whom import Whom, is_small, stands_to
from fitting.weight.worked_out import WorkedOut, by_day, worked_out

WeightMethod = Literal["weighbridge", "weigh_tape", "formula", "eye"]
# From the one that goes before all others to the one that comes last: ours, by error.
METHODS: Final[tuple[WeightMethod, ...]] = (
    "weighbridge", "weigh_tape", "formula", "eye",
)  # fmt: skip
WEIGHT: Final = "weight"
NEVER_DOSE: Final = (
    "Never use this figure to dose medicine: ask your vet. A weight by tape can be a"
    " tenth out; use a weighbridge when it matters."
)
SMALL_SAID: Final = (
    "Under 100 cm a weigh tape alone is no weight: in a student study it read 14 % too"
    " much, give or take 16. Use a scale."
)
SMALL_SURE_SAID: Final = (
    "Under 100 cm only a scale is sure: the formulas for weaned horses were not made on"
    " ponies so small, and weigh tapes read far apart."
)
_WHY: Final[dict[WeightMethod, str]] = {
    "weighbridge": "A scale goes before tape, formula and eye.",
    "weigh_tape": "No scale weight stands, and a weigh tape goes before formula and"
    " eye.",
    "formula": "No weight by scale or weigh tape stands, so it is worked out from the"
    " tape.",
    "eye": "Nothing better stands; by eye most people are a fifth out, or more.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight (kg) of a day by one method, with the method's error either way.

    ``until``: the last day on which it stands. ``worked``: how it was worked out, where
    nobody typed it. ``usable`` False: no weight by itself.
    """

    on: date
    kg: float
    method: WeightMethod
    share: float
    until: date
    worked: WorkedOut | None = None
    usable: bool = True

    @property
    def low_kg(self) -> float:
        """The lighter edge."""
        return self.kg * (1 - self.share)

    @property
    def high_kg(self) -> float:
        """The heavier edge."""
        return self.kg * (1 + self.share)


@dataclass(frozen=True, slots=True, kw_only=True)
class BestWeight:
    """The weight to go by on a day, and why this one; None: not known.

    ``beside``: the newest by every other method that stands. ``last``: where nothing
    stands, the newest that did. ``small``: under 100 cm, where only a scale is sure.
    """

    weight: Weight | None
    why: str
    small: bool
    cautions: tuple[str, ...]
    beside: tuple[Weight, ...] = ()
    last: Weight | None = None


def best_weight(taken: Sequence[Taken], whom: Whom, on: date) -> BestWeight:
    """Return the weight (kg) to go by on a day: the best method that stands.

    Scale over weigh tape over formula over eye, the newest of each; girth and body
    length that lie within seven days of each other make a formula weight by
    themselves. A weigh tape under 100 cm counts for nothing alone.

    Source: the order and the standing ours; errors as in ``fitting/body/measures.py``.
    """
    small = is_small(taken, whom, on)
    weights = weighings(taken, whom, on, small=small)
    standing = _newest_of_each([one for one in weights if one.until >= on])
    best = next((one for one in standing if one.usable), None)
    return BestWeight(
        weight=best,
        why=_WHY[best.method] if best else _why_none(weights, standing),
        small=small,
        cautions=_cautions(best, whom, on, small=small),
        beside=tuple(one for one in standing if one is not best),
        last=None if standing else max(weights, key=lambda one: one.on, default=None),
    )


def weighings(
    taken: Sequence[Taken], whom: Whom, on: date, *, small: bool
) -> tuple[Weight, ...]:
    """Return every weight up to a day, typed and worked out, oldest first."""
    typed = [
        _typed(method, day, kg, whom, small=small)
        for method in METHODS
        for day, kg in by_day(_by(taken, method), WEIGHT, on).items()
    ]
    formula = formula_for(whom, on).formula
    made = [_made(one, whom) for one in worked_out(taken, formula, on)]
    return tuple(sorted([*typed, *made], key=lambda one: one.on))


def _by(taken: Sequence[Taken], method: WeightMethod) -> list[Taken]:
    return [one for one in taken if one.measure == WEIGHT and one.method == method]


def _typed(
    method: WeightMethod, day: date, kg: float, whom: Whom, *, small: bool
) -> Weight:
    return Weight(
        on=day,
        kg=kg,
        method=method,
        share=measure_by_key(WEIGHT).method(method).error,
        until=_until(day, method, whom),
        usable=not (small and method == "weigh_tape"),
    )


def _made(worked: WorkedOut, whom: Whom) -> Weight:
    return Weight(
        on=worked.on,
        kg=worked.kg,
        method="formula",
        share=worked.formula.band,
        until=_until(worked.on, "formula", whom),
        worked=worked,
    )


def _until(day: date, method: WeightMethod, whom: Whom) -> date:
    taken = Taken(measure=WEIGHT, on=day, readings=(1.0,), method=method)
    return stands_to(taken, whom)


def _newest_of_each(weights: Sequence[Weight]) -> list[Weight]:
    """Return the newest by each method, the best method first.

    Of one day a weight worked out from the tape goes before one that was typed: it
    shows what it is made of.
    """
    newest: dict[str, Weight] = {}
    for one in weights:
        before = newest.get(one.method)
        if before is None or _newer(one, before):
            newest[one.method] = one
    return [newest[method] for method in METHODS if method in newest]


def _newer(one: Weight, before: Weight) -> bool:
    return (one.on, one.worked is not None) > (before.on, before.worked is not None)


def _why_none(weights: Sequence[Weight], standing: Sequence[Weight]) -> str:
    if standing:
        return SMALL_SAID
    if weights:
        return "The last weight is too old to go by: weigh again, or tape again."
    return "Never weighed, and girth and body length were not taken together."


def _cautions(
    best: Weight | None, whom: Whom, on: date, *, small: bool
) -> tuple[str, ...]:
    said = [NEVER_DOSE]
    worked = best.worked if best else None
    young = not whom.grown and completed_months(whom.foaled, on) < ADULT_MONTHS
    if worked and worked.formula.adults and young:
        said.append(YOUNG_SAID)
    foals = worked is not None and worked.formula is FOAL
    if small and best and best.method != "weighbridge" and not foals:
        said.append(SMALL_SURE_SAID)
    return tuple(said)
