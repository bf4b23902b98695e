"""What counts as a move, and what does not."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given

from starting.moves import Marks, Told, carried, marks_of, moves, net, tell_today
from starting.moves.moving import MIRROR
from starting.outlook import look_at_yard
from tests.starting.making_moves import ON, any_marks, day, item, marks, step, whats
from tests.starting.making_outlook import good_session, horse_facts, yard_facts


@given(any_marks())
def test_of_the_same_marks_twice_nothing_moved(same: Marks) -> None:
    assert moves(same, same) == ()


@given(any_marks(), any_marks())
def test_there_and_back_are_mirrors(before: Marks, after: Marks) -> None:
    there, back = moves(before, after), moves(after, before)
    assert {
        (m.kind, m.mark.subject, MIRROR[m.what], m.after, m.before) for m in there
    } == {(m.kind, m.mark.subject, m.what, m.before, m.after) for m in back}


@given(any_marks(), any_marks())
def test_what_was_told_is_not_told_again(before: Marks, after: Marks) -> None:
    assert moves(carried(before, after), after) == ()


@given(any_marks(), any_marks())
def test_days_that_end_where_they_began_come_to_nothing(
    before: Marks, after: Marks
) -> None:
    assert net([*moves(before, after), *moves(after, before)]) == ()


def test_the_moves_of_a_week_come_to_one() -> None:
    days = [marks(step(after=end)) for end in (10, 14, 20, 17)]
    each = [one for a, b in pairwise(days) for one in moves(a, b)]
    (found,) = net(each)
    assert (found.what, found.days) == ("later", 7)


@pytest.mark.parametrize(
    ("was", "now", "what"),
    [(10, 12, None), (10, 13, "later"), (10, 8, None), (10, 7, "sooner")],
)
def test_a_step_moves_from_three_days_on(was: int, now: int, what: str | None) -> None:
    found = moves(marks(step(after=was)), marks(step(after=now)))
    assert whats(found) == ({"bridle": what} if what else {})


@pytest.mark.parametrize(
    ("was", "now", "what"),
    [(90, 96, None), (90, 97, "later"), (90, 83, "sooner"), (90, 84, None)],
)
def test_tack_moves_from_a_week_on(was: int, now: int, what: str | None) -> None:
    found = moves(marks(item(after=was)), marks(item(after=now)))
    assert whats(found) == ({"Small eggbutt": what} if what else {})


def test_tack_good_as_far_as_is_looked_is_later_than_any_day() -> None:
    found = moves(marks(item(after=90)), marks(item(after=None)))
    assert whats(found) == {"Small eggbutt": "later"}
    assert found[0].days is None


def test_tack_that_ends_on_its_own_day_has_not_moved() -> None:
    before = marks(item(after=2))
    after = marks(item(after=None, state="watch"), on=day(2))
    assert moves(before, after) == ()


def test_tack_that_ends_long_before_its_day_has_moved() -> None:
    found = moves(marks(item(after=90)), marks(item(after=None, state="no")))
    assert whats(found) == {"Small eggbutt": "not_good"}


def test_tack_that_was_never_good_moves_nothing() -> None:
    before = marks(item(after=None, state="not_known"))
    assert moves(before, marks(item(after=None, state="no"))) == ()


def test_a_step_gets_its_first_day_and_loses_it() -> None:
    none, some = marks(step(after=None)), marks(step(after=40))
    assert whats(moves(none, some)) == {"bridle": "dated"}
    assert whats(moves(some, none)) == {"bridle": "undated"}


def test_a_step_is_established_whatever_its_day() -> None:
    done = marks(step(after=None, state="established"))
    assert whats(moves(marks(step(after=1)), done)) == {"bridle": "established"}


def test_a_step_of_another_programme_appears_and_vanishes() -> None:
    found = moves(marks(step("feet"), step("old")), marks(step("feet"), step("new")))
    assert whats(found) == {"new": "appears", "old": "vanishes"}


def test_a_horse_that_is_grown_now_loses_no_steps_one_by_one() -> None:
    assert moves(marks(step("feet"), step("bridle")), marks(item())) == ()


def test_tack_put_up_or_taken_down_has_not_moved() -> None:
    assert moves(marks(item("Old bit")), marks(item("New bit"))) == ()


def at(on_day: int, told: Told | None, *, after: int) -> tuple[Told, dict[str, str]]:
    """Tell of a real outlook whose one step, mouthing, ends on a chosen day."""
    on = day(on_day)
    (look,) = look_at_yard(yard_facts(horse_facts()), on)
    stages = tuple(
        replace(s, finish=day(after), state="waiting")
        for s in look.stages
        if s.stage == "mouthing"
    )
    told, found = tell_today(told, replace(look, stages=stages, fits=()))
    return told, whats(found)


def test_small_moves_add_up_from_day_to_day_until_they_are_told() -> None:
    told, found = at(0, None, after=100)
    assert found == {}
    told, found = at(1, told, after=102)
    assert found == {}
    told, found = at(2, told, after=104)
    assert found == {"mouthing": "later"}
    _, found = at(3, told, after=105)
    assert found == {}


def test_to_and_fro_within_a_day_leaves_nothing() -> None:
    told, _ = at(0, None, after=100)
    told, found = at(1, told, after=130)
    assert found == {"mouthing": "later"}
    told, found = at(1, told, after=101)
    assert found == {}
    _, found = at(2, told, after=101)
    assert found == {}


def test_two_moves_of_one_day_are_measured_from_the_day_before() -> None:
    told, _ = at(0, None, after=100)
    told, _ = at(1, told, after=110)
    told, _ = at(1, told, after=120)
    assert [mark.day for mark in told.since.steps] == [day(100)]
    assert [mark.day for mark in told.newest.steps] == [day(120)]


def test_measuring_days_do_not_count() -> None:
    (look,) = look_at_yard(yard_facts(horse_facts()), ON)
    assert look.measuring_days
    assert moves(marks_of(look), marks_of(replace(look, measuring_days=()))) == ()


def test_fewer_free_days_move_a_step_and_those_that_wait_for_it() -> None:
    tansy = horse_facts(sessions=(good_session("company", ON - timedelta(days=9)),))
    (was,) = look_at_yard(yard_facts(tansy), ON)
    (now,) = look_at_yard(yard_facts(tansy, free_days=frozenset({5})), ON)
    later = [m for m in moves(marks_of(was), marks_of(now)) if m.what == "later"]
    moved = {one.mark.subject for one in later}
    assert moved
    assert any(one.after and one.after.waits_for in moved for one in later)
