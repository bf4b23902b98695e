"""When a saddle was last seen on a horse, and what changed under it since."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Final

from fitting.fit.edges import OURS, Edges, group_by_key
from fitting.growth import Growth
from fitting.tryons import Saw, SpokenOf, TryOn, Verdict, last_worn
from fitting.units import show_off

# A saddle fitter's visit says whose horse, not which saddle: a try-on of no name.
FITTER: Final = ""
NOT_ON: Final[frozenset[Verdict]] = frozenset({"too_short", "too_long", "no"})
BACK_WIDTHS: Final = ("back_width_front", "back_width_last_rib")
WIDTH_CHANGE: Final = "saddle.width_change"
GIRTH_CHANGE: Final = "saddle.girth_change"
NEAR: Final = "saddle.near"
_RECHECK: Final = group_by_key("saddle.recheck")
# Source: as beside each in clearances.toml; others' word, which no yard changes.
RECHECKS: Final = tuple(int(edge.value) for edge in _RECHECK.edges) if _RECHECK else ()
_CHANGES: Final = (
    ("back_width_front", "back width, front", WIDTH_CHANGE),
    ("back_width_last_rib", "back width, last rib", WIDTH_CHANGE),
    ("heart_girth", "heart girth", GIRTH_CHANGE),
)


def fitter_visit(on: date, *, clear: bool) -> TryOn:
    """Return a saddle fitter's visit as a try-on of the saddle the horse wore then."""
    return TryOn(on=on, item=FITTER, how="worn", answer="good" if clear else "watch")


def fitter_came(tryons: tuple[TryOn, ...], on: date) -> date | None:
    """Return the last day, up to a day, on which a saddle fitter came."""
    days = (one.on for one in tryons if one.item == FITTER and one.on <= on)
    return max(days, default=None)


def last_check(tryons: tuple[TryOn, ...], spoken_of: SpokenOf, on: date) -> Saw | None:
    """Return what was last seen of a saddle put on, by the keeper or by a fitter.

    A fitter's visit counts for a saddle that the horse had on by then, and that was no
    plain no: which one a fitter saw is not written down otherwise.
    """
    return last_worn((*tryons, *_by_fitter(tryons, spoken_of)), spoken_of, on)


def _by_fitter(tryons: tuple[TryOn, ...], spoken_of: SpokenOf) -> Iterator[TryOn]:
    for visit in tryons:
        worn = visit.item == FITTER and last_worn(tryons, spoken_of, visit.on)
        if worn and worn.verdict not in NOT_ON:
            yield replace(visit, item=spoken_of.names[0])


def changes_since(
    growth: Growth, since: date, on: date, edges: Edges = OURS
) -> tuple[str, ...]:
    """Return what of back and girth changed more than a saddle can take, in words.

    The reading nearest to the day of the check, within a few weeks of it, against the
    last one.
    """
    found = []
    for measure, name, most in _CHANGES:
        change = _change(growth, measure, since, on, edges)
        if change is not None and abs(change) > edges.value(most):
            less = "less" if change < 0 else "more"
            found.append(f"{name} is {show_off(abs(change), edges.told_in)} {less}")
    return tuple(found)


def unmeasured_then(growth: Growth, since: date, edges: Edges = OURS) -> str:
    """Return a back width not measured about the day of a check, or nothing."""
    return next(
        (
            name
            for measure, name, _ in _CHANGES
            if measure in BACK_WIDTHS
            and _nearest(growth, measure, since, edges) is None
        ),
        "",
    )


def _change(
    growth: Growth, measure: str, since: date, on: date, edges: Edges
) -> float | None:
    then = _nearest(growth, measure, since, edges)
    seen = [one for one in growth.readings(measure) if one.on <= on]
    if then is None or not seen or seen[-1].on <= then[0]:
        return None
    return seen[-1].value - then[1]


def _nearest(
    growth: Growth, measure: str, since: date, edges: Edges
) -> tuple[date, float] | None:
    """Return the day and value (mm) of the reading nearest to a check."""
    seen = growth.readings(measure)
    near = min(seen, key=lambda one: abs((one.on - since).days), default=None)
    if near is None or abs((near.on - since).days) > edges.value(NEAR):
        return None
    return near.on, near.value


def others_ask(days: int) -> str:
    """Return which of the published times for a recheck are over after so many days."""
    over = [str(after) for after in RECHECKS if days > after]
    left = [str(after) for after in RECHECKS if days <= after]
    said = [
        f"past {' and '.join(over)} days" if over else "",
        f"not yet {' or '.join(left)}" if left else "",
    ]
    return (
        f"{', '.join(one for one in said if one)}: members of a saddlers' society give"
        " each of these for a young horse."
    )
