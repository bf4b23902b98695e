"""One measure of one horse, given its tempo: exact, for every tempo at once.

Given a foaling day and a tempo, a size is ``M * f(t) + m0 * d(t)``: the grown size M
normal about m0, the own deviation d a Gaussian process. Only f depends on the tempo, so
one covariance of deviation and error serves all tempos, and M is taken out by hand.
Axes below: b foaling days, z tempos, n observations, d days asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

import numpy as np

from fitting.curves import (
    MEMORY_MONTHS,
    TEMPOS,
    UNMEASURED_SHARE,
    Floats,
    curve_for,
    own_deviation,
)
from fitting.growth.observed import Observation
from fitting.growth.subject import Subject, ages_months, prior_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """What the readings of one measure say, by foaling day and tempo."""

    measure: str
    births: tuple[date, ...]
    prior_mean: Floats  # (b,)
    ages: Floats  # (b, n)
    deviation: Floats  # (b, n), mm
    fraction: Floats  # (b, z, n)
    inverse: Floats  # (b, n, n) of the covariance of deviation and error
    grown_mean: Floats  # (b, z)
    grown_precision: Floats  # (b, z)
    pull: Floats  # (b, z, n), inverse times what the curve leaves over
    log_likelihood: Floats  # (b, z)


def _fractions(measure: str, subject: Subject, ages: Floats) -> Floats:
    curve = curve_for(measure, subject.horse_type)
    return curve.fraction(ages[:, None, :], TEMPOS[None, :, None])


def _prior(
    measure: str, subject: Subject, seen: Sequence[Observation], ages: Floats
) -> tuple[Floats, Floats] | None:
    """Return mean and SD of M by foaling day; without a prior, from the first day."""
    births = len(ages)
    if known := prior_of(measure, subject):
        return np.full(births, known[0]), np.full(births, known[1])
    if not seen:
        return None
    first = [one for one in seen if one.on == seen[0].on]
    trust = np.array([one.error**-2 for one in first])
    value = float(np.dot(trust, [one.value for one in first]) / trust.sum())
    curve = curve_for(measure, subject.horse_type)
    mean = value / curve.fraction(ages[:, 0])
    return mean, UNMEASURED_SHARE * mean


def _inverse(ages: Floats, deviation: Floats, errors: Floats) -> Floats:
    """Return the inverse covariance of deviation and error."""
    apart = np.abs(ages[:, :, None] - ages[:, None, :])
    alike = np.exp(-apart / MEMORY_MONTHS)
    own = deviation[:, :, None] * deviation[:, None, :] * alike
    return np.asarray(np.linalg.inv(own + np.diag(errors**2)), dtype=float)


@lru_cache(maxsize=512)
def posterior(
    measure: str,
    subject: Subject,
    births: tuple[date, ...],
    seen: tuple[Observation, ...],
) -> Posterior | None:
    """Return what the readings of one measure say; None: neither prior nor reading.

    Kept for the last 512 measures asked, so forecasts do not fit again.
    """
    ages = ages_months(births, [one.on for one in seen])
    prior = _prior(measure, subject, seen, ages)
    if prior is None:
        return None
    mean, sd = prior
    deviation = mean[:, None] * own_deviation(measure, subject.horse_type, ages)
    errors = np.array([one.error for one in seen], dtype=float)
    inverse = _inverse(ages, deviation, errors)
    fraction = _fractions(measure, subject, ages)
    values = np.array([one.value for one in seen], dtype=float)
    left = values - mean[:, None, None] * fraction
    weighed = fraction @ inverse
    precision = sd[:, None] ** -2 + (weighed * fraction).sum(axis=-1)
    shift = (weighed * left).sum(axis=-1) / precision
    return Posterior(
        measure=measure,
        births=births,
        prior_mean=mean,
        ages=ages,
        deviation=deviation,
        fraction=fraction,
        inverse=inverse,
        grown_mean=mean[:, None] + shift,
        grown_precision=precision,
        pull=(left - shift[..., None] * fraction) @ inverse,
        log_likelihood=_log_likelihood(inverse, left, sd, precision, shift),
    )


def _log_likelihood(
    inverse: Floats, left: Floats, sd: Floats, precision: Floats, shift: Floats
) -> Floats:
    """Return the log chance of the readings, M and d integrated out, up to 2 pi."""
    size = np.linalg.slogdet(inverse)[1][:, None]
    widening = np.log(precision * sd[:, None] ** 2)
    misfit = ((left @ inverse) * left).sum(axis=-1) - shift**2 * precision
    return np.asarray(0.5 * (size - widening - misfit))


def forecast(
    found: Posterior, subject: Subject, days: Sequence[date]
) -> tuple[Floats, Floats]:
    """Return means and SDs (mm, kg) on days, each of shape (b, z, d)."""
    ages = ages_months(found.births, days)
    own = own_deviation(found.measure, subject.horse_type, ages)
    own = found.prior_mean[:, None] * own
    apart = np.abs(ages[:, :, None] - found.ages[:, None, :])
    shared = own[:, :, None] * found.deviation[:, None, :]
    shared = shared * np.exp(-apart / MEMORY_MONTHS)
    weighed = shared @ found.inverse
    rest = own**2 - (weighed * shared).sum(axis=-1)
    curve = _fractions(found.measure, subject, ages)
    mean = curve * found.grown_mean[..., None]
    mean = mean + found.pull @ shared.transpose(0, 2, 1)
    lever = curve - found.fraction @ weighed.transpose(0, 2, 1)
    spread = lever**2 / found.grown_precision[..., None]
    return mean, np.sqrt(np.maximum(rest, 0.0)[:, None, :] + spread)
