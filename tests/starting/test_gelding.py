"""After gelding: two weeks, or the vet's own day, and then only once cleared."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from starting.gates import CareDone
from starting.gates.gelding import GELDING_DAYS, Gelded, gelded

CUT = date(2026, 10, 5)


def day(ahead: int) -> date:
    return CUT + timedelta(days=ahead)


def visit(ahead: int = 0, kind: str = "gelding", **more: Any) -> CareDone:
    return CareDone(kind=kind, on=day(ahead), **more)


def stands(*care: CareDone, until: int = 400) -> Gelded:
    found = gelded(care, day(until))
    assert found is not None
    return found


def test_one_that_was_never_gelded_is_held_by_nothing() -> None:
    assert gelded([visit(kind="vet")], day(9)) is None
    assert gelded([visit(3)], day(2)) is None


def test_once_cleared_something_new_may_begin_after_fourteen_days() -> None:
    found = stands(visit(clear=True))
    assert found.heals == day(GELDING_DAYS) == day(14)
    assert found.new_from == day(15)


def test_the_vets_own_day_goes_before_ours() -> None:
    assert stands(visit(healing_until=day(21))).new_from == day(22)
    assert stands(visit(healing_until=day(9))).new_from == day(10)


def test_left_open_it_waits_for_a_vet_who_leaves_nothing_open() -> None:
    cut = visit(clear=False)
    assert stands(cut).new_from is None
    assert stands(cut, visit(20, "vet", clear=False)).new_from is None
    assert stands(cut, visit(20, "farrier")).new_from is None
    assert stands(cut, visit(-1, "vet")).new_from is None
    assert stands(cut, visit(20, "vet"), until=19).new_from is None
    assert stands(cut, visit(20, "vet"), visit(90, "vet")).new_from == day(20)


def test_cleared_early_the_days_of_healing_still_stand() -> None:
    assert stands(visit(clear=False), visit(5, "vet")).new_from == day(15)
