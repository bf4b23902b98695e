"""Early, likely and late: by lot, seeded, and never out of order."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from scipy import stats

from starting.schedule import HorseAhead, Spread, YardDays, plan_yard, spreads
from starting.schedule.draws import DRAWS, _lost, _sessions
from starting.schedule.jobs import yard_at_work
from tests.starting.making_schedule import (
    TODAY,
    day,
    make_ahead,
    make_horse,
    make_yard,
    whole_yards,
)


def _drawn(
    *horses: HorseAhead, yard: YardDays | None = None
) -> list[dict[str, Spread]]:
    days = yard or make_yard()
    plans = plan_yard(horses, days, TODAY)
    return list(spreads(horses, days, TODAY, plans))


@settings(max_examples=40, deadline=None)
@given(whole_yards())
def test_early_is_never_after_the_plan_nor_late_before_it(
    yard: tuple[list[HorseAhead], YardDays],
) -> None:
    horses, days = yard
    plans = plan_yard(horses, days, TODAY)
    found = spreads(horses, days, TODAY, plans)
    for plan, spread in zip(plans, found, strict=True):
        for one in plan.stages:
            assert (one.stage in spread) == (one.finish is not None)
            if one.finish is not None:
                drawn = spread[one.stage]
                assert TODAY <= drawn.early <= one.finish
                assert drawn.late is None or drawn.late >= one.finish


def test_the_same_facts_give_the_same_spread_whatever_the_order() -> None:
    tansy = make_horse(make_ahead(left=9, fewest_left=4, most_left=20), horse="Tansy")
    dill = make_horse(make_ahead(left=9, fewest_left=4, most_left=20), horse="Dill")
    first = _drawn(tansy, dill)
    assert _drawn(tansy, dill) == first
    assert _drawn(dill, tansy) == first[::-1]


def test_one_horse_s_lots_stay_when_another_comes_or_a_step_goes() -> None:
    step = make_ahead("bridle", 9, fewest_left=4, most_left=20)
    alone = _drawn(make_horse(step))[0]
    other = make_horse(make_ahead(left=3, fewest_left=1, most_left=5), horse="Dill")
    with_other = _drawn(make_horse(step), other)[0]
    assert with_other["bridle"] == alone["bridle"]  # two sessions a day, for both


def test_the_number_of_sessions_is_triangular_about_the_plan_s() -> None:
    ahead = make_ahead(left=60, fewest_left=30, most_left=120)
    counts = _sessions("Tansy", ahead)
    whole = stats.triang(c=30 / 90, loc=30, scale=90)
    assert len(counts) == DRAWS >= 400
    assert stats.kstest(counts, whole.cdf).pvalue > 0.01
    assert counts.min() >= 30
    assert counts.max() <= 120


def test_fifteen_days_in_a_hundred_are_lost() -> None:
    lost = _lost(yard_at_work([], make_yard(), TODAY))
    assert lost.mean() == pytest.approx(0.15, abs=0.002)
    a_week_on = _lost(yard_at_work([], make_yard(), day(7)))
    assert np.array_equal(lost[7:100], a_week_on[:93])  # a day keeps its lots


def test_a_step_of_a_known_number_of_days_is_late_only_by_days_lost() -> None:
    """Ten days running: the days lost before the tenth are negative binomial."""
    found = _drawn(make_horse(make_ahead(left=10)))[0]["bridle"]
    assert found.early == day(9)
    assert found.late is not None
    ninth = stats.nbinom(10, 0.85).ppf(0.9)
    assert abs((found.late - day(9)).days - ninth) <= 1


def test_an_end_that_may_lie_beyond_the_plan_has_no_late_day() -> None:
    long = make_ahead(left=170, fewest_left=100, most_left=400, days_a_week=(1, 1))
    found = _drawn(make_horse(long))[0]["bridle"]
    assert found.late is None
    assert found.early < TODAY.replace(year=2031)


def test_fewer_sessions_needed_never_end_later() -> None:
    many = make_ahead(left=20, fewest_left=10, most_left=40)
    few = replace(many, sessions_left=10, fewest_left=5, most_left=20)
    early = _drawn(make_horse(few))[0]["bridle"]
    late = _drawn(make_horse(many))[0]["bridle"]
    assert early.early < late.early
    assert early.late is not None
    assert late.late is not None
    assert early.late < late.late
