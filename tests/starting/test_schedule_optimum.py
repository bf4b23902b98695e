"""How far the yard's plan is from the best there could be: measured, printed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from random import Random

import pytest

from starting.schedule import (
    Closed,
    Hold,
    HorseAhead,
    HorsePlan,
    StageAhead,
    YardDays,
    plan_yard,
)
from tests.starting.making_schedule import KEYS, TODAY, day, make_ahead, make_horse
from tests.starting.schedule_checker import broken_rules
from tests.starting.schedule_optimum import earliest_end

YARDS = 50
SEED = 20261126
CLOSE = 0.15
# Ours: 47 within 15 % of the bound, 1.8 % later on average with these random numbers;
# 49 each, 1.5 and 1.3 %, with two others. No plan proven best is missed by more. Given
# forty times as long, the solver brings the last three of these within 15 % too.
FEWEST_CLOSE = 46
MOST_LATER = 0.04
NAMES = ("Pennyroyal", "Tansy", "Woodruff")


def _small_yard(chance: Random) -> tuple[list[HorseAhead], YardDays]:
    free = frozenset(chance.sample(range(7), chance.randint(2, 6)))
    helper = frozenset(chance.sample(sorted(free), max(1, len(free) - 1)))
    horses = [
        make_horse(
            *_programme(chance),
            horse=name,
            born=date(2022, chance.randint(1, 12), 1),
            care_days=(day(chance.randint(0, 12)),),
        )
        for name in NAMES[: chance.randint(2, 3)]
    ]
    days = YardDays(free=free, helper=helper, sessions_a_day=chance.randint(1, 2))
    return horses, days


def _programme(chance: Random) -> list[StageAhead]:
    stages = []
    for place in range(chance.randint(2, 4)):
        before = [key for key in KEYS[:place] if chance.random() < 0.4]
        hold = Hold(gate="season", until=day(chance.randint(1, 10)), why="Season")
        shut = day(chance.randint(3, 14))
        winter = Closed(gate="season", first=shut, last=shut, why="Season")
        stages.append(
            make_ahead(
                KEYS[place],
                chance.randint(1, 4),
                kind=chance.choice(["sessions"] * 5 + ["check"]),
                prerequisites=tuple(before),
                days_a_week=(1, chance.randint(1, 4)),
                days_in_a_row=chance.randint(1, 3),
                people=chance.choice([1, 1, 2]),
                holds=(hold,) if chance.random() < 0.3 else (),
                closed=(winter,) if chance.random() < 0.3 else (),
            )
        )
    return stages


def _last_day(plans: Sequence[HorsePlan]) -> int:
    """Return the last day of any plan, 1 for today."""
    ends = [one.finish for plan in plans for one in plan.stages]
    assert all(ends)
    return max((end - TODAY).days for end in ends if end) + 1


def test_small_yards_are_through_close_to_the_first_day_proven_possible(
    capsys: pytest.CaptureFixture[str],
) -> None:
    chance = Random(SEED)
    later, surely = [], []
    for _ in range(YARDS):
        horses, days = _small_yard(chance)
        plans = plan_yard(horses, days, TODAY)
        assert broken_rules(horses, days, TODAY, plans) == []
        best, is_proven = earliest_end(horses, days, TODAY, plans)
        ours = _last_day(plans)
        assert ours >= best  # the best would not be the best
        later.append(ours / best - 1)
        surely += [ours / best - 1] if is_proven else []
    mean, close = sum(later) / YARDS, sum(one <= CLOSE for one in later)
    with capsys.disabled():
        print(  # noqa: T201  the figure is to be seen, not hidden
            f"\n{sum(one == 0 for one in later)} of {YARDS} small yards are through on"
            f" the first day that any plan could ({len(surely)} proven, else by the"
            f" bound);"
            f" {close} within {CLOSE:.0%}, all {mean:.1%} later on average,"
            f" {max(later):.0%} at most"
        )
    assert max(surely) <= CLOSE
    assert mean <= MOST_LATER
    assert close >= FEWEST_CLOSE
