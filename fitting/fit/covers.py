"""Which bodies an item of tack is good for: the range that its sizes cover."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from fitting.fit.answers import NoRule, Rule, Wearer
from fitting.fit.bits import BitRule
from fitting.fit.bridles import HoleRule
from fitting.fit.findings import rules
from fitting.fit.rollers import RollerRule
from fitting.fit.straps import StrapRule
from fitting.fit.tack import MadeUp, Tack


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The bodies one part of an item, or of a set, sits on; mm of the body.

    ``good``: the spans it is good for, ascending; ``least_mm`` to ``most_mm``: those it
    sits on at all, only just beyond the good ones. ``holes``: the body each hole sits
    best on, hole 1 first; ``in_set``: the part hangs in a made-up set. Of a bit the
    length is meant, not the thickness.
    """

    item: str
    kind: str
    measure: str
    good: tuple[tuple[float, float], ...]
    least_mm: float
    most_mm: float
    holes: tuple[float, ...] = ()
    in_set: bool = False

    @property
    def from_mm(self) -> float:
        """The smallest body it is good for."""
        return self.good[0][0]

    @property
    def to_mm(self) -> float:
        """The largest body it is good for."""
        return self.good[-1][1]


def covers(
    wearer: Wearer, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], on: date
) -> tuple[Cover, ...]:
    """Return what every item and every made-up set covers, once for each measure.

    A part without a rule, or without its sizes, covers nothing that is known.
    """
    sets = {made.name for made in made_up}
    found: dict[tuple[str, str], Cover] = {}
    for rule in rules(wearer, tack, made_up, on):
        cover = cover_of(rule)
        if cover is not None:
            cover = replace(cover, in_set=cover.item in sets)
            found.setdefault((cover.item, cover.measure), cover)
    return tuple(found.values())


def cover_of(rule: Rule | NoRule) -> Cover | None:
    """Return the bodies (mm) that a rule calls good; None: not known for its kind."""
    match rule:
        case BitRule():
            return _mouths(rule)
        case HoleRule():
            return _heads(rule)
        case StrapRule():
            return _strapped(rule)
        case RollerRule():
            return _girths(rule)
        case _:
            return None


def _mouths(rule: BitRule) -> Cover:
    """Return the mouths a bit is long enough for, and not too long."""
    window, length = rule.window, rule.length_mm
    return Cover(
        item=rule.item,
        kind=rule.kind,
        measure=rule.measure,
        good=((length - window.good_to, length - window.good_from),),
        least_mm=length - window.no_above,
        most_mm=length - window.no_below,
    )


def _heads(rule: HoleRule) -> Cover:
    """Return the heads a bridle's holes reach, each from half way to the next.

    Holes far apart leave heads between them for which neither is good.
    """
    straps, space = rule.straps, rule.straps.spacing_mm
    best = tuple(
        straps.on_hole(hole) + rule.hangs_mm for hole in range(1, straps.holes + 1)
    )
    least, most = best[-1] - space, best[0] + space
    apart = space > rule.half_mm
    reach = tuple((at - rule.half_mm, at + rule.half_mm) for at in reversed(best))
    return Cover(
        item=rule.item,
        kind=rule.kind,
        measure=rule.measure,
        good=reach if apart else ((least, most),),
        least_mm=least,
        most_mm=most,
        holes=best,
    )


def _strapped(rule: StrapRule) -> Cover:
    """Return the bodies a strap about the head can be done up to, some way or other."""
    holes = range(1, len(rule.lengths.on_holes) + 1)
    best = (rule.fitted_mm(hole) for hole in holes)
    sits = rule.bodies
    return Cover(
        item=rule.item,
        kind=rule.kind,
        measure=rule.measure,
        good=rule.good_bodies,
        least_mm=sits[0][0],
        most_mm=sits[-1][1],
        holes=tuple(body for body in best if body is not None),
    )


def _girths(rule: RollerRule) -> Cover:
    """Return the girths a roller goes round; none is good where it hardly lets out."""
    least, most = rule.bodies
    holes = range(1, len(rule.lengths.on_holes) + 1)
    best = (rule.fitted_mm(hole) for hole in holes)
    return Cover(
        item=rule.item,
        kind=rule.kind,
        measure=rule.measure,
        good=() if rule.good_bodies is None else (rule.good_bodies,),
        least_mm=least,
        most_mm=most,
        holes=tuple(girth for girth in best if girth is not None),
    )
