"""Measures of one light horse, sampled from the model itself, to hold growth against.

Tempo by tempo: sizes on the days asked are drawn from the dense normal of prior and
readings, and every draw is weighed by what the bounds say of it. Measures share only
the tempo, so its weight is the product of what each makes of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import stats

from fitting.growth import Bound
from tests.fitting.light_horse import HEIGHT_POINTS, light_height, months_at

GROWN = 1e6  # an age at which nothing is left to grow, and no deviation
TEMPOS = np.linspace(-0.7, 0.7, 43)
DRAWS = 10_000


@dataclass(frozen=True, kw_only=True)
class Told:
    """What is told of one measure that grows as height does; ages in months."""

    mean: float
    sd: float
    wider: float = 1.25  # times the spread of the withers' fraction
    read: tuple[tuple[float, float, float], ...] = ()  # age, value, error
    bounds: tuple[Bound, ...] = ()


HEAD = Told(mean=1050, sd=60)


def own_sds(told: Told, ages: np.ndarray) -> np.ndarray:
    """Own SDs (mm): the table less what the tempo explains, by plain sums."""
    u = np.linspace(-1.6, 1.6, 4001)
    chance = stats.norm.pdf(u, scale=0.2)
    chance = chance / chance.sum()
    by_tempo = light_height(ages[:, None], u)
    middle = np.asarray(by_tempo @ chance)
    explained = ((by_tempo - middle[:, None]) ** 2) @ chance
    table = told.wider * np.interp(ages, *HEIGHT_POINTS) / 100
    return np.asarray(told.mean * np.sqrt(np.maximum(table**2 - explained, 0.003**2)))


def chance_of(bound: Bound, sizes: np.ndarray) -> np.ndarray:
    """What a try-on's word is worth at each size, 3 in 100 words being mistaken."""

    def over(limit: float, sign: int) -> np.ndarray:
        z = sign * (sizes - limit) / bound.sigma
        return np.asarray(0.97 * stats.norm.cdf(z) + 0.03)

    if bound.kind == "about":
        low, high = bound.value - bound.sigma, bound.value + bound.sigma
        return np.asarray(over(low, 1) * over(high, -1))
    return over(bound.value, 1 if bound.kind == "at_least" else -1)


def _dense(
    told: Told, ages: np.ndarray, tempo: float
) -> tuple[float, np.ndarray, np.ndarray]:
    """Log chance of the readings; mean and covariance of the other sizes asked."""
    n = len(told.read)
    f, own = light_height(ages, tempo), own_sds(told, ages)
    own = np.where(ages == GROWN, 0.0, own)
    joint = told.sd**2 * np.outer(f, f)
    joint += np.outer(own, own) * np.exp(-np.abs(ages[:, None] - ages) / 18)
    past = joint[:n, :n] + np.diag([error**2 for _, _, error in told.read])
    left = np.array([value for _, value, _ in told.read]) - told.mean * f[:n]
    gain = joint[n:, :n] @ np.linalg.inv(past)
    rest = joint[n:, n:] - gain @ joint[:n, n:]
    normal = stats.multivariate_normal(np.zeros(n), past) if n else None
    log_read = float(normal.logpdf(left)) if normal else 0.0
    return log_read, told.mean * f[n:] + gain @ left, rest


def _at_tempo(
    told: Told, ages: np.ndarray, tempo: float, draws: np.ndarray
) -> tuple[float, float, float]:
    """Log chance of all that is told; mean and mean square of the last size asked."""
    log_read, mean, rest = _dense(told, ages, tempo)
    if not told.bounds:
        return log_read, float(mean[-1]), float(mean[-1] ** 2 + rest[-1, -1])
    rest = rest + 1e-6 * np.eye(len(mean))
    sizes = mean + draws[:, : len(mean)] @ np.linalg.cholesky(rest).T
    weight = np.ones(len(sizes))
    for at, bound in enumerate(told.bounds):
        weight = weight * chance_of(bound, sizes[:, at])
    last, total = sizes[:, -1], weight.mean()
    return (
        float(log_read + np.log(total)),
        float((weight * last).mean() / total),
        float((weight * last**2).mean() / total),
    )


def _draws(told: Sequence[Told]) -> np.ndarray:
    most = max(len(one.bounds) for one in told) + 2
    half = np.random.default_rng(11).standard_normal((DRAWS, most))
    return np.concatenate([half, -half])


def _ages(told: Told, targets: Sequence[float]) -> np.ndarray:
    said = [months_at(bound.on) for bound in told.bounds]
    return np.array([*(age for age, _, _ in told.read), *said, *targets])


def moments(told: Sequence[Told], target: float) -> tuple[float, float, float]:
    """Chance of all that is told; mean and mean square of the first one's size."""
    draws, asked = _draws(told), [_ages(one, [target]) for one in told]
    found = np.array(
        [
            [
                _at_tempo(one, ages, tempo, draws)
                for one, ages in zip(told, asked, strict=True)
            ]
            for tempo in TEMPOS
        ]
    )  # (tempos, measures, 3)
    log_weight = found[:, :, 0].sum(axis=1) + stats.norm.logpdf(TEMPOS, scale=0.2)
    weight = np.exp(log_weight)
    total = weight.sum()
    mean, square = (float(weight @ found[:, 0, at] / total) for at in (1, 2))
    return float(total), mean, square


def sampled(told: Sequence[Told], target: float) -> tuple[float, float]:
    """Mean and SD of the first measure at an age, by sampling."""
    _, mean, square = moments(told, target)
    return mean, float(np.sqrt(square - mean**2))


def drawn(told: Told, targets: Sequence[float]) -> tuple[np.ndarray, np.ndarray]:
    """Sizes at ages (GROWN: the grown size), shape (draws, ages), and their weights."""
    draws, ages = _draws([told]), _ages(told, targets)
    sizes, weights = [], []
    for tempo in TEMPOS:
        log_read, mean, rest = _dense(told, ages, tempo)
        rest = rest + 1e-6 * np.eye(len(mean))
        size = mean + draws[:, : len(mean)] @ np.linalg.cholesky(rest).T
        weight = np.full(len(size), np.exp(log_read) * stats.norm.pdf(tempo, scale=0.2))
        for at, bound in enumerate(told.bounds):
            weight = weight * chance_of(bound, size[:, at])
        sizes.append(size[:, len(told.bounds) :])
        weights.append(weight)
    weight = np.concatenate(weights)
    return np.concatenate(sizes), weight / weight.sum()


def quantile(values: np.ndarray, weights: np.ndarray, share: float) -> float:
    order = np.argsort(values)
    return float(np.interp(share, np.cumsum(weights[order]), values[order]))
