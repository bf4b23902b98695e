"""One tempo for all measures of a horse: where it lies, and how surely.

Eleven nodes laid over the spread of tempos between horses stand too far apart once a
horse is well known, so they are laid over what is known of this horse's own tempo.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitting.curves import (
    NODE_WEIGHTS,
    NODES,
    SEARCH,
    SEARCH_STEP,
    TEMPO_LOG_SD,
    Floats,
)
from fitting.growth.posterior import Evidence, given_tempo


def _log_chance(found: Sequence[Evidence], log_tempos: Floats) -> Floats:
    """Return the log chance of tempo and readings, shape (b, z), up to a constant."""
    chance = -0.5 * (log_tempos / TEMPO_LOG_SD) ** 2
    for one in found:
        chance = chance + given_tempo(one, log_tempos).log_likelihood
    return np.asarray(chance)


def _where(found: Sequence[Evidence], births: int) -> tuple[Floats, Floats]:
    """Return mean and SD of the log tempo by foaling day, each of shape (b, 1)."""
    if not found:
        return np.zeros((births, 1)), np.full((births, 1), TEMPO_LOG_SD)
    chance = _log_chance(found, np.tile(SEARCH, (births, 1)))
    weights = np.exp(chance - chance.max(axis=1, keepdims=True))
    weights = weights / weights.sum(axis=1, keepdims=True)
    mean = (weights * SEARCH).sum(axis=1, keepdims=True)
    variance = (weights * (SEARCH - mean) ** 2).sum(axis=1, keepdims=True)
    return mean, np.sqrt(variance + SEARCH_STEP**2 / 12)


def tempo_of(found: Sequence[Evidence], births: int) -> tuple[Floats, Floats]:
    """Return log tempos by foaling day and their weights (sum 1), both (b, z)."""
    mean, sd = _where(found, births)
    log_tempos = mean + sd * NODES
    log_weights = np.log(NODE_WEIGHTS * sd) + 0.5 * NODES**2
    log_weights = log_weights + _log_chance(found, log_tempos)
    weights = np.exp(log_weights - log_weights.max())
    return log_tempos, weights / weights.sum()
