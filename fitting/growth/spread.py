"""A size with its spread: a mixture of normals."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, exp, pi, sqrt
from statistics import NormalDist
from typing import Final

_ENOUGH: Final = 1e-9  # of one SD
_MOST_STEPS: Final = 80
_REACH: Final = 39.0  # SDs: past these a chance is 0 or 1 to a double


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A size with its spread: a mixture of normals (mm, or kg); shapes equal."""

    weights: tuple[float, ...]
    means: tuple[float, ...]
    sds: tuple[float, ...]

    @property
    def mean(self) -> float:
        """The mean."""
        return sum(w * m for w, m in zip(self.weights, self.means, strict=True))

    @property
    def sd(self) -> float:
        """The standard deviation."""
        mean = self.mean
        parts = zip(self.weights, self.means, self.sds, strict=True)
        return sqrt(sum(w * (s * s + (m - mean) ** 2) for w, m, s in parts))

    def below(self, limit: float) -> float:
        """Return the chance that the size lies below ``limit``."""
        parts = zip(self.weights, self.means, self.sds, strict=True)
        return 0.5 * sum(w * erfc((m - limit) / (s * sqrt(2))) for w, m, s in parts)

    def quantile(self, share: float) -> float:
        """Return the size that ``share`` of the spread lies below.

        Newton steps inside a bracket, halved instead whenever a step would leave it or
        is not half as long as the last but one.

        Raises:
            ValueError: ``share`` is not between 0 and 1.
        """
        if not 0.0 < share < 1.0:
            raise ValueError(f"A share lies between 0 and 1, not {share}")
        low = min(m - _REACH * s for m, s in zip(self.means, self.sds, strict=True))
        high = max(m + _REACH * s for m, s in zip(self.means, self.sds, strict=True))
        sd = self.sd
        at = self.mean + sd * NormalDist().inv_cdf(share)
        before, last = high - low, high - low
        for _ in range(_MOST_STEPS):
            over = self.below(at) - share
            if over == 0:
                return at
            low, high = (low, at) if over > 0 else (at, high)
            then = self._next(at, over, (low, high), before)
            if abs(then - at) <= _ENOUGH * sd:
                return then
            before, last, at = last, abs(then - at), then
        return at

    def _next(
        self, at: float, over: float, inside: tuple[float, float], longest: float
    ) -> float:
        low, high = inside
        density = self._density(at)
        newton = at - over / density if density > 0 else low
        short = abs(newton - at) <= longest / 2
        return newton if short and low < newton < high else (low + high) / 2

    def _density(self, at: float) -> float:
        parts = zip(self.weights, self.means, self.sds, strict=True)
        return sum(
            w * exp(-0.5 * ((at - m) / s) ** 2) / (s * sqrt(2 * pi))
            for w, m, s in parts
        )
