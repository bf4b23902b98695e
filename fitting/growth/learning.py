"""What bounds add to readings: expectation propagation, at every tempo at once.

All bounds of one measure on one day are one factor, so that what one day says is taken
exactly; days are joined by passing over them until nothing moves (Minka, 2001,
Expectation propagation for approximate Bayesian inference, Uncertainty in Artificial
Intelligence 17: 362-369). Words that may be mistaken make a factor with far tails,
which a single normal follows badly while little else is known. So where there are two
or three days, those with bounds sharper than what the readings say are taken both ways,
right and mistaken, in every combination, put together by how likely each is. Axes
below: c combinations, b foaling days, z tempos, k days with bounds, q points of a grid
of sizes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import product
from typing import Final

import numpy as np
from numpy.typing import NDArray

from fitting.curves import Floats
from fitting.growth.bounds import Bound, days_of

_REACH: Final = 8.0  # SDs of the readings' answer that the grid reaches out
_FINE: Final = 2.0  # points of the grid in an SD, or in the sharpest bound's sigma
_MOST_POINTS: Final = 1500
_MOST_SWEEPS: Final = 12
_ENOUGH: Final = 2e-3  # of an SD: no mean moves further, no SD changes by more
_BOTH_WAYS: Final = 3  # days: where there are no more, some are taken both ways
_LEAST_LEFT: Final = 1e-3  # share of the precision that must be left without one day


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Learnt:
    """What bounds add: to means, to covariances, and to how likely a tempo is."""

    pull: Floats  # (b, z, k): a mean moves by its covariance with the days times this
    grip: Floats  # (b, z, k, k): a covariance shrinks by this, from both sides
    log_likelihood: Floats  # (b, z)


@dataclass(slots=True, kw_only=True, eq=False)
class _State:
    """The answer as it stands, and each day's own part of it (precision, shift)."""

    mean: Floats  # (c, b, z, k)
    joint: Floats  # (c, b, z, k, k)
    precision: Floats  # (c, b, z, k)
    shift: Floats  # (c, b, z, k)
    log_scale: Floats  # (c, b, z, k)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Day:
    """One day's factor on a grid of sizes: its chance, and times size and size^2.

    Where it is taken both ways, what is left of it above ``least``.
    """

    sizes: Floats  # (q,), from ``middle``
    moments: Floats  # (q, 3)
    middle: float
    least: float
    right: NDArray[np.bool_]  # (c, 1, 1), where the day's words are taken as right

    def tilted(self, mean: Floats, variance: Floats) -> tuple[Floats, Floats, Floats]:
        """Return chance, mean and variance of a normal times the factor, (c, b, z)."""
        sd = np.sqrt(variance)
        off = (self.sizes - (mean - self.middle)[..., None]) / sd[..., None]
        found = np.exp(-0.5 * off * off) @ self.moments
        chance = np.maximum(found[..., 0], 1e-300)
        first = found[..., 1] / chance
        spread = np.maximum(found[..., 2] / chance - first**2, 1e-6 * variance)
        return chance / (sd * np.sqrt(2 * np.pi)), self.middle + first, spread


def learn(bounds: Sequence[Bound], mean: Floats, joint: Floats) -> Learnt:
    """Return what the bounds add to sizes on their days.

    Args:
        bounds: of one measure.
        mean: by the readings alone, on ``days_of(bounds)``, shape (b, z, k).
        joint: the covariance that goes with it, shape (b, z, k, k).
    """
    sds = np.sqrt(np.diagonal(joint, axis1=-2, axis2=-1))
    of_day = [[one for one in bounds if one.on == on] for on in days_of(bounds)]
    ways = _ways([_vague(one, sds[..., at]) for at, one in enumerate(of_day)])
    days = [
        _day(one, mean[..., at], sds[..., at], ways[:, at])
        for at, one in enumerate(of_day)
    ]
    state = _start(mean, joint, days)
    for _ in range(_MOST_SWEEPS):
        moved = max([_take_in(state, at, day) for at, day in enumerate(days)])
        if moved <= _ENOUGH or len(days) == 1:
            break
    return _together(_learnt(state, mean, joint))


def _vague(bounds: Sequence[Bound], sd: Floats) -> bool:
    """Whether the readings leave the size wider than one day's sharpest bound."""
    return bool(sd.max() > min(bound.sigma for bound in bounds))


def _ways(vague: Sequence[bool]) -> NDArray[np.bool_]:
    """Return which days are right, by combination, shape (c, k)."""
    if not 1 < len(vague) <= _BOTH_WAYS:
        return np.ones((1, len(vague)), dtype=bool)
    each = ((True, False) if one else (True,) for one in vague)
    return np.array(list(product(*each)))


