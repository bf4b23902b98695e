"""Each tree its own grown height, one curve for all: growth on a public data set.

Source of loblolly.csv: Kung FH (1986) Fitting logistic growth curve with predetermined
carrying capacity, Proceedings of the Statistical Computing Section, American
Statistical Association 340-343: heights in feet of 14 loblolly pines at 3 to 25 years,
as the data set Loblolly that comes with R (84 rows).

The curve is R's asymptotic regression, height = A + (R0 - A)*exp(-exp(lrc)*age), with A
normal among trees and every reading's error its own. The estimates below are its exact
maximum likelihood, worked out beforehand by a dense normal per tree and a search; they
were read in no publication. So the household's numbers are put aside (curve, prior, own
deviation, the tempo) and what is tested is the arithmetic that takes the grown size
out: its likelihood, its means and its spreads.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, log, pi
from pathlib import Path

import numpy as np
import pytest
from scipy import optimize

from fitting.age import Foaled
from fitting.curves import Curve
from fitting.growth import Growth, Observation, Subject, posterior

ROWS = Path(__file__).with_name("loblolly.csv").read_text(encoding="utf-8")
SOWN = date(1900, 1, 1)
A_YEAR = 1000  # days: so an age is exact to the day; the rate is told to match
SEED = Subject(horse_type="light", foaled=Foaled(first=SOWN, last=SOWN))
Tree = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Estimates:
    """Mean and SD of A, SD of a reading (feet), height at 0, log rate a year."""

    grown: float
    grown_sd: float
    error: float
    at_0: float
    log_rate: float


ML = Estimates(102.1196, 3.6759, 0.71839, -8.5494, -3.24397)
LOG_LIKELIHOOD = -114.6968


def trees() -> dict[str, Tree]:
    found: dict[str, Tree] = defaultdict(tuple)
    for row in csv.DictReader(ROWS.splitlines()):
        found[row["tree"]] += ((float(row["age_years"]), float(row["height_ft"])),)
    return found


TREES = trees()


def day_at(years: float) -> date:
    return SOWN + timedelta(days=round(years * A_YEAR))


def left_at_0(of: Estimates, years: float) -> float:
    """What the height at 0 still adds; growth itself starts every curve at f*M."""
    return of.at_0 * exp(-exp(of.log_rate) * years)


def seen(of: Estimates, tree: Tree) -> tuple[Observation, ...]:
    return tuple(
        Observation(on=day_at(age), value=y - left_at_0(of, age), error=of.error)
        for age, y in tree
    )


def follow(patch: pytest.MonkeyPatch, of: Estimates) -> None:
    """Give growth the trees' curve and prior, and no deviation of their own."""
    rate = exp(of.log_rate) * 30.4375 / A_YEAR
    curve = Curve(a1=0.0, k1=1.0, a2=1.0, k2=rate)
    patch.setattr(posterior, "curve_for", lambda *_: curve)
    patch.setattr(posterior, "prior_of", lambda *_: (of.grown, of.grown_sd))
    patch.setattr(posterior, "own_deviation", lambda _m, _t, ages: np.zeros_like(ages))
    forget()


def forget() -> None:
    posterior.evidence.cache_clear()
    posterior.at_its_tempos.cache_clear()


@pytest.fixture
def patch(monkeypatch: pytest.MonkeyPatch) -> Iterator[pytest.MonkeyPatch]:
    yield monkeypatch
    monkeypatch.undo()
    forget()


def log_likelihood(patch: pytest.MonkeyPatch, of: Estimates) -> float:
    follow(patch, of)
    total = 0.0
    for tree in TREES.values():
        found = posterior.evidence("withers_height", SEED, (SOWN,), seen(of, tree))
        assert found is not None
        given = posterior.given_tempo(found, np.zeros((1, 1)))
        total += float(given.log_likelihood[0, 0])
        total -= len(tree) / 2 * log(2 * pi)
    return total


def dense(of: Estimates, tree: Tree, at: float) -> tuple[float, float, float, float]:
    """Mean and SD of A and of the height at an age, from one joint normal."""
    ages = np.array([age for age, _ in tree] + [at])
    f = 1 - np.exp(-np.exp(of.log_rate) * ages)
    curve = of.grown * f + of.at_0 * (1 - f)
    lines = np.append(f, 1.0)  # heights, then A itself
    joint = of.grown_sd**2 * np.outer(lines, lines)
    n = len(tree)
    joint[:n, :n] += of.error**2 * np.eye(n)
    gain = joint[n:, :n] @ np.linalg.inv(joint[:n, :n])
    left = np.array([y for _, y in tree]) - curve[:n]
    mean = np.array([curve[n], of.grown]) + gain @ left
    sd = np.sqrt(np.diag(joint[n:, n:] - gain @ joint[:n, n:]))
    return mean[1], sd[1], mean[0], sd[0]


def test_the_table_is_the_published_one() -> None:
    assert len(TREES) == 14
    assert [len(tree) for tree in TREES.values()] == [6] * 14
    ages = {age for tree in TREES.values() for age, _ in tree}
    assert ages == {3, 5, 10, 15, 20, 25}


def test_the_trees_are_as_likely_as_the_dense_normal_says(
    patch: pytest.MonkeyPatch,
) -> None:
    assert log_likelihood(patch, ML) == pytest.approx(LOG_LIKELIHOOD, abs=1e-4)


def test_the_likeliest_estimates_are_those_of_the_exact_search(
    patch: pytest.MonkeyPatch,
) -> None:
    def unlikely(x: np.ndarray) -> float:
        of = Estimates(x[0], exp(x[1]), exp(x[2]), x[3], x[4])
        return -log_likelihood(patch, of)

    start = [101.0, log(3.0), log(0.9), -8.0, -3.2]
    best = optimize.minimize(
        unlikely, start, method="Nelder-Mead", options={"xatol": 1e-4, "fatol": 1e-7}
    )
    found = [best.x[0], exp(best.x[1]), exp(best.x[2]), best.x[3], best.x[4]]
    known = [ML.grown, ML.grown_sd, ML.error, ML.at_0, ML.log_rate]
    assert -best.fun == pytest.approx(LOG_LIKELIHOOD, abs=1e-4)
    assert found == pytest.approx(known, rel=3e-4)


@pytest.mark.parametrize("tree", TREES)
def test_a_tree_s_grown_height_and_forecast_equal_the_dense_normal_s(
    tree: str, patch: pytest.MonkeyPatch
) -> None:
    follow(patch, ML)
    early = TREES[tree][:3]
    growth = Growth(
        subject=SEED,
        births=(SOWN,),
        seen=(("withers_height", seen(ML, early)),),
        log_tempos=((0.0,),),
        weights=((1.0,),),
    )
    grown, later = (
        growth.grown_size("withers_height"),
        growth.at("withers_height", day_at(20)),
    )
    assert grown is not None
    assert later is not None
    found = (grown.mean, grown.sd, later.mean + left_at_0(ML, 20), later.sd)
    assert found == pytest.approx(dense(ML, early, 20), rel=1e-7)
