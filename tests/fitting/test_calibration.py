"""Calibration: horses drawn as the model says, and a count that a wrong band fails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from fitting.body import Taken
from fitting.calibration import (
    BRODY,
    Calibration,
    calibrate,
    counting,
    say_calibration,
    worlds,
)
from fitting.calibration.worlds import from_outside, from_the_model
from fitting.growth import Growth, Spread, Subject, fit_growth

INSIDE, OUTSIDE = worlds("light")
FEW = 150
# Of 150 horses a sound 90 % band holds 82.6 to 97.4 % by three SDs of chance.
LEAST, MOST = 0.82, 0.98


def nineties(found: Calibration) -> list[float]:
    return [row.held[1] for row in found.coverage]


def test_inside_the_ninety_per_cent_band_holds_about_that_much() -> None:
    found = calibrate(INSIDE, horses=FEW, seed=3)
    assert len(found.coverage) == 3 * 4
    assert all(LEAST < held < MOST for held in nineties(found)), found.coverage
    assert np.mean([row.held[0] for row in found.coverage]) == pytest.approx(
        0.5, abs=0.08
    )


class Wrong:
    """Growth with every spread made narrower or wider than it is."""

    def __init__(self, growth: Growth, times: float) -> None:
        self.growth, self.times = growth, times

    def at_days(self, measure: str, days: Sequence[date]) -> tuple[Spread, ...]:
        return tuple(self.widened(s) for s in self.growth.at_days(measure, days))

    def widened(self, spread: Spread) -> Spread:
        about = spread.mean
        return replace(
            spread,
            means=tuple(about + self.times * (m - about) for m in spread.means),
            sds=tuple(self.times * sd for sd in spread.sds),
        )

    def grown_size(self, measure: str) -> Spread | None:
        return self.growth.grown_size(measure)


@pytest.mark.parametrize("times", [0.6, 1.8])
def test_a_spread_that_is_wrong_leaves_that_band(
    times: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fit(subject: Subject, taken: Sequence[Taken]) -> Wrong:
        return Wrong(fit_growth(subject, taken), times)

    monkeypatch.setattr(counting, "fit_growth", fit)
    held = nineties(calibrate(INSIDE, horses=FEW, seed=3))
    assert not any(LEAST < one < MOST for one in held), held


def test_the_same_seed_says_the_same_and_another_does_not() -> None:
    def told(seed: int) -> list[str]:
        both = (calibrate(world, horses=12, seed=seed) for world in (INSIDE, OUTSIDE))
        return [say_calibration(one).replace(f"seed {seed}", "") for one in both]

    assert told(5) == told(5)
    assert told(5)[0] != told(6)[0]
    assert told(5)[1] != told(6)[1]


def test_without_horses_nothing_is_counted() -> None:
    with pytest.raises(ValueError, match="At least 1 horse"):
        calibrate(INSIDE, horses=0, seed=1)


# The spread of the fraction between horses of the table that height goes by (Baban et
# al., Lipizzan): 2.0, 1.5 and 1.2 points at 12, 24 and 36 months, and its mean by the
# light curve.
def test_drawn_horses_spread_as_the_table_says() -> None:
    rng = np.random.default_rng(11)
    ages = np.array([12.0, 24.0, 36.0])
    drawn = [from_the_model(rng, "light", ages) for _ in range(4000)]
    fractions = np.array(
        [np.array(d.sizes["withers_height"]) / d.grown["withers_height"] for d in drawn]
    )
    assert 100 * fractions.std(axis=0) == pytest.approx([2.0, 1.5, 1.2], rel=0.05)
    assert 100 * fractions.mean(axis=0) == pytest.approx([90.3, 95.9, 98.2], abs=0.3)
    grown = np.array([d.grown["withers_height"] for d in drawn])
    assert (grown.mean(), grown.std()) == pytest.approx((1570, 60), rel=0.04)


def test_the_measures_of_a_drawn_horse_share_its_tempo_and_nothing_else() -> None:
    rng = np.random.default_rng(12)
    ages = np.array([18.0])
    drawn = [from_the_model(rng, "light", ages) for _ in range(4000)]

    def fractions(of: str) -> np.ndarray:
        return np.array([d.sizes[of][0] / d.grown[of] for d in drawn])

    alike = np.corrcoef(fractions("withers_height"), fractions("heart_girth"))[0, 1]
    # What the tempo explains of each: its slope at 18 months times 0.2, over the SD.
    height = 0.207 * 0.0675 * 18 * np.exp(-0.0675 * 18) * 0.2 / 0.017
    girth = 0.325 * 0.060 * 18 * np.exp(-0.060 * 18) * 0.2 / (1.25 * 0.017)
    assert alike == pytest.approx(min(height, 1.0) * min(girth, 1.0), abs=0.06)
    heights = np.array([d.grown["withers_height"] for d in drawn])
    girths = np.array([d.grown["heart_girth"] for d in drawn])
    assert abs(np.corrcoef(heights, girths)[0, 1]) < 0.05


def test_horses_of_the_other_curve_grow_to_its_size_each_at_its_own_rate() -> None:
    rng = np.random.default_rng(13)
    drawn = [from_outside(rng, np.array([12.0, 200.0])) for _ in range(2000)]
    for measure, curve in BRODY.items():
        grown = np.array([d.grown[measure] for d in drawn])
        assert grown.mean() == pytest.approx(curve.grown_mm, rel=0.005)
        assert grown.std() == pytest.approx(curve.grown_sd_mm, rel=0.06)
        sizes = np.array([d.sizes[measure] for d in drawn])
        assert (sizes[:, 1] / grown).min() > 0.999
        if measure == "withers_height":  # 2.0 points at 12 months, as the table's
            assert (sizes[:, 0] / grown).std() == pytest.approx(0.020, abs=0.002)


def test_what_is_said_is_what_was_counted() -> None:
    found = calibrate(OUTSIDE, horses=20, seed=2)
    told = say_calibration(found).splitlines()
    assert told[0].endswith("fitted as warmblood; 20 horses, seed 2")
    row = next(line for line in told if line.startswith("  withers height, 90%"))
    said = [float(word) for word in row.split()[3:]]
    heights = [r for r in found.coverage if r.measure == "withers_height"]
    assert said == pytest.approx([100 * r.held[1] for r in heights], abs=0.05)
    assert sum(error.horses for error in found.grown) == 20
    last = found.grown[-1]
    assert told[-1].split()[-4:] == [
        str(last.horses),
        f"{last.bias / 10:.1f}",
        f"{last.rmse / 10:.1f}",
        f"{last.median_off / 10:.1f}",
    ]
