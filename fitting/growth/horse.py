"""One horse's growth: all its measures, joined by one tempo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np

from fitting.age import possible_days
from fitting.body import Taken
from fitting.curves import Floats, grows
from fitting.growth.bounds import Bound, days_of, of_measure
from fitting.growth.observed import Observation, observations
from fitting.growth.posterior import (
    Evidence,
    Posterior,
    ahead,
    at_its_tempos,
    beside,
    evidence,
    forecast,
    grown,
    joint,
    sizes,
)
from fitting.growth.shares import Shares
from fitting.growth.spread import Spread
from fitting.growth.subject import Subject
from fitting.growth.tempo import tempo_of

_LEAST_WEIGHT: Final = 1e-6  # ours: parts of the mixture below this are left out
_LEAST_SHARE: Final = 1e-9  # of a variance: what rounding may leave of a difference


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """One horse's growth, fitted to its readings and to bounds on its sizes.

    ``seen`` holds the observations by measure; ``births`` the possible foaling days;
    ``log_tempos`` and ``weights`` the tempos by foaling day and how likely each is (sum
    1). Tape heights have keys of their own, ending in ``_tape``, and never mix with
    stick heights.
    """

    subject: Subject
    births: tuple[date, ...]
    seen: tuple[tuple[str, tuple[Observation, ...]], ...]
    log_tempos: tuple[tuple[float, ...], ...]
    weights: tuple[tuple[float, ...], ...]
    bounds: tuple[Bound, ...] = ()

    def known(self, measure: str) -> bool:
        """Whether the measure was ever taken."""
        return bool(self._seen(measure))

    def measured_on(self, measure: str) -> tuple[date, ...]:
        """Return the days on which the measure was taken, in order."""
        return tuple(one.on for one in self._seen(measure))

    def readings(self, measure: str) -> tuple[Observation, ...]:
        """Return what was measured (mm, kg), in order of the day."""
        return self._seen(measure)

    def taught(self, measure: str) -> bool:
        """Whether a try-on ever said something of the measure."""
        return bool(self.taught_on(measure))

    def taught_on(self, measure: str) -> tuple[date, ...]:
        """Return the days on which try-ons said something of the measure, in order."""
        return days_of(of_measure(self.bounds, measure))

    def by_readings(self) -> Growth:
        """Return the same growth, at the same tempos, without what try-ons taught."""
        return replace(self, bounds=())

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
            return (_last(seen),) * len(days) if seen else ()
        given = self._given(measure, seen)
        if given is None or not days:
            return ()
        return self._mix(*forecast(given, days))

    def grown_size(self, measure: str) -> Spread | None:
        """Return the grown size, mm or kg; None: neither prior nor reading."""
        seen = self._seen(measure)
        if not grows(measure):
            return _last(seen) if seen else None
        given = self._given(measure, seen)
        return None if given is None else self._mix(*sizes(given, grown(given)))[0]

    def done(self, measure: str, on: date) -> Shares | None:
        """Return the share of the grown size reached on a day, by the year's mean."""
        given = self._given(measure, self._seen(measure)) if grows(measure) else None
        if given is None:
            return None
        both = beside(ahead(given, (on,), seasons=False), grown(given))
        return Shares.of(np.array(self.weights).ravel(), *joint(given, both))

    def gains(self, measure: str, on: date, days: int) -> Spread | None:
        """Return the growth of the days to come (mm, kg), season and all."""
        given = self._given(measure, self._seen(measure)) if grows(measure) else None
        if given is None:
            return None
        ends = (on, on + timedelta(days=days))
        mean, shared = joint(given, ahead(given, ends))
        gained = mean[..., 1] - mean[..., 0]
        variance = shared[..., 0, 0] + shared[..., 1, 1] - 2 * shared[..., 0, 1]
        least = _LEAST_SHARE * shared[..., 0, 0]
        return self._mix(gained, np.sqrt(np.maximum(variance, least)))[0]

    def _seen(self, measure: str) -> tuple[Observation, ...]:
        return next((seen for key, seen in self.seen if key == measure), ())

    def _given(self, measure: str, seen: tuple[Observation, ...]) -> Posterior | None:
        bounds = of_measure(self.bounds, measure)
        found = evidence(measure, self.subject, self.births, seen, bounds)
        return None if found is None else at_its_tempos(found, self.log_tempos)

    def _mix(self, means: Floats, sds: Floats) -> tuple[Spread, ...]:
        weights = np.array(self.weights).ravel()
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


def fit_growth(
    subject: Subject, taken: Sequence[Taken], bounds: Sequence[Bound] = ()
) -> Growth:
    """Return growth fitted to readings and bounds (both may be empty: prior only).

    Raises:
        UnknownMeasureError: A measurement names an unknown measure or method.
    """
    seen = observations(taken, subject.horse_type)
    days = (*(one.on for one in taken), *(bound.on for bound in bounds))
    births = possible_days(subject.foaled, not_after=min(days, default=None))
    asked = _evidence(subject, births, dict(seen), bounds)
    log_tempos, weights = tempo_of(asked, len(births))
    return Growth(
        subject=subject,
        births=births,
        seen=seen,
        log_tempos=tuple(map(tuple, log_tempos.tolist())),
        weights=tuple(map(tuple, weights.tolist())),
        bounds=tuple(sorted(bounds)),
    )


def _evidence(
    subject: Subject,
    births: tuple[date, ...],
    seen: dict[str, tuple[Observation, ...]],
    bounds: Sequence[Bound],
) -> list[Evidence]:
    """Return what is known of every measure that tells of the tempo."""
    keys = sorted({*seen, *(bound.measure for bound in bounds)})
    found = (
        evidence(key, subject, births, seen.get(key, ()), of_measure(bounds, key))
        for key in keys
        if grows(key)
    )
    return [one for one in found if one is not None]
