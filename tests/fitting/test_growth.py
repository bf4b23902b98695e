"""Growth: exact to the model, honest in its bands, deaf to order and units."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.age import Foaled
from fitting.body import Taken, UnknownMeasureError
from fitting.growth import Spread, fit_growth
from fitting.growth.posterior import evidence, forecast, given_tempo
from fitting.readings import Units, read_reading
from tests.fitting.light_horse import (
    BORN,
    day_at,
    height,
    light_height,
    now,
    subject,
    taken,
)

months_st = st.floats(min_value=1, max_value=60)
readings_st = st.lists(
    st.tuples(months_st, st.floats(min_value=-2, max_value=2)), min_size=1, max_size=6
)


def plausible_heights(drawn: Sequence[tuple[float, float]]) -> list[Taken]:
    return [
        height(t, float(1570 * light_height(np.array(t), 0.0) * (1 + 0.03 * off)))
        for t, off in drawn
    ]


@settings(max_examples=40, deadline=None)
@given(readings_st, st.randoms(use_true_random=False))
def test_the_order_of_measurements_never_matters(drawn, random) -> None:  # type: ignore[no-untyped-def]
    rows = [*plausible_heights(drawn), taken("weight", 10, 280.0, method="eye")]
    mixed = list(rows)
    random.shuffle(mixed)
    assert fit_growth(subject(), rows) == fit_growth(subject(), mixed)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(
            months_st,
            st.integers(min_value=110, max_value=170),
            st.sampled_from(("mm", "cm", "m", "in")),
        ),
        min_size=1,
        max_size=5,
    )
)
def test_the_unit_a_reading_was_typed_in_never_matters(
    rows: list[tuple[float, int, str]],
) -> None:
    worth = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}

    def head(unit: str | None) -> list[Taken]:
        found = []
        for months, quarters, own in rows:
            used = unit or own
            text = f"{quarters * 6.35 / worth[used]:.5f} {used}"
            value = read_reading(text, "length", Units()).value
            found.append(taken("head_length", months, value, method="tape"))
        return found

    plain = now(fit_growth(subject(), head("mm")), 30, "head_length")
    mixed = now(fit_growth(subject(), head(None)), 30, "head_length")
    assert mixed.mean == pytest.approx(plain.mean, abs=0.01)
    assert mixed.sd == pytest.approx(plain.sd, rel=1e-4)


@settings(max_examples=40, deadline=None)
@given(readings_st, months_st)
def test_a_same_day_duplicate_never_widens_at_any_tempo(drawn, ahead) -> None:  # type: ignore[no-untyped-def]
    rows = plausible_heights(drawn)

    def by_tempo(given: list[Taken]) -> np.ndarray:
        ((measure, seen),) = fit_growth(subject(), given).seen
        found = evidence(measure, subject(), (BORN,), seen)
        assert found is not None
        at_tempos = given_tempo(found, np.linspace(-0.6, 0.6, 9)[None, :])
        return forecast(at_tempos, [day_at(ahead)])[1]

    assert (by_tempo([*rows, rows[-1]]) <= by_tempo(rows) * (1 + 1e-9)).all()


@pytest.mark.parametrize("ahead", [12, 24, 48])
def test_a_same_day_duplicate_never_widens_the_band(ahead: float) -> None:
    rows = [height(9, 1350), height(12, 1400)]
    once = now(fit_growth(subject(), rows), ahead)
    assert now(fit_growth(subject(), [*rows, rows[-1]]), ahead).sd < once.sd


def test_readings_of_one_day_are_one_observation_with_half_its_error_shared() -> None:
    growth = fit_growth(subject(), [height(12, 1400, 1410, 1390, same_person=True)])
    ((key, (seen,)),) = growth.seen
    assert key == "withers_height"
    assert seen.value == 1400
    assert seen.error == pytest.approx(7 * np.sqrt(0.5 + 0.5 / 3))


def test_three_readings_in_one_entry_or_in_three_entries_are_the_same() -> None:
    together = fit_growth(subject(), [height(12, 1400, 1412, 1391)])
    apart = [height(12, 1412), height(12, 1391), height(12, 1400)]
    assert fit_growth(subject(), apart) == together


def test_a_laser_counts_ten_millimetres_less_than_a_stick() -> None:
    stick = fit_growth(subject(), [height(12, 1400)])
    laser = taken("withers_height", 12, 1410, method="laser")
    assert fit_growth(subject(), [laser]) == stick


def test_shoes_count_for_ten_millimetres_of_height_and_for_nothing_else() -> None:
    bare = fit_growth(subject(), [height(12, 1400)])
    assert fit_growth(subject(), [height(12, 1410, shod=True)]) == bare
    girth = taken("heart_girth", 12, 1500, method="tape")
    shod = taken("heart_girth", 12, 1500, method="tape", shod=True)
    assert fit_growth(subject(), [shod]) == fit_growth(subject(), [girth])


def test_tape_heights_never_mix_with_stick_heights_but_share_the_tempo() -> None:
    stick = [height(12, 1400)]
    tape = [
        taken("withers_height", t, y, method="tape", same_person=True)
        for t, y in [(6, 1250), (12, 1500), (24, 1640)]
    ]
    alone, both = fit_growth(subject(), stick), fit_growth(subject(), [*stick, *tape])
    assert both.known("withers_height_tape")
    assert not fit_growth(subject(), tape).known("withers_height")
    assert now(both, 12).mean == pytest.approx(now(alone, 12).mean, abs=6)
    assert both.log_tempos != alone.log_tempos


def test_one_measure_tells_of_another_through_the_tempo_alone() -> None:
    late = [height(6, 1200), height(12, 1290), height(24, 1420), height(36, 1530)]
    early = [height(6, 1380), height(12, 1480), height(24, 1535), height(36, 1540)]
    girth = [taken("heart_girth", 24, 1700, method="tape")]
    slow = now(fit_growth(subject(), late + girth), 48, "heart_girth")
    fast = now(fit_growth(subject(), early + girth), 48, "heart_girth")
    assert slow.mean > fast.mean + 5


def test_without_a_reading_or_a_prior_nothing_is_said() -> None:
    growth = fit_growth(subject(), [])
    assert growth.at("jaw_gap", day_at(30)) is None
    assert growth.grown_size("jaw_gap") is None
    assert growth.at_days("jaw_gap", [day_at(30), day_at(31)]) == ()
    assert growth.at("nose_gap", day_at(30)) is None
    assert not growth.known("withers_height")
    assert now(growth, 30).sd > 55


def test_a_measure_without_a_prior_starts_from_its_first_reading() -> None:
    growth = fit_growth(subject(), [taken("jaw_gap", 24, 40, method="calliper")])
    first = now(growth, 24, "jaw_gap")
    grown = growth.grown_size("jaw_gap")
    assert first.mean == pytest.approx(40, abs=0.1)
    assert 1 < first.sd < 2
    assert grown is not None
    assert grown.mean == pytest.approx(40 / light_height(np.array(24.0), 0), rel=0.01)


def test_what_does_not_grow_keeps_its_last_value() -> None:
    scores = [taken("condition_score", 30, 5, method="eye"),
              taken("condition_score", 20, 4, method="eye")]  # fmt: skip
    spread = now(fit_growth(subject(), scores), 40, "condition_score")
    assert (spread.mean, spread.sd) == (5, 0.5)


def test_both_parents_shift_and_narrow_the_grown_height() -> None:
    plain = fit_growth(subject(), []).grown_size("withers_height")
    known = fit_growth(subject(dam_height_mm=1500, sire_height_mm=1540), [])
    size = known.grown_size("withers_height")
    assert plain is not None
    assert size is not None
    assert [plain.mean, plain.sd] == pytest.approx([1570, 60])
    assert [size.mean, size.sd] == pytest.approx([1540, 36])
    croup = known.grown_size("croup_height")
    assert croup is not None
    assert croup.mean == pytest.approx(1545)
    assert croup.sd == pytest.approx(np.hypot(36, 20))


def test_one_parent_shifts_half_as_far_and_hardly_narrows() -> None:
    size = fit_growth(subject(dam_height_mm=1500), []).grown_size("withers_height")
    assert size is not None
    assert size.mean == pytest.approx(1549)
    assert 36 < size.sd < 60


def test_a_foaling_year_alone_is_less_sure_than_a_foaling_day() -> None:
    year = Foaled(first=date(2022, 1, 1), last=date(2022, 12, 31))
    rows = [height(12, 1400)]
    spread = now(fit_growth(subject(foaled=year), rows), 30)
    assert spread.sd > now(fit_growth(subject(), rows), 30).sd * 1.05


def test_a_grown_horse_known_by_its_year_keeps_its_size() -> None:
    year = Foaled(first=date(2010, 1, 1), last=date(2010, 12, 31))
    growth = fit_growth(subject(foaled=year, grown=True), [height(12, 1523)])
    spread = now(growth, 36)
    assert spread.mean == pytest.approx(1525, abs=4)
    assert spread.sd < 16


def test_many_days_at_once_equal_each_day_alone() -> None:
    growth = fit_growth(subject(), [height(12, 1400), height(20, 1480)])
    days = [day_at(t) for t in (2, 12, 30, 80)]
    together = growth.at_days("withers_height", days)
    for day, spread in zip(days, together, strict=True):
        alone = growth.at("withers_height", day)
        assert alone is not None
        assert spread.means == pytest.approx(alone.means)
        assert spread.sds == pytest.approx(alone.sds)


def test_a_weigh_tape_on_a_small_pony_is_hardly_believed() -> None:
    rows = [taken("weight", 30, 140, method="weigh_tape")]
    small = dict(fit_growth(subject("small_pony"), rows).seen)["weight"][0]
    pony = dict(fit_growth(subject("pony"), rows).seen)["weight"][0]
    assert small.error == pytest.approx(0.16 * 140)
    assert pony.error == pytest.approx(0.06 * 140)


def test_an_unknown_method_says_which_there_are() -> None:
    with pytest.raises(UnknownMeasureError, match="stick, laser, tape") as told:
        fit_growth(subject(), [taken("withers_height", 12, 1400, method="dowel")])
    assert told.value.asked == "dowel"


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.floats(min_value=0.01, max_value=1),
            st.floats(min_value=100, max_value=2000),
            st.floats(min_value=0.5, max_value=90),
        ),
        min_size=1,
        max_size=12,
    ),
    st.floats(min_value=0.001, max_value=0.999),
)
def test_a_quantile_is_the_size_its_share_lies_below(parts, share) -> None:  # type: ignore[no-untyped-def]
    total = sum(weight for weight, _, _ in parts)
    spread = Spread(
        weights=tuple(weight / total for weight, _, _ in parts),
        means=tuple(mean for _, mean, _ in parts),
        sds=tuple(sd for _, _, sd in parts),
    )
    assert spread.below(spread.quantile(share)) == pytest.approx(share, abs=1e-6)


def test_a_share_outside_nought_to_one_is_refused() -> None:
    spread = Spread(weights=(1.0,), means=(0.0,), sds=(1.0,))
    with pytest.raises(ValueError, match="between 0 and 1"):
        spread.quantile(1.0)
