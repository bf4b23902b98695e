"""A horse as its days ahead are planned."""

from __future__ import annotations

from datetime import date

from starting.outlook import HorseFacts, YardFacts
from starting.outlook.compute import _sight
from starting.outlook.work import horse_ahead
from starting.schedule import HorseAhead


def ahead_of(horse: HorseFacts, yard: YardFacts, on: date) -> HorseAhead:
    sight = _sight(yard, horse, on)
    assert sight.facts is not None
    return horse_ahead(horse, sight.facts, sight.gates, on)
