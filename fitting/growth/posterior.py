"""One measure of one horse, given its tempo: exact, for every tempo at once.

Given a foaling day and a tempo, a size is ``M * f(t) + m0 * d(t)``: the grown size M
normal about m0, the own deviation d a Gaussian process. Only f depends on the tempo, so
one covariance of deviation and error serves all tempos, and M is taken out by hand.
Bounds come on top of what the readings say (``learning.py``), to a close approximation.
Axes below: b foaling days, z tempos, n observations, d days asked, k days with bounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from fitting.curves import (
    MEMORY_MONTHS,
    UNMEASURED_SHARE,
    Floats,
    curve_for,
    own_deviation,
    season,
)
from fitting.growth.bounds import Bound, days_of
from fitting.growth.learning import Learnt, learn
from fitting.growth.observed import Observation
from fitting.growth.subject import Subject, ages_months, prior_of

_LEAST_LEFT: Final = 1e-9  # of a variance: what rounding may never take away


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """The readings of one measure, weighed; nothing here depends on the tempo."""

    measure: str
    subject: Subject
    births: tuple[date, ...]
    prior_mean: Floats  # (b,)
    prior_sd: Floats  # (b,)
    ages: Floats  # (b, n)
    season: Floats  # (n,)
    deviation: Floats  # (b, n), mm
    values: Floats  # (n,)
    inverse: Floats  # (b, n, n) of the covariance of deviation and error
    log_size: Floats  # (b, 1), log determinant of the inverse
    bounds: tuple[Bound, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ahead:
    """Sizes on some days, as the readings alone see them at each tempo."""

    ages: Floats  # (b, d)
    own: Floats  # (b, d), one SD of the deviation, mm
    shared: Floats  # (b, d, n), covariance of the deviation with the readings'
    weighed: Floats  # (b, d, n), the same times the inverse
    lever: Floats  # (b, z, d), how a size moves with the grown size
    mean: Floats  # (b, z, d)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """What is known of one measure, by foaling day and tempo.

    All but ``learnt`` by the readings alone; ``held`` are the days the bounds speak of.
    """

    evidence: Evidence
    log_tempos: Floats  # (b, z)
    fraction: Floats  # (b, z, n)
    grown_mean: Floats  # (b, z)
    grown_precision: Floats  # (b, z)
    pull: Floats  # (b, z, n), inverse times what the curve leaves over
    log_likelihood: Floats  # (b, z)
    held: Ahead | None = None
    learnt: Learnt | None = None

    @property
    def log_evidence(self) -> Floats:
        """Log chance of readings and bounds, (b, z), up to a constant."""
        learnt = 0.0 if self.learnt is None else self.learnt.log_likelihood
        return np.asarray(self.log_likelihood + learnt)


def _fractions(
    measure: str, subject: Subject, ages: Floats, log_tempos: Floats
) -> Floats:
    curve = curve_for(measure, subject.horse_type)
    return curve.fraction(ages[:, None, :], np.exp(log_tempos)[:, :, None])


def _season(measure: str, subject: Subject, days: Sequence[date]) -> Floats:
    """Return what the season makes of a size on each day, shape (d,)."""
    if not subject.lives_out:
        return np.ones(len(days))
    return season(measure, days, subject.hemisphere)


def _prior(
    measure: str,
    subject: Subject,
    births: tuple[date, ...],
    seen: Sequence[Observation],
    bounds: Sequence[Bound],
) -> tuple[Floats, Floats] | None:
    """Return mean and SD of M by foaling day; without a prior, from the first day.

    Without a reading either, from the first *about*: no other bound says a size.
    """
    if known := prior_of(measure, subject):
        return np.full(len(births), known[0]), np.full(len(births), known[1])
    about = (bound for bound in bounds if bound.kind == "about")
    said = [(one.on, one.value, one.error) for one in seen]
    said = said or [(bound.on, bound.value, bound.sigma) for bound in about]
    if not said:
        return None
    day = said[0][0]
    first = [(value, error**-2) for on, value, error in said if on == day]
    value = sum(v * trust for v, trust in first) / sum(trust for _, trust in first)
    curve = curve_for(measure, subject.horse_type)
    then = curve.fraction(ages_months(births, [day])[:, 0])
    mean = value / (then * _season(measure, subject, [day]))
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
    bounds: tuple[Bound, ...] = (),
) -> Evidence | None:
    """Return what is known of one measure, weighed; None: nothing to start from.

    That is neither a prior nor a reading, nor a bound that says about a size.
    """
    prior = _prior(measure, subject, births, seen, bounds)
    if prior is None:
        return None
    days = [one.on for one in seen]
    ages = ages_months(births, days)
    deviation = prior[0][:, None] * own_deviation(measure, subject.horse_type, ages)
    inverse = _inverse(ages, deviation, np.array([one.error for one in seen]))
    return Evidence(
        measure=measure,
        subject=subject,
        births=births,
        prior_mean=prior[0],
        prior_sd=prior[1],
        ages=ages,
        season=_season(measure, subject, days),
        deviation=deviation,
        values=np.array([one.value for one in seen], dtype=float),
        inverse=inverse,
        log_size=np.linalg.slogdet(inverse)[1][:, None],
        bounds=bounds,
    )


def given_tempo(found: Evidence, log_tempos: Floats) -> Posterior:
    """Return what the readings alone say at each tempo, of shape (b, z), exactly."""
    fraction = _fractions(found.measure, found.subject, found.ages, log_tempos)
    fraction = fraction * found.season
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
    """Return what readings and bounds say at the tempos of one horse; kept."""
    given = given_tempo(found, np.array(log_tempos))
    if not found.bounds:
        return given
    held = ahead(given, days_of(found.bounds))
    learnt = learn(found.bounds, held.mean, by_readings(given, held, held))
    return replace(given, held=held, learnt=learnt)


def ahead(given: Posterior, days: Sequence[date], *, seasons: bool = True) -> Ahead:
    """Return sizes on days by the readings alone; ``seasons`` off: the year's mean."""
    found = given.evidence
    ages = ages_months(found.births, days)
    own = own_deviation(found.measure, found.subject.horse_type, ages)
    own = found.prior_mean[:, None] * own
    apart = np.abs(ages[:, :, None] - found.ages[:, None, :])
    shared = own[:, :, None] * found.deviation[:, None, :]
    shared = shared * np.exp(-apart / MEMORY_MONTHS)
    weighed = shared @ found.inverse
    curve = _fractions(found.measure, found.subject, ages, given.log_tempos)
    if seasons:
        curve = curve * _season(found.measure, found.subject, days)
    mean = curve * given.grown_mean[..., None]
    return Ahead(
        ages=ages,
        own=own,
        shared=shared,
        weighed=weighed,
        lever=curve - given.fraction @ weighed.transpose(0, 2, 1),
        mean=mean + given.pull @ shared.transpose(0, 2, 1),
    )