def _day(
    bounds: Sequence[Bound], mean: Floats, sd: Floats, right: NDArray[np.bool_]
) -> _Day:
    """Return the factor of one day's bounds, where the readings let the size be."""
    low = float((mean - _REACH * sd).min())
    high = float((mean + _REACH * sd).max())
    step = min(float(sd.min()), *(bound.sigma for bound in bounds)) / _FINE
    points = min(int((high - low) / step) + 2, _MOST_POINTS)
    sizes = np.linspace(low, high, points)
    chance = reduce(np.multiply, [bound.chance(sizes) for bound in bounds])
    least = 0.0 if right.all() else float(chance.min())
    chance = (chance - least) * (sizes[1] - sizes[0])
    middle = (low + high) / 2
    off = sizes - middle
    return _Day(
        sizes=off,
        moments=np.stack([chance, chance * off, chance * off**2], axis=-1),
        middle=middle,
        least=least,
        right=right[:, None, None],
    )


def _start(mean: Floats, joint: Floats, days: Sequence[_Day]) -> _State:
    """Return the readings' answer once for every combination."""
    ways = len(days[0].right)
    mean, joint = np.stack([mean] * ways), np.stack([joint] * ways)
    mistaken = [np.where(d.right, 0.0, np.log(d.least or 1.0)) for d in days]
    return _State(
        mean=mean,
        joint=joint,
        precision=np.zeros_like(mean),
        shift=np.zeros_like(mean),
        log_scale=np.stack(mistaken, axis=-1) + np.zeros_like(mean),
    )


def _take_in(state: _State, at: int, day: _Day) -> float:
    """Weigh one day anew against all the others; return how far the answer moved."""
    variance, mean = state.joint[..., at, at].copy(), state.mean[..., at].copy()
    own, own_shift = state.precision[..., at], state.shift[..., at]
    left = 1 / variance - own
    fine = day.right & (left * variance > _LEAST_LEFT)
    left = np.where(fine, left, 1 / variance)
    others = np.where(fine, (mean / variance - own_shift) / left, mean)
    chance, then, spread = day.tilted(others, 1 / left)
    more = np.where(fine, 1 / spread - left - own, 0.0)
    more_shift = np.where(fine, then / spread - others * left - own_shift, 0.0)
    mass = _log_mass(others, 1 / left, own + more, own_shift + more_shift)
    scale = state.log_scale[..., at]
    state.log_scale[..., at] = np.where(fine, np.log(chance) - mass, scale)
    _turn(state, at, more, more_shift)
    moved = np.abs(state.mean[..., at] - mean) / np.sqrt(variance)
    narrowed = np.abs(np.log(state.joint[..., at, at] / variance)) / 2
    return float(max(moved.max(), narrowed.max()))


def _turn(state: _State, at: int, more: Floats, more_shift: Floats) -> None:
    """Give one day more precision and shift; mean and covariance follow."""
    with_day = state.joint[..., at].copy()  # (c, b, z, k)
    grown = 1 + more * with_day[..., at]
    pull = (more_shift - more * state.mean[..., at]) / grown
    state.mean += with_day * pull[..., None]
    weighed = with_day * (more / grown)[..., None]
    state.joint -= weighed[..., :, None] * with_day[..., None, :]
    state.precision[..., at] += more
    state.shift[..., at] += more_shift


def _log_mass(mean: Floats, variance: Floats, own: Floats, shift: Floats) -> Floats:
    """Return log of a normal times ``exp(shift * y - own * y^2 / 2)``, summed up."""
    grown = 1 + own * variance
    inside = shift * mean + 0.5 * shift**2 * variance - 0.5 * own * mean**2
    return np.asarray(-0.5 * np.log(grown) + inside / grown)


def _learnt(state: _State, mean: Floats, joint: Floats) -> Learnt:
    """Return what the days add to the readings' answer, by combination."""
    own, shift = state.precision, state.shift
    grown = np.eye(mean.shape[-1]) + own[..., :, None] * joint
    freed = np.linalg.inv(grown)
    off = shift - own * mean
    pull = (freed @ off[..., None])[..., 0]
    moved = (joint @ pull[..., None])[..., 0]
    inside = shift * mean - 0.5 * own * mean**2 + 0.5 * off * moved
    log_mass = inside.sum(axis=-1) - 0.5 * np.linalg.slogdet(grown)[1]
    return Learnt(
        pull=pull,
        grip=freed * own[..., None, :],
        log_likelihood=log_mass + state.log_scale.sum(axis=-1),
    )


def _together(by_way: Learnt) -> Learnt:
    """Return all combinations as one: their mean, and what they spread about it."""
    log_chance = by_way.log_likelihood
    most = log_chance.max(axis=0)
    weight = np.exp(log_chance - most)
    total = weight.sum(axis=0)
    weight = weight / total
    pull = (weight[..., None] * by_way.pull).sum(axis=0)
    off = by_way.pull - pull
    apart = weight[..., None, None] * off[..., :, None] * off[..., None, :]
    grip = (weight[..., None, None] * by_way.grip).sum(axis=0) - apart.sum(axis=0)
    return Learnt(pull=pull, grip=grip, log_likelihood=most + np.log(total))
