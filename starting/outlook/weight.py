"""The weight's part of an outlook: how it moved, and the condition."""

from __future__ import annotations

from datetime import date

from fitting.condition import Scored, newest_score
from fitting.weight import BestWeight, Trend, Whom, best_weight, trend
from starting.outlook.facts import HorseFacts, YardFacts


def whom(yard: YardFacts, horse: HorseFacts) -> Whom:
    """Return a horse as far as its weight goes."""
    return Whom(
        horse_type=horse.horse_type,
        foaled=horse.foaled,
        grown=horse.grown,
        ridden=horse.rider_named,
        lives_out=horse.lives_out,
        hemisphere=yard.hemisphere,
    )


def weight_trend(yard: YardFacts, horse: HorseFacts, on: date) -> Trend | None:
    """Return how the weight moved up to a day; None: not known."""
    return trend([m.taken for m in horse.measured], whom(yard, horse), on)


def weight_to_go_by(yard: YardFacts, horse: HorseFacts, on: date) -> BestWeight:
    """Return the weight to go by on a day."""
    return best_weight([m.taken for m in horse.measured], whom(yard, horse), on)


def condition(horse: HorseFacts, on: date) -> Scored | None:
    """Return the newest condition score up to a day."""
    taken = [m.taken for m in horse.measured]
    return newest_score(taken, horse.foaled, on, ridden=horse.rider_named)
