"""Horses beside one another: sizes at one age, and whether they differ."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from math import isclose
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from fitting.age import DAYS_A_MONTH, read_foaled
from fitting.beside import (
    Beside,
    chance_larger,
    differences,
    youngest_age,
)
from fitting.body import Taken
from fitting.drawings.beside import (
    BesideChart,
    GrownHorse,
    Youngster,
    beside_chart,
    key_mark,
)
from fitting.drawings.ends import keep_apart
from fitting.drawings.marks import BandPoint
from fitting.growth import Spread, Subject, fit_growth

HEIGHT = "withers_height"
TODAY = date(2026, 11, 25)


def horse(
    name: str,
    foaled: str = "2024-04-24",
    heights: dict[str, float] | None = None,
    *,
    grown: bool = False,
) -> Beside:
    """Return a pony with stick heights (mm) by day."""
    born = read_foaled(foaled)
    taken = [
        Taken(
            measure=HEIGHT,
            on=date.fromisoformat(on),
            readings=(mm,),
            method="stick",
            same_person=True,
        )
        for on, mm in (heights or {}).items()
    ]
    subject = Subject(horse_type="pony", foaled=born, grown=grown)
    return Beside(
        name=name, growth=fit_growth(subject, taken), born=born.last, grown=grown
    )


def one(mean: float, sd: float) -> Spread:
    return Spread(weights=(1.0,), means=(mean,), sds=(sd,))


SPREADS = st.lists(
    st.tuples(st.floats(0.1, 1.0), st.floats(1000.0, 1600.0), st.floats(1.0, 60.0)),
    min_size=1,
    max_size=5,
).map(
    lambda parts: Spread(
        weights=tuple(p[0] / sum(q[0] for q in parts) for p in parts),
        means=tuple(p[1] for p in parts),
        sds=tuple(p[2] for p in parts),
    )
)


@pytest.mark.parametrize("apart", [-40.0, 0.0, 7.0, 30.0])
def test_the_chance_of_two_normals_is_that_of_their_difference(apart: float) -> None:
    chance = chance_larger(one(1300.0 + apart, 9.0), one(1300.0, 12.0))
    assert isclose(chance, norm.cdf(apart / 15.0), abs_tol=1e-12)


def test_the_chance_of_mixtures_is_what_many_draws_say() -> None:
    rng = np.random.default_rng(7)
    first = Spread(weights=(0.3, 0.7), means=(1290.0, 1320.0), sds=(8.0, 15.0))
    second = Spread(weights=(0.5, 0.5), means=(1280.0, 1330.0), sds=(5.0, 10.0))

    def draws(spread: Spread) -> np.ndarray:
        part = rng.choice(len(spread.weights), 400_000, p=spread.weights)
        return rng.normal(np.array(spread.means)[part], np.array(spread.sds)[part])

    seen = float((draws(first) > draws(second)).mean())
    assert abs(chance_larger(first, second) - seen) < 0.004


@given(SPREADS, SPREADS)
def test_one_of_two_is_the_larger(first: Spread, second: Spread) -> None:
    there, back = chance_larger(first, second), chance_larger(second, first)
    assert 0.0 <= there <= 1.0 + 1e-12
    assert isclose(there + back, 1.0, abs_tol=1e-9)


def test_a_size_at_an_age_is_the_growth_on_the_day_of_that_age() -> None:
    ash = horse("Ash", heights={"2025-04-24": 1180.0, "2026-04-24": 1260.0})
    day = ash.born + timedelta(days=round(24 * DAYS_A_MONTH))
    assert ash.day_at(24) == day
    assert ash.size(HEIGHT, 24) == ash.growth.at(HEIGHT, day)
    assert ash.age_on(day) == pytest.approx(24, abs=0.02)


def test_the_age_asked_is_by_itself_that_of_the_youngest_today() -> None:
    old = horse("Old", "2010-05-01", grown=True)
    foal, filly = horse("Foal", "2026-05-05"), horse("Filly", "2024-04-24")
    assert youngest_age([old, filly, foal], TODAY) == foal.age_on(TODAY)
    assert foal.day_at(foal.age_on(TODAY)) == TODAY
    assert youngest_age([old], TODAY) is None


def test_readings_far_apart_differ_and_readings_close_by_do_not() -> None:
    low = horse("Low", heights={"2026-04-24": 1240.0})
    near = horse("Near", heights={"2026-04-24": 1246.0})
    high = horse("High", heights={"2026-04-24": 1330.0})
    told = {
        (d.larger, d.smaller): d for d in differences([low, near, high], HEIGHT, 24)
    }
    assert set(told) == {("Near", "Low"), ("High", "Low"), ("High", "Near")}
    assert not told["Near", "Low"].is_sure
    assert told["High", "Low"].is_sure
    assert told["High", "Near"].is_sure
    assert 0 < told["Near", "Low"].by < 10
    assert told["High", "Low"].by > 50
    assert {d.when for d in told.values()} == {"at_age"}


def test_who_was_never_measured_cannot_be_told_from_another_of_the_type() -> None:
    known = horse("Known", heights={"2026-04-24": 1260.0})
    (told,) = differences([known, horse("Never")], HEIGHT, 24)
    assert not told.is_sure


def test_with_a_grown_horse_both_are_taken_when_grown() -> None:
    old = horse("Old", "2010-05-01", {"2026-01-01": 1350.0}, grown=True)
    young = horse("Young", heights={"2026-04-24": 1180.0})
    (told,) = differences([young, old], HEIGHT, 24)
    assert told.when == "grown"
    sizes = [each.growth.grown_size(HEIGHT) for each in (old, young)]
    assert sizes[0] is not None
    assert sizes[1] is not None
    assert told.by == pytest.approx(abs(sizes[0].mean - sizes[1].mean))
    assert old.size(HEIGHT, 24) is None


def test_a_measure_that_nobody_took_is_left_out() -> None:
    assert differences([horse("A"), horse("B")], "throat_round", 24) == ()


@given(st.lists(st.floats(0, 300), max_size=6), st.floats(1, 30))
def test_letters_are_kept_apart_in_their_order(
    wanted: list[float], apart: float
) -> None:
    last = 320.0
    placed = keep_apart(wanted, apart, last)
    by_place = sorted(placed)
    assert all(b - a >= apart - 1e-6 for a, b in pairwise(by_place))
    assert all(place <= last for place in placed)
    for a, b in pairwise(range(len(wanted))):
        if wanted[a] < wanted[b]:
            assert placed[a] < placed[b]


def test_letters_with_room_stay_where_they_are() -> None:
    assert keep_apart([10.0, 200.0, 90.0], 20, 300) == (10.0, 200.0, 90.0)


def youngster(name: str, base: float) -> Youngster:
    band = tuple(
        BandPoint(age_months=m, p5=base + m - 9, p50=base + m, p95=base + m + 9)
        for m in range(0, 72, 6)
    )
    return Youngster(name=name, band=band, readings=((12.0, base + 12),), today=18.0)


def chart_of(*horses: Youngster | GrownHorse) -> BesideChart:
    return BesideChart(
        uid="b", title="A & B", desc="Apart.", unit="cm", horses=horses, age=24
    )


FOUR = chart_of(
    youngster("Ash", 1200),
    youngster("<b>Oak</b>", 1250),
    GrownHorse(name="Old Marl", p5=1390, p50=1400, p95=1410),
    youngster("Marjoram of the Long Meadows", 1300),
)


@pytest.mark.parametrize("narrow", [True, False])
def test_every_horse_has_its_letter_its_dashes_and_its_mark(*, narrow: bool) -> None:
    drawn = beside_chart(FOUR, narrow=narrow)
    root = ET.fromstring(drawn)  # noqa: S314 - our own drawing
    said = [each.text for each in root.iter() if each.tag.endswith("text")]
    assert [letter for letter in said if letter in {"A", "B", "C", "D"}] == list("ABCD")
    assert "24 months" in said
    assert ("Old Marl, grown" in said) is not narrow
    assert ("Marjoram of the L…" in said) is not narrow
    assert "<b>" not in drawn


def test_no_two_lines_are_told_by_their_colour_alone() -> None:
    drawn = [key_mark(at) for at in range(4)]
    bare = {
        d.replace("ink", "").replace("leather", "").replace("#7B3F14", "#182430")
        for d in drawn
    }
    assert len(bare) == 4


def test_nothing_known_is_nothing_to_draw() -> None:
    empty = Youngster(name="Ash", band=(), readings=(), today=18.0)
    with pytest.raises(ValueError, match="shows nothing"):
        beside_chart(chart_of(empty, empty))
    beside = beside_chart(chart_of(empty, youngster("Oak", 1200)))
    assert ">A</text>" not in beside
    assert ">B</text>" in beside
