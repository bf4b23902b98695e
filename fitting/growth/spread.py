"""A size with its spread: a mixture of normals."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import erfc, exp, pi, sqrt
from statistics import NormalDist
from typing import Final

_ENOUGH: Final = 1e-9  # of one SD
_MOST_STEPS: Final = 80
_REACH: Final = 39.0  # SDs: past these a chance is 0 or 1 to a double
_SURE: Final = 9.0  # SDs: past these a chance is 0 or 1 to the eighteenth place
_ROOT_TWO: Final = sqrt(2)

# Each normal as half its weight, its mean, and one over root two SDs.
Terms = tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A size with its spread: a mixture of normals (mm, or kg); shapes equal."""

    weights: tuple[float, ...]
    means: tuple[float, ...]
    sds: tuple[float, ...]
    _kept: tuple[float, float, Terms] | None = field(
        default=None, init=False, repr=False, compare=False
    )
    _middle: float | None = field(default=None, init=False, repr=False, compare=False)

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

    @property
    def middle(self) -> float:
        """The middle (median); reckoned once."""
        if self._middle is None:
            middle = self.quantile(0.5)
            object.__setattr__(self, "_middle", middle)
            return middle
        return self._middle

    def below(self, limit: float) -> float:
        """Return the chance that the size lies below ``limit``."""
        least, most, _ = self._kept or self._reckoned()
        if limit <= least:
            return 0.0
        return 1.0 if limit >= most else self._below(limit)

    def _below(self, limit: float) -> float:
        """Return the chance below a limit, however small it is."""
        chance = 0.0
        for half, mean, steep in self._reckoned()[2]:
            chance += half * erfc((mean - limit) * steep)
        return chance

    def _reckoned(self) -> tuple[float, float, Terms]:
        """Return the ends past which nothing lies, and the normals; reckoned once."""
        if self._kept is not None:
            return self._kept
        parts = tuple(zip(self.weights, self.means, self.sds, strict=True))
        far = _SURE * max(self.sds)
        terms = tuple([(w / 2, m, 1 / (s * _ROOT_TWO)) for w, m, s in parts])
        kept = (min(self.means) - far, max(self.means) + far, terms)
        object.__setattr__(self, "_kept", kept)
        return kept

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
            over = self._below(at) - share
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
