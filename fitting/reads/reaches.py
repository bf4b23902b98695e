"""The sizes of the horses an item or a set fits, drawn on what it covers."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, Final, cast

from fitting import fit
from fitting.body import HorseType
from fitting.by_name import by_name
from fitting.fit import Finding, Wearer
from fitting.fit.answers import Answer, worst
from fitting.fit.covers import covers
from fitting.growth import fit_growth
from fitting.looks import Seen
from fitting.models import Horse, Tack, TackSet
from fitting.reads.facts import clearances, edges_for, made_up_fact, tack_fact
from fitting.reads.growth import subject_of
from fitting.reads.outlook import seen_of
from fitting.reads.reach import OneSize, ReachView, findings_of, reaches
from fitting.reads.units import units_of
from fitting.told import BEST_FIRST

_Hung = tuple[tuple[fit.Tack, ...], tuple[fit.MadeUp, ...]]
MOST_DRAWN: Final = 8  # horses: more are told by the list alone


def reaches_of(row: Tack | TackSet, today: date) -> tuple[ReachView, ...]:
    """Return a drawing a measure, hole by hole, of the horses an item or a set fits.

    2 queries for an item, 3 for a set: horses with their outlooks, parts.
    """
    horses: Any = row.yard.horses.select_related("yard", "outlook")
    told = [
        (horse, look, findings_of(row.name, look.fits))
        for horse in sorted(horses, key=lambda one: (one.grown, by_name(one.name)))
        if (look := seen_of(horse)) is not None
    ]
    fitted = [one for one in told if _known(one[2]) in {Answer.GOOD, Answer.WATCH}]
    fitted.sort(key=lambda one: BEST_FIRST.index(worst(one[2])))
    hung = _hung(row)
    sizes = [_size(hung, *one, today) for one in fitted[:MOST_DRAWN]]
    left_out = len(fitted) - len(sizes)
    views = reaches(row.name, sizes, units_of(row.yard))
    return tuple(replace(view, left_out=left_out) for view in views)


def _known(findings: tuple[Finding, ...]) -> Answer:
    """Return the worst answer of the parts of which one is known, of none not known.

    A bridle whose throatlash nobody can judge is still drawn on the head.
    """
    known = [each for each in findings if each.answer is not Answer.NOT_KNOWN]
    return worst(known) if known else Answer.NOT_KNOWN


def _hung(row: Tack | TackSet) -> _Hung:
    """Return an item alone, or a set alone, as what hangs."""
    if isinstance(row, Tack):
        return (tack_fact(row),), ()
    return (), (made_up_fact(row),)


def _size(
    hung: _Hung, horse: Horse, look: Seen, findings: tuple[Finding, ...], today: date
) -> OneSize:
    """Return one horse's sizes of today, and what the item or the set covers on it."""
    every = covers(_wearer(horse), *hung, today)
    return OneSize(
        said=horse.name,
        bands={
            one.measure: (one.now.p5, one.now.p50, one.now.p95)
            for one in look.measures
            if one.now and one.rests_on != "type"
        },
        covers=tuple(cover for cover in every if cover.good),
        findings=findings,
    )


def _wearer(horse: Horse) -> Wearer:
    """Return a horse as rules see it; what an item covers never asks its size."""
    return Wearer(
        name=horse.name,
        horse_type=cast("HorseType", horse.horse_type),
        foaled=horse.foaled_days,
        grown=horse.grown,
        growth=fit_growth(subject_of(horse), ()),
        standing=(),
        clearances=clearances(horse),
        edges=edges_for(horse),
    )
