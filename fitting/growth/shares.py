"""The share of its grown size that a horse has reached, with its spread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erfc, sqrt
from typing import Final, Self

import numpy as np

from fitting.curves import Floats

_STEPS: Final = 30  # halvings: far below a thousandth of a per cent
_LEAST_WEIGHT: Final = 1e-6  # ours: tempos less likely than this are left out
_ERFC: Final = np.frompyfunc(erfc, 1, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """A size over its grown size: both normal and joined at each tempo.

    ``parts`` holds for each its weight, both means, both variances and the covariance.
    """

    parts: tuple[tuple[float, ...], ...]

    @classmethod
    def of(cls, weights: Floats, means: Floats, joint: Floats) -> Self:
        """Return the share from weights (parts,), means (..., 2), joint (..., 2, 2)."""
        columns = (
            *(weights, means[..., 0], means[..., 1], joint[..., 0, 0]),
            *(joint[..., 1, 1], joint[..., 0, 1]),
        )
        rows = np.stack([np.ravel(column) for column in columns], axis=-1)
        rows = rows[rows[:, 0] > _LEAST_WEIGHT * rows[:, 0].max()]
        rows[:, 0] /= rows[:, 0].sum()
        return cls(parts=tuple(map(tuple, rows.tolist())))

    def below(self, share: float) -> float:
        """Return the chance that less than ``share`` of the grown size is reached.

        The grown size is never nought or less: ours, its mean lies many SDs above.
        """
        return float(_below(np.array([self.parts]), np.array([[share]]))[0, 0])


def share_quantiles(
    many: Sequence[Shares], shares: tuple[float, ...]
) -> tuple[tuple[float, ...], ...]:
    """Return for each the shares of the grown size, 0 to 1, at these quantiles."""
    if not many:
        return ()
    parts = _padded(many)
    low = np.zeros((len(many), len(shares)))
    high = np.ones((len(many), len(shares)))
    for _ in range(_STEPS):
        middle = (low + high) / 2
        over = _below(parts, middle) > np.array(shares)
        low, high = np.where(over, low, middle), np.where(over, middle, high)
    return tuple(map(tuple, high.tolist()))


def _padded(many: Sequence[Shares]) -> Floats:
    """Return the parts, shape (many, parts, 6); what is padded weighs nothing."""
    most = max(len(one.parts) for one in many)
    padded = [
        [*one.parts, *[(0.0, *one.parts[0][1:])] * (most - len(one.parts))]
        for one in many
    ]
    return np.array(padded, dtype=float)


def _below(parts: Floats, share: Floats) -> Floats:
    """Return the chance below each share, shape (many, shares)."""
    weight, size, grown, variance, grown_variance, both = (
        parts[:, None, :, at] for at in range(parts.shape[-1])
    )
    at = share[..., None]
    off = at * grown - size
    spread = variance - 2 * at * both + at**2 * grown_variance
    z = off / np.sqrt(np.maximum(spread, 1e-12 * variance))
    chances = 0.5 * np.asarray(_ERFC(-z / sqrt(2)), dtype=float)
    return np.asarray((weight * chances).sum(axis=-1))
