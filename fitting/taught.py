"""What trying on tack teaches of the body: bounds on its sizes.

A part that was too short says the body is larger than its good window reaches, too
long that it is smaller, and one that sat right that it lies within. Rubbing and lying
in the wrong place say nothing of size.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Final

from fitting.curves import grows
from fitting.fit import Answer, MadeUp, Tack, Wearer
from fitting.fit.answers import NoRule, Rule
from fitting.fit.bridles import HoleRule
from fitting.fit.edges import OURS, Edges
from fitting.fit.findings import hung_rules
from fitting.fit.hung import Hung
from fitting.fit.rollers import RollerRule
from fitting.fit.saddles import SaddleRule
from fitting.fit.straps import StrapRule
from fitting.growth import Bound, Subject, fit_growth
from fitting.growth.bounds import Kind
from fitting.tryons import How, TryOn, Verdict, gap_on, verdict_on

_KINDS: Final[dict[Verdict, Kind]] = {
    "too_short": "at_least",
    "too_long": "at_most",
    "sits_right": "about",
}
_ALL_OF_IT: Final = ({"too_short"}, {"too_long"})
# Of a saddle only how far back it reaches: no further than the last rib, or past it.
_KINDS_OF_SADDLE: Final[dict[Verdict, Kind]] = {
    "too_long": "at_most",
    "sits_right": "at_least",
}
# From the middle of the good window, in halves of it, to where the bound lies.
_EDGE: Final[dict[Kind, int]] = {"at_least": 1, "at_most": -1, "about": 0}


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedOn:
    """The try-ons of a horse, with the tack and the made-up sets they speak of.

    ``clearances``: the horse's own room by kind of tack, as of a ``Wearer``; ``edges``:
    the figures its tack is judged by.
    """

    tryons: Sequence[TryOn] = ()
    tack: tuple[Tack, ...] = ()
    made_up: tuple[MadeUp, ...] = ()
    clearances: tuple[tuple[str, float], ...] = ()
    edges: Edges = OURS


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What one try-on teaches: a bound, and the word it rests on.

    ``record``: the page of the try-on, below the horse's own pages.
    """

    bound: Bound
    item: str
    part: str
    seen: Verdict
    how: How
    hole: int | None = None
    record: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sits:
    """Bodies a part sits right on, on a hole (mm): their middle, and half of them."""

    measure: str
    middle: float
    half: float


def bounds_of(subject: Subject, tried: TriedOn) -> tuple[Bound, ...]:
    """Return the bounds that try-ons, held and worn, set on the horse's sizes."""
    return tuple(lesson.bound for lesson in lessons_of(subject, tried))


def lessons_of(subject: Subject, tried: TriedOn) -> tuple[Lesson, ...]:
    """Return what each try-on teaches, in the order of their days.

    Of a run of the same word on the same part and hole only the first and the last day
    count (ours): the error is the rule's, and saying it again does not lessen it.
    """
    if not tried.tryons:
        return ()
    used: dict[str, list[tuple[Hung, Rule | NoRule]]] = defaultdict(list)
    last = max(tryon.on for tryon in tried.tryons)
    wearer = _wearer(subject, tried)
    names = {tryon.item for tryon in tried.tryons}
    tack = tuple(item for item in tried.tack if item.name in names)
    sets = tuple(made for made in tried.made_up if made.name in names)
    for hung, rule in hung_rules(wearer, tack, sets, last):
        used[hung.item].append((hung, rule))
    taught = (
        lesson
        for tryon in sorted(tried.tryons, key=lambda tryon: tryon.on)
        for lesson in _of_one(tryon, used[tryon.item])
    )
    return _ends_of_runs(taught)


def _wearer(subject: Subject, tried: TriedOn) -> Wearer:
    """Return the horse as rules see it; what a part needs never asks its size."""
    return Wearer(
        name="",
        horse_type=subject.horse_type,
        foaled=subject.foaled,
        grown=subject.grown,
        growth=fit_growth(subject, ()),
        standing=(),
        clearances=tried.clearances,
        edges=tried.edges,
    )


