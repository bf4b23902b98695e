from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.growth import Spread, quantiles

PARTS = st.lists(
    st.tuples(st.floats(0.05, 1.0), st.floats(-2000.0, 2000.0), st.floats(0.5, 200.0)),
    min_size=1,
    max_size=6,
)


def spread_of(parts: list[tuple[float, float, float]]) -> Spread:
    total = sum(weight for weight, _, _ in parts)
    return Spread(
        weights=tuple(weight / total for weight, _, _ in parts),
        means=tuple(mean for _, mean, _ in parts),
        sds=tuple(sd for _, _, sd in parts),
    )


@given(many=st.lists(PARTS, min_size=1, max_size=5), share=st.floats(0.01, 0.99))
def test_quantiles_together_are_the_quantiles_one_by_one(
    many: list[list[tuple[float, float, float]]], share: float
) -> None:
    spreads = [spread_of(parts) for parts in many]
    together = quantiles(spreads, (share, 0.5))
    for spread, (low, middle) in zip(spreads, together, strict=True):
        assert spread.below(low) == pytest.approx(share, abs=1e-5)
        assert spread.below(middle) == pytest.approx(0.5, abs=1e-5)


def test_those_that_have_arrived_wait_for_the_others(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("fitting.growth.bands._MOST_STEPS", 12)
    spreads = [
        spread_of([(1.0, mean, sd), (weight, mean + 2 * sd, 1.3 * sd)])
        for mean in (95.0, 1320.0, 486.3)
        for sd in (1.0, 7.3, 61.0)
        for weight in (0.01, 0.2, 0.7)
    ]
    shares = (0.05, 0.5, 0.95)
    for spread, found in zip(spreads, quantiles(spreads, shares), strict=True):
        alone = [spread.quantile(share) for share in shares]
        assert found == pytest.approx(alone, abs=1e-6 * spread.sd)


def test_no_spreads_have_no_quantiles() -> None:
    assert quantiles([], (0.5,)) == ()


def test_a_share_lies_between_nothing_and_all() -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        quantiles([spread_of([(1.0, 0.0, 1.0)])], (0.5, 1.0))
