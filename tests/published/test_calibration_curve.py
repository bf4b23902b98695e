"""The curve outside the model, against the figures published with its rates.

Source: "The growth curves for some biometric traits in Czech Warmblood stallions",
7,488 records of 117 stallions at 7 to 36 months, Brody's curve: grown means, ages at
99 %, rates a day, and per cent of the grown size at 6, 12, 18, 24, 30 and 36 months.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitting.calibration import BRODY

GROWN_CM = {"withers_height": 167.4, "heart_girth": 194.3, "cannon_round": 21.8}
AT_99 = {"withers_height": 42, "heart_girth": 46, "cannon_round": 38}
AGES = np.array([6.0, 12.0, 18.0, 24.0, 30.0, 36.0])


@pytest.mark.parametrize("measure", GROWN_CM)
def test_grown_mean_and_age_at_99_per_cent_are_the_published_ones(measure: str) -> None:
    curve = BRODY[measure]
    assert curve.grown_mm == pytest.approx(10 * GROWN_CM[measure])
    at = float(curve.fraction(np.array(float(AT_99[measure]))))
    assert at == pytest.approx(0.99, abs=1e-9)


def test_the_rates_of_height_and_cannon_are_the_published_ones() -> None:
    assert BRODY["withers_height"].rate_a_day == 0.0026
    assert BRODY["cannon_round"].rate_a_day == 0.0032


def test_the_girth_derived_from_6_and_46_months_meets_the_ages_between() -> None:
    found = 100 * BRODY["heart_girth"].fraction(AGES)
    assert found == pytest.approx([76, 84, 90, 94, 96, 98], abs=1.2)


def test_height_keeps_within_two_per_cent_of_its_own_published_percentages() -> None:
    # Its rate and its age at 99 % run ahead of them by up to 1.9 at 24 months.
    found = 100 * BRODY["withers_height"].fraction(AGES)
    assert found == pytest.approx([83, 88, 92, 94, 96, 97], abs=2)
    assert found[0] == pytest.approx(83, abs=0.5)
