"""One horse's growth: all its measures, joined by one tempo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from fitting.age import possible_days
from fitting.body import Taken
from fitting.curves import Floats, grows
from fitting.growth.observed import Observation, observations
from fitting.growth.posterior import Posterior, at_its_tempos, evidence, forecast
from fitting.growth.spread import Spread
from fitting.growth.subject import Subject
from fitting.growth.tempo import tempo_of

_LEAST_WEIGHT: Final = 1e-9  # ours: parts of the mixture below this are left out


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """One horse's growth, fitted to its readings.

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
        if given is None:
            return None
        sds = given.grown_precision**-0.5
        return self._mix(given.grown_mean[..., None], sds[..., None])[0]

    def _seen(self, measure: str) -> tuple[Observation, ...]:
        return next((seen for key, seen in self.seen if key == measure), ())

    def _given(self, measure: str, seen: tuple[Observation, ...]) -> Posterior | None:
        found = evidence(measure, self.subject, self.births, seen)
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


def fit_growth(subject: Subject, taken: Sequence[Taken]) -> Growth:
    """Return growth fitted to the readings (may be empty: prior only).

    Raises:
        UnknownMeasureError: A measurement names an unknown measure or method.
    """
    seen = observations(taken, subject.horse_type)
    first_seen = min((one.on for one in taken), default=None)
    births = possible_days(subject.foaled, not_after=first_seen)
    asked = [
        evidence(measure, subject, births, its_own)
        for measure, its_own in seen
        if grows(measure)
    ]
    log_tempos, weights = tempo_of([one for one in asked if one], len(births))
    return Growth(
        subject=subject,
        births=births,
        seen=seen,
        log_tempos=tuple(map(tuple, log_tempos.tolist())),
        weights=tuple(map(tuple, weights.tolist())),
    )
