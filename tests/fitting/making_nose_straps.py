"""A nose of one size, a headcollar for a foal, and what is seen of a nose strap."""

from __future__ import annotations

from datetime import date

from fitting.fit import Part
from fitting.tryons import Seen, Tried, TryOn
from tests.fitting.making_fit import ON, steady
from tests.fitting.making_straps import of_parts

RIGHT = steady(nose_round=600.0)
SLIP = of_parts("headcollar", Part(part="nose", shortest_mm=300.0, longest_mm=420.0))


def worn(
    part: str,
    seen: Seen = "sits_right",
    *,
    gap_mm: float | None = None,
    hole: int | None = None,
    on: date = ON,
) -> TryOn:
    tried = Tried(part=part, seen=seen, hole=hole, gap_mm=gap_mm)
    return TryOn(on=on, item="On the peg", how="worn", parts=(tried,))
