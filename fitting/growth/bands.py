"""The quantiles of many spreads at once, for bands and charts."""

from __future__ import annotations

from collections.abc import Sequence
from math import erfc, pi, sqrt
from statistics import NormalDist
from typing import Final

import numpy as np

from fitting.curves import Floats
from fitting.growth.spread import Spread

_ENOUGH: Final = 1e-6  # of the narrowest part's SD: far below a millimetre
_MOST_STEPS: Final = 60
_REACH: Final = 39.0  # SDs, as in Spread.quantile
_ERFC: Final = np.frompyfunc(erfc, 1, 1)


def quantiles(
    spreads: Sequence[Spread], shares: tuple[float, ...]
) -> tuple[tuple[float, ...], ...]:
    """Return for each spread the sizes that each of ``shares`` lies below.

    The same steps as ``Spread.quantile``, taken for all of them together.

    Raises:
        ValueError: a share is not between 0 and 1.
    """
    if not all(0.0 < share < 1.0 for share in shares):
        raise ValueError(f"Shares lie between 0 and 1, not {shares}")
    if not spreads:
        return ()
    weights, means, sds = _padded(spreads)
    sd = np.array([spread.sd for spread in spreads])[:, None]
    mean = np.array([spread.mean for spread in spreads])[:, None]
    wanted = np.array(shares)[None, :]
    at = mean + sd * np.array([NormalDist().inv_cdf(share) for share in shares])
    low = (means - _REACH * sds).min(axis=1, keepdims=True) + 0.0 * at
    high = (means + _REACH * sds).max(axis=1, keepdims=True) + 0.0 * at
    before, last = high - low, high - low
    for _ in range(_MOST_STEPS):
        z = (at[..., None] - means[:, None, :]) / sds[:, None, :]
        over = _below(weights, z) - wanted
        low, high = np.where(over > 0, low, at), np.where(over > 0, at, high)
        newton = _newton(at, over, _density(weights, sds, z))
        then = _next(at, newton, (low, high), before)
        before, last, at = last, np.abs(then - at), then
        moved = last / sds.min(axis=1, keepdims=True)
        if moved.max() <= _ENOUGH:
            break
    return tuple(tuple(row) for row in at.tolist())


def _padded(spreads: Sequence[Spread]) -> tuple[Floats, Floats, Floats]:
    """Return weights, means, SDs, shape (spreads, parts); what is padded weighs 0."""
    parts = max(len(spread.weights) for spread in spreads)

    def rows(name: str, pad: float | None) -> Floats:
        found = []
        for spread in spreads:
            row = getattr(spread, name)
            filler = row[0] if pad is None else pad
            found.append((*row, *[filler] * (parts - len(row))))
        return np.array(found)

    return rows("weights", 0.0), rows("means", None), rows("sds", None)


def _below(weights: Floats, z: Floats) -> Floats:
    chances = 0.5 * np.asarray(_ERFC(-z / sqrt(2)), dtype=float)
    below: Floats = (weights[:, None, :] * chances).sum(axis=-1)
    return below


def _density(weights: Floats, sds: Floats, z: Floats) -> Floats:
    scale = weights[:, None, :] / (sds[:, None, :] * sqrt(2 * pi))
    density: Floats = (scale * np.exp(-0.5 * z * z)).sum(axis=-1)
    return density


def _newton(at: Floats, over: Floats, density: Floats) -> Floats:
    with np.errstate(all="ignore"):  # where it fails, the middle is taken
        newton: Floats = at - over / density
    return newton


def _next(
    at: Floats, newton: Floats, inside: tuple[Floats, Floats], longest: Floats
) -> Floats:
    """Return the Newton step where it is short and inside, else the middle."""
    low, high = inside
    there = newton == at  # one that has arrived waits for the others
    short = np.abs(newton - at) <= longest / 2
    taken = there | ((low < newton) & (newton < high) & short)
    then: Floats = np.where(taken, newton, (low + high) / 2)
    return then
