"""A horse and tack rooms to make bridles up from."""

from __future__ import annotations

from datetime import timedelta

from fitting.fit import Wearer
from fitting.tryons import Tried, TryOn
from tests.fitting.making_fit import (
    HEAD,
    ON,
    make_wearer,
    steady,
)

BROW, NOSE, THROAT, MOUTH = 360.0, 600.0, 780.0, 122.0


def make_horse(*, sd: float = 3.0, unmeasured: tuple[str, ...] = ()) -> Wearer:
    growth = steady(
        head_length=HEAD,
        brow=BROW,
        nose_round=NOSE,
        throat_round=THROAT,
        mouth_width=MOUTH,
        a_day={"head_length": 0.12, "mouth_width": 0.01, "brow": 0.03},
        sd=sd,
        unmeasured=unmeasured,
    )
    return make_wearer(growth)


def worn(item: str, part: str, seen: str, hole: int | None = None) -> TryOn:
    tried = Tried(part=part, seen=seen, hole=hole)  # type: ignore[arg-type]
    return TryOn(on=ON - timedelta(days=3), item=item, how="worn", parts=(tried,))
