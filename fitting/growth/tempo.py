"""One tempo for all measures of a horse: where it lies, and how surely.

Eleven nodes laid over the spread of tempos between horses stand too far apart once a
horse is well known, so they are laid over what is known of this horse's own tempo.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from fitting.curves import (
    NODE_WEIGHTS,
    NODES,
    SEARCH,
    SEARCH_STEP,
    TEMPO_LOG_SD,
    Floats,
)
from fitting.growth.posterior import Evidence, at_its_tempos, given_tempo

# Ours: the nodes are laid anew when bounds move the tempo further, or hold it closer.
_MOVED_SDS: Final = 1.0
_CLOSER: Final = 0.7
_LEAST_SD: Final = SEARCH_STEP


def _log_chance(found: Sequence[Evidence], log_tempos: Floats) -> Floats:
    """Return the log chance of tempo and readings, shape (b, z), up to a constant."""
    chance = -0.5 * (log_tempos / TEMPO_LOG_SD) ** 2
    for one in found:
        chance = chance + given_tempo(one, log_tempos).log_likelihood
    return np.asarray(chance)


def _log_chance_of_all(found: Sequence[Evidence], log_tempos: Floats) -> Floats:
    """Return the same with the bounds."""
    kept = tuple(map(tuple, log_tempos.tolist()))
    chance = -0.5 * (log_tempos / TEMPO_LOG_SD) ** 2
    for one in found:
        chance = chance + at_its_tempos(one, kept).log_evidence
    return np.asarray(chance)


def _where(found: Sequence[Evidence], births: int) -> tuple[Floats, Floats]:
    """Return mean and SD of the log tempo by foaling day, each of shape (b, 1)."""
    read = [one for one in found if one.values.size]
    if not read:
        return np.zeros((births, 1)), np.full((births, 1), TEMPO_LOG_SD)
    chance = _log_chance(read, np.tile(SEARCH, (births, 1)))
    mean, sd = _middle(SEARCH, np.exp(chance - chance.max(axis=1, keepdims=True)))
    return mean, np.hypot(sd, SEARCH_STEP / np.sqrt(12))


def _middle(log_tempos: Floats, weights: Floats) -> tuple[Floats, Floats]:
    """Return mean and SD by foaling day, each of shape (b, 1)."""
    weights = weights / weights.sum(axis=1, keepdims=True)
    mean = (weights * log_tempos).sum(axis=1, keepdims=True)
    variance = (weights * (log_tempos - mean) ** 2).sum(axis=1, keepdims=True)
    return mean, np.sqrt(variance)


def tempo_of(found: Sequence[Evidence], births: int) -> tuple[Floats, Floats]:
    """Return log tempos by foaling day and their weights (sum 1), both (b, z)."""
    mean, sd = _where(found, births)
    log_tempos, log_weights = _laid(found, mean, sd)
    if any(one.bounds for one in found):
        by_day = np.exp(log_weights - log_weights.max(axis=1, keepdims=True))
        then, close = _middle(log_tempos, by_day)
        far = np.abs(then - mean) > _MOVED_SDS * sd
        if (far | (close < _CLOSER * sd)).any():
            log_tempos, log_weights = _laid(found, then, np.maximum(close, _LEAST_SD))
    weights = np.exp(log_weights - log_weights.max())
    return log_tempos, weights / weights.sum()


def _laid(found: Sequence[Evidence], mean: Floats, sd: Floats) -> tuple[Floats, Floats]:
    """Return log tempos laid over a mean and SD, and the logs of their weights."""
    log_tempos = mean + sd * NODES
    log_weights = np.log(NODE_WEIGHTS * sd) + 0.5 * NODES**2
    return log_tempos, log_weights + _log_chance_of_all(found, log_tempos)
