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
    UNMEASURED_SHARE,
    Floats,
    curve_for,
    own_deviation,
)
from fitting.growth.observed import Observation
from fitting.growth.subject import Subject, ages_months, prior_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """The readings of one measure, weighed; nothing here depends on the tempo."""

    measure: str
    subject: Subject
    births: tuple[date, ...]
    prior_mean: Floats  # (b,)
    prior_sd: Floats  # (b,)
    ages: Floats  # (b, n)
    deviation: Floats  # (b, n), mm
    values: Floats  # (n,)
    inverse: Floats  # (b, n, n) of the covariance of deviation and error
    log_size: Floats  # (b, 1), log determinant of the inverse


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """What the readings of one measure say, by foaling day and tempo."""

    evidence: Evidence
    log_tempos: Floats  # (b, z)
    fraction: Floats  # (b, z, n)
    grown_mean: Floats  # (b, z)
    grown_precision: Floats  # (b, z)
    pull: Floats  # (b, z, n), inverse times what the curve leaves over
    log_likelihood: Floats  # (b, z)


def _fractions(
    measure: str, subject: Subject, ages: Floats, log_tempos: Floats
) -> Floats:
    curve = curve_for(measure, subject.horse_type)
    return curve.fraction(ages[:, None, :], np.exp(log_tempos)[:, :, None])


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
def evidence(
    measure: str,
    subject: Subject,
    births: tuple[date, ...],
    seen: tuple[Observation, ...],
) -> Evidence | None:
    """Return the readings of one measure, weighed; None: neither prior nor reading."""
    ages = ages_months(births, [one.on for one in seen])
    prior = _prior(measure, subject, seen, ages)
    if prior is None:
        return None
    deviation = prior[0][:, None] * own_deviation(measure, subject.horse_type, ages)
    inverse = _inverse(ages, deviation, np.array([one.error for one in seen]))
    return Evidence(
        measure=measure,
        subject=subject,
        births=births,
        prior_mean=prior[0],
        prior_sd=prior[1],
        ages=ages,
        deviation=deviation,
        values=np.array([one.value for one in seen], dtype=float),
        inverse=inverse,
        log_size=np.linalg.slogdet(inverse)[1][:, None],
    )


def given_tempo(found: Evidence, log_tempos: Floats) -> Posterior:
    """Return what the readings say at each tempo, of shape (b, z), exactly."""
    fraction = _fractions(found.measure, found.subject, found.ages, log_tempos)
    left = found.values - found.prior_mean[:, None, None] * fraction
    weighed = fraction @ found.inverse
    precision = found.prior_sd[:, None] ** -2 + (weighed * fraction).sum(axis=-1)
    shift = (weighed * left).sum(axis=-1) / precision
    # The log chance of the readings, M and d integrated out, less what no tempo moves.
    misfit = ((left @ found.inverse) * left).sum(axis=-1) - shift**2 * precision
    widening = np.log(precision * found.prior_sd[:, None] ** 2)
    return Posterior(
        evidence=found,
        log_tempos=log_tempos,
        fraction=fraction,
        grown_mean=found.prior_mean[:, None] + shift,
        grown_precision=precision,
        pull=(left - shift[..., None] * fraction) @ found.inverse,
        log_likelihood=0.5 * (found.log_size - widening - misfit),
    )


@lru_cache(maxsize=512)
def at_its_tempos(
    found: Evidence, log_tempos: tuple[tuple[float, ...], ...]
) -> Posterior:
    """Return ``given_tempo`` for the tempos of one horse, kept for its forecasts."""
    return given_tempo(found, np.array(log_tempos))


def forecast(given: Posterior, days: Sequence[date]) -> tuple[Floats, Floats]:
    """Return means and SDs (mm, kg) on days, each of shape (b, z, d)."""
    found = given.evidence
    ages = ages_months(found.births, days)
    own = own_deviation(found.measure, found.subject.horse_type, ages)
    own = found.prior_mean[:, None] * own
    apart = np.abs(ages[:, :, None] - found.ages[:, None, :])
    shared = own[:, :, None] * found.deviation[:, None, :]
    shared = shared * np.exp(-apart / MEMORY_MONTHS)
    weighed = shared @ found.inverse
    rest = own**2 - (weighed * shared).sum(axis=-1)
    curve = _fractions(found.measure, found.subject, ages, given.log_tempos)
    mean = curve * given.grown_mean[..., None]
    mean = mean + given.pull @ shared.transpose(0, 2, 1)
    lever = curve - given.fraction @ weighed.transpose(0, 2, 1)
    spread = lever**2 / given.grown_precision[..., None]
    return mean, np.sqrt(np.maximum(rest, 0.0)[:, None, :] + spread)
