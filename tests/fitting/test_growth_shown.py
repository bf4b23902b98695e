"""What pages show of growth: its share done, a month of it; unknown foaling days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from fitting.age import Foaled
from fitting.growth import Bound, Shares, fit_growth, share_quantiles
from tests.fitting.light_horse import BORN, day_at, height, months_at, now, subject
from tests.fitting.sampling import GROWN, Told, drawn, moments, quantile

STICK = ((12.0, 1400.0), (20.0, 1490.0))
SAID = Bound(
    measure="withers_height", on=day_at(26), kind="at_most", value=1500.0, sigma=12.0
)
BANDS = (0.05, 0.5, 0.95)


def withers(*bounds: Bound, later: float = 0.0) -> Told:
    """Two readings; ``later``: how many months the foal is younger than told."""
    read = tuple((months_at(day_at(t)) - later, v, 12.0) for t, v in STICK)
    return Told(mean=1570, sd=60, wider=1.0, read=read, bounds=bounds)


@pytest.mark.parametrize("bounds", [(), (SAID,)], ids=["read", "read and tried"])
@pytest.mark.parametrize("age", [8.0, 24.0, 50.0])
def test_the_share_done_is_size_over_grown_size_drawn_together(
    bounds: tuple[Bound, ...], age: float
) -> None:
    growth = fit_growth(subject(), [height(t, v) for t, v in STICK], bounds)
    sizes, weights = drawn(withers(*bounds), [months_at(day_at(age)), GROWN])
    exact = sizes[:, 0] / sizes[:, 1]
    wide = quantile(exact, weights, 0.95) - quantile(exact, weights, 0.05)
    done = growth.done("withers_height", day_at(age))
    assert done is not None
    found = share_quantiles([done], BANDS)[0]
    for share, value in zip(BANDS, found, strict=True):
        true = min(quantile(exact, weights, share), 1.0)
        assert value == pytest.approx(true, abs=0.02 * wide)
        if value < 1:
            assert done.below(value) == pytest.approx(share, abs=1e-6)


@pytest.mark.parametrize("bounds", [(), (SAID,)], ids=["read", "read and tried"])
@pytest.mark.parametrize("age", [14.0, 30.0])
def test_a_month_s_growth_is_the_difference_drawn_together(
    bounds: tuple[Bound, ...], age: float
) -> None:
    growth = fit_growth(subject(), [height(t, v) for t, v in STICK], bounds)
    ends = [months_at(day_at(age) + timedelta(days=days)) for days in (0, 30)]
    sizes, weights = drawn(withers(*bounds), ends)
    gained = sizes[:, 1] - sizes[:, 0]
    mean = float(weights @ gained)
    sd = float(np.sqrt(weights @ (gained - mean) ** 2))
    found = growth.gains("withers_height", day_at(age), 30)
    assert found is not None
    assert found.mean == pytest.approx(mean, abs=0.05 * sd)
    assert found.sd == pytest.approx(sd, rel=0.05)


def test_a_month_s_growth_is_surer_than_two_sizes_taken_apart() -> None:
    growth = fit_growth(subject(), [height(t, v) for t, v in STICK])
    found = growth.gains("withers_height", day_at(30), 30)
    assert found is not None
    assert found.sd < now(growth, 30).sd / 2
    assert found.mean == pytest.approx(now(growth, 31).mean - now(growth, 30).mean, 0.1)


def test_of_what_does_not_grow_or_is_not_known_nothing_is_done() -> None:
    growth = fit_growth(subject(), [])
    for measure in ("nose_gap", "jaw_gap"):
        assert growth.done(measure, day_at(30)) is None
        assert growth.gains(measure, day_at(30), 30) is None
    assert share_quantiles([], BANDS) == ()


def test_shares_of_several_measures_are_found_together() -> None:
    growth = fit_growth(subject(), [height(t, v) for t, v in STICK])
    keys = ("withers_height", "mouth_width", "weight")
    shares = [growth.done(key, day_at(24)) for key in keys]
    known = [one for one in shares if isinstance(one, Shares)]
    together = share_quantiles(known, BANDS)
    assert together == pytest.approx(
        np.array([share_quantiles([one], BANDS)[0] for one in known]), abs=1e-8
    )
    assert together[2][1] < together[0][1]


@pytest.mark.parametrize(
    ("foaled", "step"),
    [
        (Foaled(first=date(2022, 5, 1), last=date(2022, 5, 31)), 1),
        (Foaled(first=date(2022, 1, 1), last=date(2022, 12, 31)), 7),
    ],
    ids=["month", "year"],
)
def test_a_foaling_month_or_year_averages_over_every_day_it_may_be(
    foaled: Foaled, step: int
) -> None:
    target = day_at(30)
    days = range(0, (foaled.last - foaled.first).days + 1, step)
    rows = []
    for day in days:
        later = (foaled.first + timedelta(days=day) - BORN).days / 30.4375
        rows.append(moments([withers(later=later)], months_at(target) - later))
    chance, mean, square = np.array(rows).T
    middle = float(chance @ mean / chance.sum())
    sd = float(np.sqrt(chance @ square / chance.sum() - middle**2))
    growth = fit_growth(subject(foaled=foaled), [height(t, v) for t, v in STICK])
    spread = now(growth, 30)
    assert spread.mean == pytest.approx(middle, abs=0.05 * sd)
    assert spread.sd == pytest.approx(sd, rel=0.05)


def test_the_share_done_of_a_horse_that_lives_out_knows_no_season() -> None:
    inside, out = subject(), replace(subject(), lives_out=True)
    autumn = date(2024, 11, 1)
    shares = [fit_growth(who, []).done("heart_girth", autumn) for who in (inside, out)]
    bands = share_quantiles([s for s in shares if s is not None], BANDS)
    assert bands[0] == pytest.approx(bands[1])
