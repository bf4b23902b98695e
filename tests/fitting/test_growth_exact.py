"""Growth is exact to its model, and its bands hold what they say."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import integrate, stats

from fitting.growth import fit_growth
from fitting.growth.posterior import evidence, given_tempo
from tests.fitting.light_horse import (
    BORN,
    day_at,
    drawn_heights,
    height,
    light_height,
    months_at,
    now,
    own_sd,
    subject,
)


def by_quadrature(
    seen: list[tuple[float, float, float]], target: float
) -> tuple[float, float, list[float]]:
    """Mean, SD and quantiles by a grid over grown size and tempo, without tricks."""
    t = np.array([months for months, _, _ in seen] + [target])
    values = np.array([value for _, value, _ in seen])
    errors = np.array([error for _, _, error in seen] + [0.0])
    sds = 1570 * np.array([own_sd(x) for x in t])
    joint = np.outer(sds, sds) * np.exp(-np.abs(t[:, None] - t[None, :]) / 18)
    joint += np.diag(errors**2)
    past, cross = joint[:-1, :-1], joint[:-1, -1]
    gain = np.linalg.solve(past, cross)
    rest = np.sqrt(joint[-1, -1] - cross @ gain)
    m = np.linspace(1570 - 8 * 60, 1570 + 8 * 60, 801)
    u = np.linspace(-1.2, 1.2, 241)
    mm, uu = np.meshgrid(m, u, indexing="ij")
    f = light_height(t, uu[..., None])
    left = values - mm[..., None] * f[..., :-1]
    weight = stats.multivariate_normal(np.zeros(len(values)), past).pdf(left)
    weight = weight.reshape(mm.shape) * stats.norm.pdf(mm, 1570, 60)
    weight = weight * stats.norm.pdf(uu, scale=0.2)
    mean = mm * f[..., -1] + left @ gain

    def average(of: np.ndarray) -> float:
        inner = integrate.simpson(weight * of, x=u, axis=1)
        return float(integrate.simpson(inner, x=m))

    total = average(np.ones_like(mm))
    middle = average(mean) / total
    sd = np.sqrt(average((mean - middle) ** 2) / total + rest**2)
    low, high = middle - 6 * sd, middle + 6 * sd
    grid = np.linspace(low, high, 121)
    below = [average(stats.norm.cdf(x, mean, rest)) / total for x in grid]
    return middle, float(sd), [float(np.interp(q, below, grid)) for q in (0.05, 0.95)]


@pytest.mark.parametrize(
    ("seen", "target"),
    [
        ([(12.0, 1400.0, 12.0)], 24.0),
        ([(12.0, 1350.0, 12.0)], 48.0),
        ([(9.0, 1380.0, 12.0), (14.0, 1440.0, 12.0), (20.0, 1500.0, 12.0)], 21.0),
        ([(9.0, 1380.0, 12.0), (14.0, 1440.0, 12.0), (20.0, 1500.0, 12.0)], 36.0),
    ],
)
def test_a_forecast_agrees_with_brute_quadrature_to_a_hundredth_of_an_sd(
    seen: list[tuple[float, float, float]], target: float
) -> None:
    fitted = fit_growth(subject(), [height(t, y) for t, y, _ in seen])
    exact = [(months_at(day_at(t)), y, e) for t, y, e in seen]
    mean, sd, (low, high) = by_quadrature(exact, months_at(day_at(target)))
    spread = now(fitted, target)
    assert spread.mean == pytest.approx(mean, abs=0.01 * sd)
    assert spread.sd == pytest.approx(sd, rel=0.01)
    # The grid reads its quantiles by straight lines, so they get a little more room.
    assert spread.quantile(0.05) == pytest.approx(low, abs=0.02 * sd)
    assert spread.quantile(0.95) == pytest.approx(high, abs=0.02 * sd)


def test_a_tempo_is_as_likely_as_the_whole_normal_of_its_readings_says() -> None:
    rows = [height(9, 1300), height(14, 1440), height(20, 1500)]
    ((measure, seen),) = fit_growth(subject(), rows).seen
    found = evidence(measure, subject(), (BORN,), seen)
    assert found is not None
    tempos = np.array([-0.5, -0.1, 0.0, 0.3])
    t = np.array([months_at(row.on) for row in rows])
    sds = 1570 * np.array([own_sd(x) for x in t])
    noise = np.outer(sds, sds) * np.exp(-np.abs(t[:, None] - t) / 18)
    noise += np.diag(np.full(3, 12.0**2))
    exact = []
    for tempo in tempos:
        f = light_height(t, tempo)
        joint = stats.multivariate_normal(1570 * f, noise + 60**2 * np.outer(f, f))
        exact.append(joint.logpdf([1300, 1440, 1500]) + 1.5 * np.log(2 * np.pi))
    given = given_tempo(found, tempos[None, :])
    assert given.log_likelihood[0] == pytest.approx(exact, abs=1e-6)


def test_the_ninety_per_cent_band_holds_its_share_of_a_thousand_light_horses() -> None:
    rng = np.random.default_rng(20260501)
    inside = {0: 0, 6: 0, 12: 0, 24: 0}
    for _ in range(1000):
        read = np.sort(rng.uniform(3, 36, rng.integers(1, 8))).round(1)
        read = np.array([months_at(day_at(t)) for t in np.unique(read)])
        ahead = read[-1] + np.array([0.01, 6, 12, 24])
        true = drawn_heights(rng, np.concatenate([read, ahead]))
        seen = true[: len(read)] + rng.normal(0, 12, len(read))
        pairs = zip(read, seen, strict=True)
        growth = fit_growth(subject(), [height(t, float(y)) for t, y in pairs])
        spreads = growth.at_days("withers_height", [day_at(t) for t in ahead])
        for key, spread, value in zip(inside, spreads, true[len(read) :], strict=True):
            inside[key] += 0.05 <= spread.below(value) <= 0.95
    assert all(870 <= count <= 930 for count in inside.values()), inside


def test_on_average_another_reading_does_not_widen() -> None:
    rng = np.random.default_rng(7)
    change = []
    for _ in range(150):
        ages = np.array([8.0, 15.0, 22.0, 30.0])
        true = drawn_heights(rng, ages) + rng.normal(0, 12, 4)
        rows = [height(t, float(y)) for t, y in zip(ages, true, strict=True)]
        sds = [now(fit_growth(subject(), rows[:n]), 40).sd for n in range(5)]
        change.append(np.diff(np.square(sds)))
    assert (np.mean(change, axis=0) < 0).all()