def by_readings(given: Posterior, one: Ahead, other: Ahead) -> Floats:
    """Return the covariance of sizes by the readings alone, (b, z, d, d')."""
    apart = np.abs(one.ages[:, :, None] - other.ages[:, None, :])
    own = one.own[:, :, None] * other.own[:, None, :] * np.exp(-apart / MEMORY_MONTHS)
    rest = own - one.weighed @ other.shared.transpose(0, 2, 1)
    levers = one.lever[..., :, None] * other.lever[..., None, :]
    return np.asarray(rest[:, None] + levers / given.grown_precision[..., None, None])


def forecast(given: Posterior, days: Sequence[date]) -> tuple[Floats, Floats]:
    """Return means and SDs (mm, kg) on days, each of shape (b, z, d)."""
    return sizes(given, ahead(given, days))


def grown(given: Posterior) -> Ahead:
    """Return the grown size as one day more, to stand beside others."""
    one = np.ones((*given.grown_mean.shape, 1))
    none = np.zeros((len(one), 1))
    apart = np.zeros((len(one), 1, given.fraction.shape[-1]))
    return Ahead(
        ages=none,
        own=none,
        shared=apart,
        weighed=apart,
        lever=one,
        mean=given.grown_mean[..., None],
    )


def beside(one: Ahead, other: Ahead) -> Ahead:
    """Return the days of both, those of ``one`` first."""
    return Ahead(
        ages=np.concatenate([one.ages, other.ages], axis=1),
        own=np.concatenate([one.own, other.own], axis=1),
        shared=np.concatenate([one.shared, other.shared], axis=1),
        weighed=np.concatenate([one.weighed, other.weighed], axis=1),
        lever=np.concatenate([one.lever, other.lever], axis=-1),
        mean=np.concatenate([one.mean, other.mean], axis=-1),
    )


def sizes(given: Posterior, one: Ahead) -> tuple[Floats, Floats]:
    """Return means and SDs by readings and bounds, each of shape (b, z, d)."""
    rest = one.own**2 - (one.weighed * one.shared).sum(axis=-1)
    spread = one.lever**2 / given.grown_precision[..., None]
    variance = np.maximum(rest, 0.0)[:, None, :] + spread
    if given.held is None or given.learnt is None:
        return one.mean, np.sqrt(variance)
    across = by_readings(given, one, given.held)
    less = ((across @ given.learnt.grip) * across).sum(axis=-1)
    mean = one.mean + (across @ given.learnt.pull[..., None])[..., 0]
    return mean, np.sqrt(np.maximum(variance - less, _LEAST_LEFT * variance))


def joint(given: Posterior, one: Ahead) -> tuple[Floats, Floats]:
    """Return means (b, z, d) and covariance (b, z, d, d) by readings and bounds."""
    together = by_readings(given, one, one)
    if given.held is None or given.learnt is None:
        return one.mean, together
    across = by_readings(given, one, given.held)
    mean = one.mean + (across @ given.learnt.pull[..., None])[..., 0]
    return mean, together - across @ given.learnt.grip @ np.swapaxes(across, -1, -2)
