"""The range outside which a reading is doubted, and asked about again."""

from __future__ import annotations

from math import hypot

import numpy as np

from fitting.body.kinds import HorseType
from fitting.body.measures import measure_by_key
from fitting.curves import (
    DOUBTED_SDS,
    curve_for,
    fraction_spread,
    grown_prior,
    wide_range,
)


def plausible(
    measure: str, horse_type: HorseType, age_months: float
) -> tuple[float, float]:
    """Return the range (mm, kg, score) outside which a reading is doubted.

    Grown size times the curve, 4.5 SD either way; for measures without a grown size a
    wide range at any age. A doubted reading is asked about, never refused.

    Raises:
        UnknownMeasureError: There is no such measure.

    Source: ours; curves as in ``curves.toml``.
    """
    prior = grown_prior(measure_by_key(measure).key, horse_type)
    if prior is None:
        return wide_range(measure)
    mean, sd = prior
    months = np.array([age_months])
    fraction = curve_for(measure, horse_type).fraction(months)[0]
    own = fraction_spread(measure, horse_type, months)[0]
    reach = DOUBTED_SDS * hypot(sd * fraction, mean * own)
    least = mean * fraction
    return float(max(least - reach, least / 4)), float(mean * fraction + reach)