def _of_one(tryon: TryOn, used: Iterable[tuple[Hung, Rule | NoRule]]) -> list[Lesson]:
    """Return what one try-on teaches, each measure once.

    Headpiece and cheekpieces hang together: they speak of one head. All of a set too
    short or too long, on no hole, teaches nothing: which strap it was is not said.
    """
    seen = {one.seen for one in tryon.parts}
    if len(tryon.parts) > 1 and seen in _ALL_OF_IT and not _any_hole(tryon):
        return []
    found: dict[str, Lesson] = {}
    for hung, rule in used:
        lesson = _lesson(tryon, hung, rule)
        if lesson is not None:
            found.setdefault(lesson.bound.measure, lesson)
    return list(found.values())


def _any_hole(tryon: TryOn) -> bool:
    return any(one.hole is not None for one in tryon.parts)


def _lesson(tryon: TryOn, hung: Hung, rule: Rule | NoRule) -> Lesson | None:
    said = verdict_on(tryon, hung.part.part)
    if said is None or said[0] not in _KINDS or _too_tight(tryon, hung, rule):
        return None
    seen, hole = said
    bound = _bound(tryon.on, rule, seen, hole)
    if bound is None:
        return None
    return Lesson(
        bound=bound,
        item=tryon.item,
        part=hung.part.part,
        seen=seen,
        how=tryon.how,
        hole=hole,
        record=tryon.record,
    )


def _bound(
    on: date, rule: Rule | NoRule, seen: Verdict, hole: int | None
) -> Bound | None:
    if isinstance(rule, SaddleRule):
        return _at(on, rule, _KINDS_OF_SADDLE.get(seen), rule.panel_mm)
    if isinstance(rule, RollerRule):
        return _at(on, rule, _KINDS[seen], rule.told_mm(seen, hole))
    sits = _sits(rule, hole)
    if sits is None:
        return None
    kind = _KINDS[seen]
    return Bound(
        measure=sits.measure,
        on=on,
        kind=kind,
        value=sits.middle + _EDGE[kind] * sits.half,
        sigma=sits.half,
    )


def _at(on: date, rule: Rule, kind: Kind | None, value: float | None) -> Bound | None:
    """Return a bound at a length itself: what goes round, or reaches, just so far."""
    if kind is None or value is None or value <= rule.half_mm:
        return None
    return Bound(
        measure=rule.measure, on=on, kind=kind, value=value, sigma=rule.half_mm
    )


def _too_tight(tryon: TryOn, hung: Hung, rule: Rule | NoRule) -> bool:
    """Whether the gap at the front of the nose belies the word of the try-on."""
    gap = rule.gap if isinstance(rule, StrapRule) else None
    seen = gap_on(tryon, hung.part.part)
    if gap is None or seen is None:
        return False
    return gap.answer(seen) is Answer.NO


def _sits(rule: Rule | NoRule, hole: int | None) -> _Sits | None:
    """Return the bodies a part sits right on; None: something of it is not known.

    A bridle whose bit's ring nobody measured teaches nothing: the usual ring is a
    guess. Nor does a part too small for any body: its size is mistaken.
    """
    if isinstance(rule, NoRule):
        return None
    if isinstance(rule, HoleRule) and rule.ring_said:
        return None
    middle = rule.fitted_mm(hole)
    if middle is None or middle <= rule.half_mm or not grows(rule.measure):
        return None
    return _Sits(measure=rule.measure, middle=middle, half=rule.half_mm)


def _ends_of_runs(lessons: Iterable[Lesson]) -> tuple[Lesson, ...]:
    by_part: dict[tuple[str, str], list[Lesson]] = defaultdict(list)
    for lesson in lessons:
        by_part[lesson.item, lesson.bound.measure].append(lesson)
    kept = (one for run in by_part.values() for one in _ends(run))
    return tuple(sorted(kept, key=lambda lesson: (lesson.bound, lesson.item)))


def _ends(run: list[Lesson]) -> Iterator[Lesson]:
    """Yield those whose word or hole differs from the one before, or the one after."""
    before = (None, *run[:-1])
    after = (*run[1:], None)
    for earlier, lesson, later in zip(before, run, after, strict=True):
        if not (_same(earlier, lesson) and _same(later, lesson)):
            yield lesson


def _same(one: Lesson | None, other: Lesson) -> bool:
    return one is not None and (one.seen, one.hole) == (other.seen, other.hole)
