"""Twice running too high: when a pause of growth begins and how long it holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.body import Taken
from fitting.croup import (
    APART_DAYS,
    HOLD_DAYS,
    Judged,
    croup_on,
    judge,
    pairs_of,
    same_person,
)
from tests.fitting.making_croup import OVERS, both, day, seen, several


def test_two_high_readings_a_week_apart_begin_a_pause_of_four_weeks() -> None:
    found = seen((0, 70), (7, 70), on=7)
    assert found.pause is not None
    assert found.pause.first.pair.on == day(0)
    assert found.pause.ends == day(7 + 28)
    assert seen((0, 70), (7, 70), on=34).pause is not None
    assert seen((0, 70), (7, 70), on=35).pause is None


def test_six_days_apart_are_not_twice_running() -> None:
    assert seen((0, 70), (6, 70), on=6).pause is None
    # A third one may be a week from the first.
    assert seen((0, 70), (3, 70), (8, 70), on=8).pause is not None


def test_one_that_is_not_high_in_between_breaks_the_run() -> None:
    assert seen((0, 70), (4, 30), (8, 70), on=8).pause is None


def test_a_reading_before_its_day_is_not_known_yet() -> None:
    assert seen((0, 70), (7, 70), on=6).pause is None
    assert seen((3, 70), on=2).newest is None


def test_two_people_are_not_the_same_person() -> None:
    taken = (*both(0, 70), *both(7, 70, who="Sam"))
    assert croup_on(judge(taken, "light"), day(7)).pause is None


def test_the_usual_person_is_the_same_where_no_name_is_written_down() -> None:
    assert seen((0, 70), (7, 70), on=7, who="").pause is not None
    unsure = tuple(replace(t, same_person=False) for t in several((0, 80), (7, 80)))
    assert croup_on(judge(unsure, "light"), day(7)).pause is not None  # by name
    nobody = tuple(replace(t, who="") for t in unsure)
    assert all(one.high for one in judge(nobody, "light"))
    assert croup_on(judge(nobody, "light"), day(7)).pause is None


def test_a_pair_that_two_people_took_has_no_name() -> None:
    withers, croup = both(0, 31)
    (pair,) = pairs_of((withers, replace(croup, who="Sam")), "light")
    assert pair.who == ""
    (spelt,) = pairs_of((withers, replace(croup, who=" JO ")), "light")
    assert spelt.who == "jo"
    assert same_person(spelt, replace(spelt, on=day(9)))


def test_a_low_reading_within_the_pause_does_not_end_it() -> None:
    found = seen((0, 70), (7, 70), (14, 20), on=20)
    assert found.pause is not None
    assert found.newest is not None
    assert not found.newest.high


def test_a_third_high_reading_begins_the_pause_anew() -> None:
    found = seen((0, 70), (7, 70), (35, 70), on=40)
    assert found.pause is not None
    assert found.pause.ends == day(35 + 28)


PAIRS = st.lists(
    st.tuples(st.integers(0, 200), OVERS), max_size=8, unique_by=lambda p: p[0]
)
PEOPLE = st.sampled_from(["Jo", "Sam", ""])


@st.composite
def histories(draw: st.DrawFn) -> tuple[Taken, ...]:
    taken: list[Taken] = []
    for after, over in draw(PAIRS):
        method = draw(st.sampled_from(["stick", "stick", "stick", "tape", "laser"]))
        who, usual = draw(PEOPLE), draw(st.booleans())
        taken += both(after, over, method=method, who=who, same_person=usual)
    return tuple(taken)


@settings(max_examples=150)
@given(taken=histories(), data=st.data())
def test_the_order_of_what_was_written_never_matters(
    taken: tuple[Taken, ...], data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(taken))
    assert judge(shuffled, "light") == judge(taken, "light")


@settings(max_examples=150)
@given(taken=histories(), on=st.integers(0, 300))
def test_a_pause_rests_on_two_high_readings_and_lasts_four_weeks(
    taken: tuple[Taken, ...], on: int
) -> None:
    pause = croup_on(judge(taken, "light"), day(on)).pause
    if pause is None:
        return
    first, second = pause.first, pause.second
    assert first.high
    assert second.high
    assert (second.pair.on - first.pair.on).days >= APART_DAYS
    assert pause.ends - second.pair.on == timedelta(days=28)
    assert second.pair.on <= day(on) < pause.ends


@settings(max_examples=150)
@given(taken=histories())
def test_once_begun_a_pause_holds_every_day_of_four_weeks_whatever_is_read_then(
    taken: tuple[Taken, ...],
) -> None:
    found = judge(taken, "light")
    for one in found:
        pause = croup_on(found, one.pair.on).pause
        if pause is not None and pause.second.pair.on == one.pair.on:
            for after in range(HOLD_DAYS):
                later = one.pair.on + timedelta(days=after)
                assert croup_on(found, later).pause is not None


@settings(max_examples=150)
@given(
    after=st.integers(0, 100), over=OVERS, heavy=st.booleans(), on=st.integers(0, 200)
)
def test_a_single_reading_never_begins_a_pause(
    after: int, over: float, heavy: bool, on: int
) -> None:
    taken = both(after, over)
    assert croup_on(judge(taken, "heavy" if heavy else "light"), day(on)).pause is None


@settings(max_examples=150)
@given(taken=histories(), on=st.integers(0, 300))
def test_a_pause_is_what_trying_every_two_readings_finds(
    taken: tuple[Taken, ...], on: int
) -> None:
    found = [one for one in judge(taken, "light") if one.pair.on <= day(on)]
    ends = max(
        (
            two.pair.on + timedelta(days=28)
            for one in found
            for two in found
            if _are_twice_running(one, two, found)
        ),
        default=date.min,
    )
    pause = croup_on(found, day(on)).pause
    assert (pause.ends if pause else None) == (ends if ends > day(on) else None)


def _are_twice_running(one: Judged, two: Judged, every: Sequence[Judged]) -> bool:
    between = [
        x
        for x in every
        if x.pair.family == one.pair.family and one.pair.on <= x.pair.on <= two.pair.on
    ]
    named = one.pair.who, two.pair.who
    same = named[0] == named[1] if all(named) else None
    if same is None:
        same = one.pair.usual_person and two.pair.usual_person
    return (
        one.pair.family == two.pair.family
        and (two.pair.on - one.pair.on).days >= 7
        and all(x.high for x in between)
        and same
    )
