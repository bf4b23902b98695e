"""Which sizes of a part are good on a horse, found by asking the rule of its kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from math import ceil, floor, hypot
from typing import Final

from fitting.fit import Answer, Cheek, Part, Tack, Wearer
from fitting.fit.answers import GOOD_NO_UNDER, Chances, Judged, NoRule, Rule
from fitting.fit.bits import BitRule
from fitting.fit.bridles import HoleRule
from fitting.fit.clearances import thickness_window
from fitting.fit.edges import OURS, Edges
from fitting.fit.findings import hung_rules
from fitting.fit.girths import INCH_MM, STEP_IN
from fitting.fit.lasting import Sizes, good_until
from fitting.fit.rollers import SPARE, RollerRule
from fitting.fit.rugs import STEP
from fitting.fit.saddles import SaddleRule
from fitting.fit.straps import StrapRule
from fitting.fit.thickness import SPACE_MEASURES
from fitting.growth import Spread, share_quantiles
from fitting.wanted.values import Range, Step

# Ours: holes as on most straps of a bridle, and of a roller; two of them are spared.
HOLE_MM: Final = 16.0
ROLLER_HOLE_MM: Final = 25.0
SPARE_HOLES: Final = 2
SIDES: Final = 2
LEAST_DONE: Final = 0.05  # nine times in ten, at least that share of growth is done
# The usual steps from one size to the next: bits a quarter inch, or five millimetres;
# girths two inches, rugs three: common practice, no published source. Browbands half
# an inch: ours. Other straps do up, and come in no measured sizes.
STEPS: Final = {
    "mouthpiece": ((INCH_MM / 4, "in"), (5.0, "mm")),
    "browband": ((INCH_MM / 2, "in"),),
}
GIRTH_STEPS: Final = ((STEP_IN * INCH_MM, "in"),)
UNKNOWN: Final = Judged(answer=Answer.NOT_KNOWN, chance_no=0.0)
_EDGE: Final = 0.05  # mm: how closely an edge is looked for
_PROBES: Final = (500.0, 1_000.0)  # mm: a rule is straight between any two sizes
_SURE: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """A kind of part as it is looked for in a shop; ``cheek``: of a bit."""

    kind: str
    part: str
    cheek: Cheek = "eggbutt"


def rule_for(sort: Sort, size_mm: float, wearer: Wearer, on: date) -> Rule | NoRule:
    """Return the rule of a part of that sort and size, on that horse."""
    item = Tack(name="", kind=sort.kind, parts=(_of_size(sort, size_mm),))
    found = hung_rules(wearer, (item,), (), on)
    return next(rule for hung, rule in found if hung.part.part == sort.part)


def _of_size(sort: Sort, size_mm: float) -> Part:
    """Return a part done up to one size; a roller let right out."""
    if sort.part == "mouthpiece":
        return Part(part=sort.part, length_mm=size_mm, cheek=sort.cheek)
    if sort.part == "whole":
        return Part(
            part=sort.part, longest_mm=size_mm, holes=1, spacing_mm=HOLE_MM, hole=1
        )
    if sort.kind == "roller":
        return Part(part=sort.part, shortest_mm=1.0, longest_mm=size_mm)
    return Part(part=sort.part, length_mm=size_mm)


def by_size(rule: Rule, body: Spread) -> Judged:
    """Return the answer by size alone: no thickness, no gap, no daily look."""
    chances: Chances
    match rule:
        case BitRule():
            chances = rule.window.chances(rule.length_mm, body)
        case HoleRule() | StrapRule() | RollerRule() | SaddleRule():
            chances = rule.chances(body)
        case _:  # pragma: no cover - every sort that is looked for is one of these
            return rule.judge(body, date.min, worn=False)
    return Judged(answer=chances.answer, chance_no=chances.no)


def good_sizes(sort: Sort, body: Spread, wearer: Wearer, on: date) -> Range | None:
    """Return the sizes that are good; None: the body is not known closely enough.

    ``from_mm`` or ``to_mm`` is None where no size is too small, or none too large.
    """

    def good(size_mm: float) -> bool:
        rule = rule_for(sort, size_mm, wearer, on)
        if isinstance(rule, NoRule):
            return False
        return by_size(rule, body).answer is Answer.GOOD

    start = _start(sort, body, wearer, on)
    if not good(start):
        return None
    open_below = sort.part == "panel"
    open_above = sort.kind == "roller"
    return Range(
        from_mm=None if open_below else _edge(good, start, -1),
        to_mm=None if open_above else _edge(good, start, 1),
    )


def _start(sort: Sort, body: Spread, wearer: Wearer, on: date) -> float:
    """Return the size that is good if any is."""
    if sort.kind == "roller":
        return body.quantile(1 - _SURE) + wearer.edges.value(SPARE)
    if sort.part == "panel":
        return body.quantile(_SURE)
    middle = body.quantile(0.5)
    low, high = (_fitted(sort, size, wearer, on) for size in _PROBES)
    a_mm = (high - low) / (_PROBES[1] - _PROBES[0])
    return _PROBES[0] + (middle - low) / a_mm


def _fitted(sort: Sort, size_mm: float, wearer: Wearer, on: date) -> float:
    """Return the body (mm) that a size sits best on."""
    rule = rule_for(sort, size_mm, wearer, on)
    hole = 1 if isinstance(rule, HoleRule) else None
    fitted = None if isinstance(rule, NoRule) else rule.fitted_mm(hole)
    if fitted is None:  # pragma: no cover - every sort that is looked for has one
        raise ValueError(f"no size of {sort.part} says which body it fits")
    return fitted


def _edge(good: Callable[[float], bool], start: float, way: int) -> float:
    """Return the last good size that way, from a good one."""
    step = 1.0
    while good(start + way * step):
        step *= 2
    inside, outside = start, start + way * step
    while abs(outside - inside) > _EDGE:
        middle = (inside + outside) / 2
        if good(middle):
            inside = middle
        else:
            outside = middle
    return inside


def steps_inside(
    sort: Sort, sizes: Range, edges: Edges = OURS
) -> Iterator[tuple[float, str]]:
    """Yield the usual sizes inside a range (mm), each with the unit it is sold in."""
    steps = _steps(sort, edges)
    if sizes.from_mm is None or sizes.to_mm is None:
        return
    for step, unit in steps:
        first, last = ceil(sizes.from_mm / step), floor(sizes.to_mm / step)
        for count in range(first, last + 1):
            yield count * step, unit


def _steps(sort: Sort, edges: Edges) -> tuple[tuple[float, str], ...]:
    """Return how far the sizes are apart that are sold (mm), and in which unit."""
    if sort.part == "back_seam":
        return ((edges.value(STEP), "in"),)
    return GIRTH_STEPS if sort.kind == "girth" else STEPS.get(sort.part, ())


def steps_of(sort: Sort, good: Range, wearer: Wearer, sizes: Sizes) -> tuple[Step, ...]:
    """Return the usual sizes that are good, each with the day it no longer is."""
    return tuple(
        Step(mm=mm, unit=unit, until=until_of(sort, mm, wearer, sizes))
        for mm, unit in steps_inside(sort, good, wearer.edges)
    )


def until_of(sort: Sort, size_mm: float, wearer: Wearer, sizes: Sizes) -> date | None:
    """Return the first day on which a size is no longer good; None: as far as looked.

    ``sizes`` starts on the day on which it is first needed.
    """
    rule = rule_for(sort, size_mm, wearer, sizes.start)
    if isinstance(rule, NoRule):  # pragma: no cover - the size is written down
        return sizes.start
    known: Rule = rule

    def judge_on(day: date) -> Judged:
        body = sizes.at(known.measure, day)
        return UNKNOWN if body is None else by_size(known, body)

    return good_until(judge_on, sizes.start)


def is_to_keep(sort: Sort, measure: str, wearer: Wearer, on: date) -> bool:
    """Whether the growth still to come is less than two holes, or one step of size."""
    done = wearer.growth.done(measure, on)
    grown = wearer.growth.grown_size(measure)
    if done is None or grown is None:
        return wearer.grown
    ((least,),) = share_quantiles((done,), (LEAST_DONE,))
    return grown.quantile(0.5) * (1 - least) < _spare_mm(sort, wearer.edges)


def _spare_mm(sort: Sort, edges: Edges) -> float:
    """Return the growth (mm of the body) that two holes, or one step, let out for."""
    steps = _steps(sort, edges)
    if steps:
        return min(step for step, _ in steps)
    if sort.kind == "roller":
        return SPARE_HOLES * SIDES * ROLLER_HOLE_MM
    sides = SIDES if sort.part == "whole" else 1
    return SPARE_HOLES * sides * HOLE_MM


def thick_sizes(wearer: Wearer, on: date) -> Range:
    """Return how thick a bit may be: by the measured mouth, else by the type (mm).

    Source: as beside the numbers of ``clearances.toml``; never more than the room
    between jaw and tongue where both were measured (Anttila 2022).
    """
    window = thickness_window(wearer.horse_type, wearer.edges)
    usual = Range(from_mm=window.good_from, to_mm=window.good_to)
    if not all(wearer.growth.known(key) for key in SPACE_MEASURES):
        return usual
    jaw, tongue = (wearer.growth.at(key, on) for key in SPACE_MEASURES)
    if jaw is None or tongue is None:
        return usual
    between = Spread(
        weights=(1.0,),
        means=(jaw.mean - tongue.mean,),
        sds=(hypot(jaw.sd, tongue.sd),),
    )
    room = between.quantile(GOOD_NO_UNDER)
    return Range(from_mm=min(window.good_from, room), to_mm=room)
