"""One horse's growth: all its measures, joined by one tempo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from fitting.age import possible_days
from fitting.body import Taken
from fitting.curves import TEMPO_WEIGHTS, Floats, grows
from fitting.growth.observed import Observation, observations
from fitting.growth.posterior import forecast, posterior
from fitting.growth.spread import Spread
from fitting.growth.subject import Subject

_LEAST_WEIGHT: Final = 1e-9  # ours: parts of the mixture below this are left out


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """One horse's growth, fitted to its readings.

    ``seen`` holds the observations by measure; ``births`` the possible foaling days;
    ``tempo`` the weights by foaling day, then tempo (sum 1). Tape heights have keys of
    their own, ending in ``_tape``, and never mix with stick heights.
    """

    subject: Subject
    births: tuple[date, ...] = ()
    seen: tuple[tuple[str, tuple[Observation, ...]], ...] = ()
    tempo: tuple[tuple[float, ...], ...] = ()

    def known(self, measure: str) -> bool:
        """Whether the measure was ever taken."""
        return bool(self._seen(measure))

    def at(self, measure: str, on: date) -> Spread | None:
        """Return the size on a day, mm or kg; None: neither prior nor reading."""
        found = self.at_days(measure, (on,))
        return found[0] if found else None

    def at_days(self, measure: str, days: Sequence[date]) -> tuple[Spread, ...]:
        """Return the size on each day; empty where ``at`` would say None.

        Many days cost little more than one: ask once for all of them.
        """
        seen = self._seen(measure)
        if not grows(measure):
            return tuple(_last(seen) for _ in days) if seen else ()
        found = posterior(measure, self.subject, self.births, seen)
        if found is None or not days:
            return ()
        means, sds = forecast(found, self.subject, days)
        return self._mix(means, sds)

    def grown_size(self, measure: str) -> Spread | None:
        """Return the grown size, mm or kg; None: neither prior nor reading."""
        seen = self._seen(measure)
        if not grows(measure):
            return _last(seen) if seen else None
        found = posterior(measure, self.subject, self.births, seen)
        if found is None:
            return None
        sds = found.grown_precision**-0.5
        return self._mix(found.grown_mean[..., None], sds[..., None])[0]

    def _seen(self, measure: str) -> tuple[Observation, ...]:
        return next((seen for key, seen in self.seen if key == measure), ())

    def _mix(self, means: Floats, sds: Floats) -> tuple[Spread, ...]:
        weights = np.array(self.tempo).ravel()
        kept = weights > _LEAST_WEIGHT
        shares = tuple((weights[kept] / weights[kept].sum()).tolist())
        by_day = zip(
            means.reshape(len(weights), -1)[kept].T.tolist(),
            sds.reshape(len(weights), -1)[kept].T.tolist(),
            strict=True,
        )
        return tuple(
            Spread(weights=shares, means=tuple(mean), sds=tuple(sd))
            for mean, sd in by_day
        )


def _last(seen: tuple[Observation, ...]) -> Spread:
    """Return the last value with its method's error: for what does not grow."""
    last = seen[-1]
    return Spread(weights=(1.0,), means=(last.value,), sds=(last.error,))


def fit_growth(subject: Subject, taken: Sequence[Taken]) -> Growth:
    """Return growth fitted to the readings (may be empty: prior only).

    Raises:
        UnknownMeasureError: A measurement names an unknown measure or method.
    """
    seen = observations(taken, subject.horse_type)
    first_seen = min((one.on for one in taken), default=None)
    births = possible_days(subject.foaled, not_after=first_seen)
    log_weight = np.tile(np.log(TEMPO_WEIGHTS), (len(births), 1))
    for measure, its_own in seen:
        if not grows(measure):
            continue
        found = posterior(measure, subject, births, its_own)
        if found is not None:
            log_weight = log_weight + found.log_likelihood
    weights = np.exp(log_weight - log_weight.max())
    weights = weights / weights.sum()
    return Growth(
        subject=subject,
        births=births,
        seen=seen,
        tempo=tuple(map(tuple, weights.tolist())),
    )
