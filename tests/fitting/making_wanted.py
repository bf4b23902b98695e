"""A horse that wants something, and what hangs here and with whom."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import cast

from fitting.fit import MadeUp, Tack, Wearer
from fitting.growth import Growth, Shares, Spread
from fitting.tryons import TryOn
from fitting.wanted import Got, Need, Peg, Wanted, Wants, room_of, wants_of
from tests.fitting.making_fit import ON, Steady, make_wearer, spread

NEEDED = ON + timedelta(days=60)
MOUTH = {"mouth_width": 118.0}


@dataclass(frozen=True, kw_only=True)
class Ending(Steady):
    """Steady growth that has an end: a grown size, and how surely that share is done.

    ``unsure_mm2``: the variance of both sizes in that share.
    """

    ends: dict[str, float] = field(default_factory=dict)
    unsure_mm2: float = 1e-6

    def grown_size(self, measure: str) -> Spread | None:
        size = self.ends.get(measure, self.sizes.get(measure))
        return None if size is None else spread(size, self.sd)

    def done(self, measure: str, on: date) -> Shares | None:
        now, grown = self.at(measure, on), self.grown_size(measure)
        if now is None or grown is None:
            return None
        unsure = self.unsure_mm2
        return Shares(parts=((1.0, now.mean, grown.mean, unsure, unsure, 0.0),))


def growing(
    sizes: dict[str, float],
    a_day: dict[str, float] | None = None,
    ends: dict[str, float] | None = None,
    sd: float = 0.01,
    unsure_mm2: float = 1e-6,
) -> Growth:
    double = Ending(
        sizes=sizes, a_day=a_day or {}, ends=ends or {}, sd=sd, unsure_mm2=unsure_mm2
    )
    return cast("Growth", double)


def wearer_of(
    growth: Growth, *, grown: bool = False, tryons: tuple[TryOn, ...] = ()
) -> Wearer:
    return make_wearer(growth, grown=grown, tryons=tryons)


def wanted_for(
    wearer: Wearer,
    *needs: Need,
    tack: tuple[Tack, ...] = (),
    made_up: tuple[MadeUp, ...] = (),
    pegs: tuple[Peg, ...] = (),
    got: tuple[Got, ...] = (),
    on: date = ON,
) -> Wants:
    room = room_of(wearer, (tack, made_up), pegs, on)
    return wants_of(wearer, room, needs, got, on)


def need(kind: str, on: date = NEEDED) -> Need:
    return Need(kind=kind, on=on, stage="step", stage_name="A step")


def one(found: tuple[Wanted, ...]) -> Wanted:
    (wanted,) = found
    return wanted
