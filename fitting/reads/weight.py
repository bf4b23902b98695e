"""What the page of weight and condition shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from fitting.body import Taken
from fitting.condition import SCORE, judged, newest_score, score_words
from fitting.models import Horse, Measurement
from fitting.readings import Units, show, show_between, understood
from fitting.reads.facts import taken_fact
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.outlook import seen_of
from fitting.reads.units import day_words, near_words, units_of
from fitting.reads.weight_sources import sources_of
from fitting.weight import (
    FORMULAS,
    BestWeight,
    Series,
    Trend,
    Weight,
    Whom,
    best_weight,
    formula_for,
    percent,
    series,
    trend,
    weights_by_formula,
    worked_out,
)
from fitting.weight.formulas import GIRTH, LEFT_OUT, LENGTH, FormulaWeight

ASKED: Final = ("weight", GIRTH, LENGTH, SCORE)
BY: Final = {
    "weighbridge": "on the weighbridge",
    "weigh_tape": "by weigh tape",
    "formula": "by formula",
    "eye": "by eye",
}
ANSWER_OF: Final = {"steady": "met", "down": "caution", "far_down": "shut"}
SCORE_ANSWER: Final = {"usual": "met", "near": "caution", "vet": "shut"}
SCORE_SAID: Final = {
    "usual": "4 to 6 is usual.",
    "near": "4 to 6 is usual: mind it, and score again soon.",
    "vet": "4 to 6 is usual: ask your vet.",
}
LOUD: Final = {
    "met": "ans",
    "caution": "ans w-caution",
    "shut": "ans w-shut",
    "not_known": "ans w-unknown",
}
UNTOLD: Final = (
    "It takes two weights by the same method, two weeks to two months apart. The eye"
    " tells no change."
)
WINTER: Final = (
    "Living out, {she} is expected to be heaviest about 1 {month} and lightest half a"
    " year on, 3.5 % either side of the year's middle (ours). That dip is never taken"
    " off what was weighed."
)
MONTH: Final = {"north": "November", "south": "May"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One answer: met, caution, shut or not_known, and its sentences."""

    answer: str
    said: str
    more: str = ""

    @property
    def css(self) -> str:
        """How loudly it is said."""
        return LOUD[self.answer]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormulaRow:
    """What one formula makes of the tape."""

    name: str
    made_on: str
    weight: str
    said: str
    second_hand: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """Girth and body length, and what every formula makes of them."""

    said: str
    why: str
    used: FormulaRow | None = None
    others: tuple[FormulaRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedRow:
    """One weight of a day, and how it moved."""

    on: date
    weight: str
    change: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedBy:
    """Every weight by one method, newest first."""

    title: str
    note: str
    rows: tuple[WeighedRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightPage:
    """Weight and condition of one horse."""

    head: HorseHead
    big: str
    said: str
    why: str
    cautions: tuple[str, ...]
    beside: tuple[str, ...]
    moved: Told
    winter: str
    tape: Tape
    left_out: str
    weighed: tuple[WeighedBy, ...]
    condition: Told
    sources: tuple[str, ...]
    ask: tuple[str, ...] = ASKED


def weight_page(horse: Horse, on: date) -> WeightPage:
    """Return weight and condition of a horse (3 queries: measurements, plan, outlook).

    The outlook is read only where condition was never scored.
    """
    taken = [taken_fact(row) for row in horse.measurements.all() if not row.struck]
    units, who = units_of(horse.yard), whom(horse)
    best = best_weight(taken, who, on)
    return WeightPage(
        head=horse_head(horse, on),
        big=_big(best.weight, units),
        said=_said(best, units, on),
        why=best.why,
        cautions=best.cautions,
        beside=tuple(_beside(one, units, on) for one in best.beside),
        moved=_moved(trend(taken, who, on), on),
        winter=WINTER.format(she=horse.she, month=MONTH[who.hemisphere])
        if who.lives_out
        else "",
        tape=_tape(taken, who, on, units),
        left_out=LEFT_OUT,
        weighed=tuple(_weighed(one, units) for one in series(taken, who, on)),
        condition=_condition(horse, taken, who, on),
        sources=sources_of(best, FORMULAS),
    )


def whom(horse: Horse) -> Whom:
    """Return a horse as far as its weight goes (1 query: its plan, if it has one).

    The plan is the way up's; it hangs on the horse by the name ``plan``.
    """
    plan: Any = getattr(horse, "plan", None)
    return Whom(
        horse_type=horse.horse_type,  # type: ignore[arg-type]
        foaled=horse.foaled_days,
        grown=horse.grown,
        ridden=bool(plan and plan.rider_id),
        lives_out=horse.lives_out,
        hemisphere=horse.yard.hemisphere,
    )


def _big(weight: Weight | None, units: Units) -> str:
    """Return the one big figure; all but a scale's is about so much."""
    if weight is None:
        return "Not known"
    size = understood(weight.kg, "weight", units)
    return size if weight.method == "weighbridge" else f"About {size}"


def _said(best: BestWeight, units: Units, on: date) -> str:
    """Return the day, the method and the band of a weight."""
    one = best.weight
    if one is None:
        return _last(best.last, units) if best.last else ""
    between = show_between(one.low_kg, one.high_kg, "weight", units)
    off = show(one.kg * one.share, "weight", units)
    return (
        f"{_by(one)} on {day_words(one.on)}; give or take {off}, so {between}."
        f" Stands until {near_words(one.until, on)}."
    )


def _by(one: Weight) -> str:
    by = "From girth and length" if one.worked else BY[one.method].capitalize()
    return "From the girth" if one.worked and one.worked.length_mm is None else by


def _last(last: Weight, units: Units) -> str:
    size = show(last.kg, "weight", units)
    return f"Last {size} {BY[last.method]}, {day_words(last.on)}; stale."


def _beside(one: Weight, units: Units, on: date) -> str:
    size = show(one.kg, "weight", units)
    alone = "" if one.usable else ", which alone is no weight"
    return f"{_by(one)}, {near_words(one.on, on)}: {size}{alone}."


def _moved(found: Trend | None, on: date) -> Told:
    """Return how the weight moved, as the gate will answer."""
    if found is None:
        return Told(answer="not_known", said="not known.", more=UNTOLD)
    said = f"{percent(found.change)} in 30 days"
    same = {"formula": "by the same formula", "weigh_tape": "by the same weigh tape"}
    by = same.get(found.method, BY[found.method])
    ask = "" if found.level == "steady" else ": ask your vet"
    days = f"{near_words(found.first.on, on)} to {near_words(found.last.on, on)}"
    explained = percent(found.expected)
    more = f"From {days}."
    if found.expected and explained != "as before":
        more += f" A horse that lives out is expected to be {explained} by season."
    return Told(answer=ANSWER_OF[found.level], said=f"{said} {by}{ask}.", more=more)


def _tape(taken: Sequence[Taken], who: Whom, on: date, units: Units) -> Tape:
    """Return what the formulas make of the newest girth and length together."""
    chosen = formula_for(who, on)
    made = worked_out(taken, chosen.formula, on)
    if not made:
        both = LENGTH in chosen.formula.needs
        asks = "girth and body length on one day" if both else "the girth"
        said = f"Measure {asks}, and the weight is worked out here by itself."
        return Tape(said=said, why=chosen.why)
    last = made[-1]
    girth = show(last.girth_mm, "length", units)
    said = f"Girth {girth}, {day_words(last.on)}"
    if last.length_mm is not None and last.length_on is not None:
        length = show(last.length_mm, "length", units)
        said += f"; body length {length}, {day_words(last.length_on)}"
    found = weights_by_formula(last.girth_mm, last.length_mm, who, on)
    used, *others = (_formula_row(row, units) for row in found)
    return Tape(said=f"{said}.", why=chosen.why, used=used, others=tuple(others))


def _formula_row(row: FormulaWeight, units: Units) -> FormulaRow:
    return FormulaRow(
        name=row.formula.name[:1].upper() + row.formula.name[1:],
        made_on=row.formula.made_on,
        weight="not given" if row.kg is None else show(row.kg, "weight", units),
        said=row.said,
        second_hand=row.formula.second_hand,
    )


def _weighed(found: Series, units: Units) -> WeighedBy:
    title = Measurement(method=found.method).get_method_display().capitalize()
    formula = found.readings[0].weight.worked
    note = f"All by {formula.formula.name}, so that they compare." if formula else ""
    return WeighedBy(
        title="Worked out from the tape" if formula else title,
        note=note,
        rows=tuple(
            WeighedRow(
                on=one.weight.on,
                weight=show(one.weight.kg, "weight", units),
                change="" if one.change is None else percent(one.change),
            )
            for one in reversed(found.readings)
        ),
    )


def _condition(horse: Horse, taken: Sequence[Taken], who: Whom, on: date) -> Told:
    found = newest_score(taken, who.foaled, on, ridden=who.ridden)
    if found is None:
        more = "Take two minutes in daylight: six places, by eye and hand."
        seen = seen_of(horse)
        if seen and seen.leaves_out("condition_score", on):
            more = f"Not asked for this year. {more}"
        return Told(answer="caution", said="never scored.", more=more)
    said = f"{score_words(found.score)}, {day_words(found.on)}."
    answer, more = SCORE_ANSWER[judged(found.score)], SCORE_SAID[judged(found.score)]
    if on <= found.until:
        return Told(answer=answer, said=said, more=more)
    answer = "caution" if answer == "met" else answer
    return Told(answer=answer, said=said, more=f"Too long ago: score again. {more}")
