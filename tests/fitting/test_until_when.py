"""From when an item is good, and the chance of a no on that day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer, Finding
from fitting.fit.answers import GOOD_AT_LEAST, GOOD_NO_UNDER, Judged
from fitting.fit.lasting import GUESSES, days_looked, good_from, good_until
from fitting.told import verdict
from fitting.until_when import chance_words, from_words, in_hundred, stretch_of
from tests.fitting.making_fit import ON, bit_on, make_bit, make_wearer, steady

IN_SPRING = date(2027, 4, 3)
OVER = date(2028, 1, 9)


@given(
    width=st.floats(104, 125),
    a_day=st.floats(0.005, 0.06),
    sd=st.floats(0.3, 3.0),
)
def test_good_from_is_the_first_day_that_is_good(
    width: float, a_day: float, sd: float
) -> None:
    growth = steady(mouth_width=width, a_day={"mouth_width": a_day}, sd=sd)
    wearer, bit = make_wearer(growth, grown=False), make_bit(130, "loose_ring")
    found = bit_on(wearer, bit)
    first = found.good_from
    if found.answer is Answer.GOOD:
        assert (first, found.from_until) == (None, None)
        return
    if first is None:
        looks = [bit_on(wearer, bit, day) for day in days_looked(ON)]
        assert all(look.answer is not Answer.GOOD for look in looks)
        return
    then = bit_on(wearer, bit, first)
    assert then.answer is Answer.GOOD
    assert bit_on(wearer, bit, first - timedelta(days=1)).answer is not Answer.GOOD
    assert found.from_chance == pytest.approx(then.chance_no)
    if found.from_until:
        over = bit_on(wearer, bit, found.from_until)
        assert over.answer is not Answer.GOOD


def test_a_bit_too_narrow_already_is_never_promised() -> None:
    growth = steady(mouth_width=131, a_day={"mouth_width": 0.01})
    found = bit_on(make_wearer(growth, grown=False), make_bit(130, "loose_ring"))
    assert found.answer is Answer.NO
    assert found.good_from is None


def test_a_grown_horse_is_promised_nothing() -> None:
    growth = steady(mouth_width=112, a_day={"mouth_width": 0.03})
    bit = make_bit(130, "loose_ring")
    assert bit_on(make_wearer(growth, grown=False), bit).good_from is not None
    assert bit_on(make_wearer(growth, grown=True), bit).good_from is None


def test_the_day_it_ends_comes_with_the_chance_of_a_no_on_it() -> None:
    growth = steady(mouth_width=119, a_day={"mouth_width": 0.02}, sd=1.5)
    wearer, bit = make_wearer(growth, grown=False), make_bit(130, "loose_ring")
    found = bit_on(wearer, bit)
    assert found.good_until
    then = bit_on(wearer, bit, found.good_until)
    assert found.until_chance == pytest.approx(then.chance_no)
    told = verdict([found])
    said = in_hundred(found.until_chance or 0.0)
    assert told.chance == f"The chance of a no on that day: {said}."


def test_good_times_are_found_to_the_day() -> None:
    def judge_on(day: date) -> Judged:
        good = IN_SPRING <= day < OVER
        return Judged(answer=Answer.GOOD if good else Answer.WATCH, chance_no=0.15)

    assert good_from(judge_on, ON) == IN_SPRING
    assert good_until(judge_on, ON, since=IN_SPRING) == OVER


@given(
    turns=st.integers(1, 700),
    bend=st.sampled_from((0.2, 1.0, 5.0)),
    jumps=st.booleans(),
    chance_no=st.booleans(),
)
def test_the_turn_is_found_to_the_day_however_the_doubt_grows(
    turns: int, bend: float, *, jumps: bool, chance_no: bool
) -> None:
    asked: list[date] = []

    def judge_on(day: date) -> Judged:
        asked.append(day)
        gone = (day - ON).days
        doubt = min(0.999, (gone / turns) ** bend) if gone < turns else 1.0
        if gone >= turns and not jumps:
            doubt = (gone / turns) ** bend
        return Judged(
            answer=Answer.GOOD if gone < turns else Answer.WATCH,
            chance_no=doubt * GOOD_NO_UNDER if chance_no else 0.0,
            chance_good=1.0 if chance_no else 1.0 - doubt * (1.0 - GOOD_AT_LEAST),
        )

    assert good_until(judge_on, ON) == ON + timedelta(days=turns)
    assert len(set(asked)) <= len(days_looked(ON)) + GUESSES + 5

    def turned(day: date) -> Judged:
        judged = judge_on(day)
        good = Answer.WATCH if judged.answer is Answer.GOOD else Answer.GOOD
        return judged._replace(answer=good)

    assert good_from(turned, ON) == ON + timedelta(days=turns)


GOOD = Finding(
    item="Hazel",
    kind="bridle",
    part="browband",
    answer=Answer.GOOD,
    why="",
    good_until=date(2027, 10, 1),
    until_chance=0.21,
)
COMING = Finding(
    item="Hazel",
    kind="bridle",
    part="cheekpieces",
    answer=Answer.WATCH,
    why="",
    good_from=date(2027, 3, 1),
    from_chance=0.12,
    from_until=date(2028, 5, 1),
)


def test_an_item_is_good_while_all_its_parts_are() -> None:
    both = stretch_of([GOOD, COMING])
    assert from_words(both) == "Likely good from 1 Mar 2027 until 1 Oct 2027."
    assert chance_words(both, named=True) == (
        "The chance of a no of the cheekpieces on the first day: 12 in 100."
    )
    too_late = replace(COMING, good_from=date(2027, 10, 1))
    assert stretch_of([GOOD, too_late]) is None


def test_what_becomes_good_part_by_part_is_good_from_the_last_of_them() -> None:
    sooner = replace(COMING, part="noseband", good_from=date(2027, 2, 1))
    for parts in ([sooner, COMING], [COMING, sooner]):
        found = stretch_of(parts)
        assert found is not None
        assert (found.start, found.end) == (date(2027, 3, 1), date(2028, 5, 1))
        assert found.chances == (("cheekpieces", 0.12),)


def test_of_parts_that_end_on_one_day_the_greatest_chance_of_a_no_is_told() -> None:
    surer = replace(GOOD, part="noseband", until_chance=0.05)
    for parts in ([surer, GOOD], [GOOD, surer]):
        assert verdict(parts).chance == (
            "The chance of a no of the browband on that day: 21 in 100."
        )


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "under 1 in 100"),
        (0.004, "under 1 in 100"),
        (0.2, "20 in 100"),
        (0.99, "99 in 100"),
        (0.997, "over 99 in 100"),
    ],
)
def test_a_chance_is_never_said_to_be_nothing_nor_certain(
    chance: float, said: str
) -> None:
    assert in_hundred(chance) == said


def test_what_is_not_known_or_never_good_promises_nothing() -> None:
    for other in (
        replace(COMING, answer=Answer.NOT_KNOWN, good_from=None),
        replace(COMING, answer=Answer.NO, good_from=None),
    ):
        assert stretch_of([GOOD, other, COMING]) is None
        told = verdict([GOOD, other])
        assert (told.coming, told.chance) == ("", "")


def test_the_part_that_ends_first_is_named_with_its_chance() -> None:
    later = replace(GOOD, part="noseband", good_until=date(2028, 1, 1))
    told = verdict([later, GOOD])
    assert told.until == date(2027, 10, 1)
    assert told.chance == "The chance of a no of the browband on that day: 21 in 100."
    assert told.coming == ""
