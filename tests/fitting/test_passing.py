"""When a size passes a limit: against every day looked at one by one."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.age import read_foaled
from fitting.body import Taken
from fitting.growth import Growth, Subject, fit_growth
from fitting.passing import passing

ON = date(2026, 11, 25)
BORN = date(2024, 4, 19)


def growth_of(*heights: tuple[int, float], foaled: str = "2024-04-19") -> Growth:
    """Return growth fitted to heights (mm) taken so many days before ON."""
    subject = Subject(horse_type="pony", foaled=read_foaled(foaled))
    taken = [
        Taken(
            measure="withers_height",
            on=ON - timedelta(days=days),
            readings=(mm,),
            method="stick",
            same_person=True,
        )
        for days, mm in heights
    ]
    return fit_growth(subject, taken)


GROWING = growth_of((400, 1215.0), (200, 1260.0), (10, 1290.0))


def chance(growth: Growth, limit: float, day: date) -> float:
    size = growth.at("withers_height", day)
    assert size is not None
    return 1 - size.below(limit)


@pytest.mark.parametrize("limit", [1100.0, 1270.0, 1292.0, 1310.0, 1330.0, 1345.0])
def test_the_days_are_those_that_a_look_at_every_day_finds(limit: float) -> None:
    found = passing(GROWING, "withers_height", limit, ON)
    assert found is not None
    count = (found.looked_until - BORN).days + 1
    days = [BORN + timedelta(days=n) for n in range(count)]
    sizes = GROWING.at_days("withers_height", days)
    over = [1 - size.below(limit) for size in sizes]
    for share, day in ((0.2, found.early), (0.5, found.likely), (0.8, found.late)):
        first = next((d for d, p in zip(days, over, strict=True) if p >= share), None)
        assert day == first


@pytest.mark.parametrize("limit", [1250.0, 1295.0, 1320.0])
def test_the_chances_are_those_of_growth(limit: float) -> None:
    found = passing(GROWING, "withers_height", limit, ON)
    grown = GROWING.grown_size("withers_height")
    assert found is not None
    assert grown is not None
    assert found.today == pytest.approx(chance(GROWING, limit, ON))
    assert found.grown == pytest.approx(1 - grown.below(limit))


def test_what_is_long_past_is_found_in_the_past() -> None:
    found = passing(GROWING, "withers_height", 1240.0, ON)
    assert found is not None
    assert found.today > 0.99
    assert found.likely is not None
    assert ON - timedelta(days=400) < found.likely < ON - timedelta(days=200)


def test_what_will_hardly_be_reached_has_no_likely_day() -> None:
    found = passing(GROWING, "withers_height", 1420.0, ON)
    assert found is not None
    assert found.grown < 0.2
    assert (found.early, found.likely, found.late) == (None, None, None)


def test_early_comes_before_likely_and_likely_before_late() -> None:
    found = passing(GROWING, "withers_height", 1310.0, ON)
    assert found is not None
    assert found.early is not None
    assert found.likely is not None
    assert found.early < found.likely
    assert found.late is None or found.likely < found.late


def test_a_horse_never_measured_is_judged_by_its_type_alone() -> None:
    found = passing(growth_of(), "withers_height", 1200.0, ON)
    assert found is not None
    assert 0 < found.today < 1


def test_nothing_is_said_of_what_is_not_known_at_all() -> None:
    assert passing(growth_of(), "back_length", 500.0, ON) is None


def test_a_foaling_year_alone_still_gives_days() -> None:
    found = passing(
        growth_of((10, 1290.0), foaled="2024"), "withers_height", 1310.0, ON
    )
    assert found is not None
    assert found.likely is not None
