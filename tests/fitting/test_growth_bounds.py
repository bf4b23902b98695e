"""Bounds from try-ons: as exact as sampling, and never the wrong way."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from fitting.age import Foaled
from fitting.body import Taken
from fitting.growth import Bound, fit_growth
from fitting.growth.bounds import Kind
from fitting.growth.posterior import at_its_tempos, by_readings, evidence
from tests.fitting.light_horse import (
    BORN,
    day_at,
    height,
    light_height,
    months_at,
    now,
    subject,
    taken,
)
from tests.fitting.sampling import HEAD, Told, chance_of, sampled

Said = tuple[float, Kind, float]  # age in months, kind, value


def bound(
    months: float,
    kind: Kind,
    value: float,
    sigma: float = 16.0,
    measure: str = "head_length",
) -> Bound:
    on = day_at(months)
    return Bound(measure=measure, on=on, kind=kind, value=value, sigma=sigma)


def bounds(said: Sequence[Said], sigma: float = 16.0) -> tuple[Bound, ...]:
    return tuple(sorted(bound(*one, sigma) for one in said))


def head(months: float, value: float) -> Taken:
    return taken("head_length", months, value, method="tape")


def told_head(
    read: Sequence[tuple[float, float]], said: tuple[Bound, ...] = ()
) -> Told:
    exact = tuple((months_at(day_at(t)), value, 7.0) for t, value in read)
    return replace(HEAD, read=exact, bounds=said)


CASES: dict[str, tuple[list[tuple[float, float]], list[Said]]] = {
    "one about, nothing read": ([], [(24, "about", 1010)]),
    "one at least, nothing read": ([], [(24, "at_least", 1040)]),
    "one at most, far off": ([], [(24, "at_most", 880)]),
    "one about, far off": ([], [(24, "about", 1120)]),
    "three words of one day": (
        [],
        [(24, "at_least", 990), (24, "at_most", 1020), (24, "about", 1004)],
    ),
    "at least and at most, far apart": (
        [],
        [(20, "at_least", 950), (30, "at_most", 1060)],
    ),
    "about, then at least": ([], [(20, "about", 985), (28, "at_least", 1000)]),
    "two that contradict": ([], [(24, "about", 960), (26, "about", 1040)]),
    "four in twelve months": (
        [],
        [(t, "about", v) for t, v in ((16, 950), (20, 975), (24, 990), (28, 1000))],
    ),
    "three beside two readings": (
        [(12, 930), (18, 960)],
        [(20, "about", 985), (24, "at_least", 990), (30, "at_most", 1030)],
    ),
    "one that contradicts a reading": ([(12, 930)], [(13, "about", 1000)]),
    "twelve beside a reading": (
        [(12, 930)],
        [(14 + 2 * n, "about", 955 + 4 * n) for n in range(12)],
    ),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("target", [24, 48])
def test_bounds_say_what_sampling_says_to_a_twentieth_of_an_sd(
    case: str, target: float
) -> None:
    read, said = CASES[case]
    growth = fit_growth(subject(), [head(t, v) for t, v in read], bounds(said))
    told = told_head(read, bounds(said))
    mean, sd = sampled([told], months_at(day_at(target)))
    spread = now(growth, target, "head_length")
    assert spread.mean == pytest.approx(mean, abs=0.05 * sd)
    assert spread.sd == pytest.approx(sd, rel=0.05)


def test_sharp_bounds_on_a_wide_prior_are_followed_into_their_far_tails() -> None:
    said = bounds([(18, "about", 980), (30, "about", 1020)], sigma=5.0)
    mean, sd = sampled([told_head([], said)], months_at(day_at(24)))
    spread = now(fit_growth(subject(), [], said), 24, "head_length")
    assert spread.mean == pytest.approx(mean, abs=0.05 * sd)
    assert spread.sd == pytest.approx(sd, rel=0.05)


def test_two_measures_share_the_tempo_that_bounds_tell_of() -> None:
    stick = ((6.0, 1250.0), (12.0, 1370.0), (24.0, 1500.0))
    said = bounds([(9, "at_most", 880), (30, "about", 1030)])
    withers = Told(
        mean=1570,
        sd=60,
        wider=1.0,
        read=tuple((months_at(day_at(t)), v, 12.0) for t, v in stick),
    )
    heads = told_head([], said)
    growth = fit_growth(subject(), [height(t, v) for t, v in stick], said)
    for measure, told in (
        ("head_length", [heads, withers]),
        ("withers_height", [withers, heads]),
    ):
        mean, sd = sampled(told, months_at(day_at(48)))
        spread = now(growth, 48, measure)
        assert spread.mean == pytest.approx(mean, abs=0.05 * sd)
        assert spread.sd == pytest.approx(sd, rel=0.05)


def test_bounds_on_a_head_move_the_forecast_of_the_height_through_the_tempo() -> None:
    stick = [height(12, 1400)]
    late = bounds([(6, "about", 780), (12, "about", 870), (30, "about", 1030)])
    early = bounds([(6, "about", 900), (12, "about", 970), (30, "about", 1030)])
    slow, fast = (now(fit_growth(subject(), stick, b), 48) for b in (late, early))
    assert slow.mean > fast.mean + 2


def test_a_tempo_is_as_likely_as_the_words_of_one_day_make_it() -> None:
    said = bounds([(12, "about", 985), (12, "at_least", 960)])
    tempos = (-0.4, 0.0, 0.3)
    found = evidence("head_length", subject(), (BORN,), (), said)
    assert found is not None
    given_it = at_its_tempos(found, (tempos,))
    assert given_it.held is not None
    sds = np.sqrt(by_readings(given_it, given_it.held, given_it.held)[0, :, 0, 0])
    for at, tempo in enumerate(tempos):
        mean = 1050 * float(light_height(np.array(months_at(day_at(12))), tempo))

        def part(y: float, mean: float = mean, sd: float = sds[at]) -> float:
            chance = chance_of(said[0], np.array(y)) * chance_of(said[1], np.array(y))
            return float(chance * stats.norm.pdf(y, mean, sd))

        exact = integrate.quad(part, mean - 500, mean + 500, points=[960, 985])[0]
        assert given_it.log_evidence[0, at] == pytest.approx(np.log(exact), abs=1e-4)


ages_st = st.floats(min_value=6, max_value=40)
kinds_st = st.sampled_from(("at_least", "at_most", "about"))
offs_st = st.floats(min_value=-1.5, max_value=1.5)
said_st = st.lists(st.tuples(ages_st, kinds_st, offs_st), min_size=1, max_size=4)
reads_st = st.lists(st.tuples(ages_st, offs_st), max_size=3)


def size_of_head(months: float, off: float) -> float:
    return 1050 * float(light_height(np.array(months), 0.0)) * (1 + 0.04 * off)


@settings(max_examples=40, deadline=None)
@given(reads_st, ages_st, offs_st, st.sampled_from((8.0, 16.0, 30.0)))
def test_about_moves_the_median_of_its_day_toward_itself(
    read: list[tuple[float, float]], age: float, off: float, sigma: float
) -> None:
    rows = [head(t, size_of_head(t, o)) for t, o in read]
    before = now(fit_growth(subject(), rows), age, "head_length").quantile(0.5)
    said = bound(age, "about", size_of_head(age, off), sigma)
    after = now(fit_growth(subject(), rows, [said]), age, "head_length").quantile(0.5)
    assert abs(after - said.value) <= abs(before - said.value) + 0.05


@settings(max_examples=40, deadline=None)
@given(reads_st, ages_st, offs_st, st.sampled_from((("at_least", 1), ("at_most", -1))))
def test_at_least_moves_the_median_up_and_at_most_moves_it_down(
    read: list[tuple[float, float]], age: float, off: float, way: tuple[Kind, int]
) -> None:
    rows = [head(t, size_of_head(t, o)) for t, o in read]
    kind, sign = way
    before = now(fit_growth(subject(), rows), age, "head_length").quantile(0.5)
    said = bound(age, kind, size_of_head(age, off))
    after = now(fit_growth(subject(), rows, [said]), age, "head_length").quantile(0.5)
    assert sign * (after - before) >= -0.05


@settings(max_examples=25, deadline=None)
@given(reads_st, said_st, st.randoms(use_true_random=False))
def test_the_order_of_bounds_never_matters(
    read: list[tuple[float, float]],
    said: list[tuple[float, Kind, float]],
    shuffle: random.Random,
) -> None:
    rows = [head(t, size_of_head(t, o)) for t, o in read]
    given_it = [bound(t, kind, size_of_head(t, o)) for t, kind, o in said]
    mixed = list(given_it)
    shuffle.shuffle(mixed)
    assert fit_growth(subject(), rows, given_it) == fit_growth(subject(), rows, mixed)


def test_a_word_far_from_every_reading_is_taken_as_mistaken() -> None:
    rows = [head(12, 930), head(18, 960), head(24, 985)]
    plain = now(fit_growth(subject(), rows), 24, "head_length")
    wild = fit_growth(subject(), rows, [bound(24, "at_least", 1150)])
    assert now(wild, 24, "head_length").mean == pytest.approx(plain.mean, abs=0.2)


def test_a_measure_never_taken_is_told_by_prior_and_bounds() -> None:
    growth = fit_growth(subject(), [], [bound(24, "about", 1040)])
    assert not growth.known("head_length")
    assert growth.taught("head_length")
    assert not growth.taught("mouth_width")
    plain = now(fit_growth(subject(), []), 24, "head_length")
    assert now(growth, 24, "head_length").sd < plain.sd * 0.55


def test_without_a_prior_only_about_says_a_size() -> None:
    throat = "throat_round"
    least = fit_growth(subject(), [], [bound(24, "at_least", 500, measure=throat)])
    assert least.at(throat, day_at(24)) is None
    about = fit_growth(subject(), [], [bound(24, "about", 520, 20, throat)])
    spread = now(about, 24, throat)
    assert spread.mean == pytest.approx(520, abs=1)
    assert 10 < spread.sd < 52
    grown = about.grown_size(throat)
    assert grown is not None
    assert grown.mean == pytest.approx(520 / light_height(np.array(24.0), 0), rel=0.01)


def test_a_reading_outranks_about_as_the_start_of_a_measure_without_a_prior() -> None:
    read = taken("throat_round", 24, 520, method="tape")
    growth = fit_growth(
        subject(), [read], [bound(20, "about", 700, measure="throat_round")]
    )
    assert now(growth, 24, "throat_round").mean == pytest.approx(520, abs=2)


def test_a_foal_was_alive_on_the_day_of_its_first_try_on() -> None:
    month = Foaled(first=date(2022, 5, 1), last=date(2022, 5, 31))
    said = replace(bound(0, "about", 640), on=date(2022, 5, 10))
    growth = fit_growth(subject(foaled=month), [], [said])
    assert max(growth.births) <= date(2022, 5, 10)


def test_a_bound_is_never_exact_and_never_on_what_does_not_grow() -> None:
    with pytest.raises(ValueError, match="never exact"):
        bound(24, "about", 1000, 0.0)
    with pytest.raises(ValueError, match="above nought"):
        bound(24, "about", -3.0)
    with pytest.raises(ValueError, match="does not grow"):
        bound(24, "about", 20, 5.0, "nose_gap")


def test_on_average_a_bound_does_not_widen() -> None:
    rng = np.random.default_rng(3)
    change = []
    for _ in range(150):
        grown, age = rng.normal(1050, 60), rng.uniform(10, 30)
        size = grown * float(light_height(np.array(age), rng.normal(0, 0.2)))
        said = bound(age, "about", size + float(rng.normal(0, 10)))
        rows = [head(9, grown * 0.87 + float(rng.normal(0, 7)))]
        with_it, without = (
            now(fit_growth(subject(), rows, b), 40, "head_length").sd
            for b in ([said], [])
        )
        change.append(with_it**2 - without**2)
    assert np.mean(change) < 0
