from __future__ import annotations

import pytest

from starting.outlook.days_ahead import MOST_DRAWN, days_of_all
from tests.starting.making_schedule import TODAY, make_ahead, make_horse, make_yard


@pytest.mark.parametrize(
    ("how_many", "drawn"), [(1, True), (MOST_DRAWN, True), (MOST_DRAWN + 1, False)]
)
def test_ends_are_drawn_up_to_so_many_youngsters(how_many: int, drawn: bool) -> None:
    horses = [make_horse(make_ahead(), horse=f"Horse {n}") for n in range(how_many)]
    found = days_of_all(horses, make_yard(), TODAY)
    assert len(found) == how_many
    assert all(one.planned for one in found.values())
    assert {bool(one.spreads) for one in found.values()} == {drawn}
