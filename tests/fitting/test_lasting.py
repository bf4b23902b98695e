"""Until which day tack is good: the first day that is not, looked for and found."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer
from fitting.fit.answers import Judged
from fitting.fit.lasting import days_looked, good_until, last_day_looked
from tests.fitting.making_fit import ON, bit_on, make_bit, make_wearer, steady


@given(
    width=st.floats(100, 125),
    a_day=st.floats(0.0, 0.06),
    sd=st.floats(0.3, 4.0),
)
def test_good_until_is_the_first_day_that_is_no_longer_good(
    width: float, a_day: float, sd: float
) -> None:
    growth = steady(mouth_width=width, a_day={"mouth_width": a_day}, sd=sd)
    wearer, bit = make_wearer(growth, grown=False), make_bit(130, "loose_ring")
    found = bit_on(wearer, bit)
    until = found.good_until
    if found.answer is not Answer.GOOD:
        assert (until, found.looked_until) == (None, None)
    elif until is None:
        assert found.looked_until == last_day_looked(ON)
        assert bit_on(wearer, bit, last_day_looked(ON)).answer is Answer.GOOD
    else:
        assert found.looked_until is None
        assert bit_on(wearer, bit, until).answer is not Answer.GOOD
        assert bit_on(wearer, bit, until - timedelta(days=1)).answer is Answer.GOOD


def test_good_until_agrees_with_asking_every_day() -> None:
    over = ON + timedelta(days=337)

    def judge_on(day: date) -> Judged:
        if day < over:
            return Judged(answer=Answer.GOOD, chance_no=0.0)
        return Judged(answer=Answer.WATCH, chance_no=0.3)

    assert good_until(judge_on, ON) == over


def test_a_dip_without_a_chance_of_a_no_is_found_where_good_was_in_doubt() -> None:
    dips, mends = ON + timedelta(days=140), ON + timedelta(days=182)

    def judge_on(day: date) -> Judged:
        if dips <= day < mends:  # it only just fits for some weeks
            return Judged(answer=Answer.WATCH, chance_no=0.0, chance_good=0.45)
        return Judged(answer=Answer.GOOD, chance_no=0.0, chance_good=0.7)

    assert good_until(judge_on, ON) == dips


def test_looks_are_left_out_only_where_hardly_a_doubt_is_left() -> None:
    asked: list[date] = []

    def judge_on(day: date, chance_no: float) -> Judged:
        asked.append(day)
        return Judged(answer=Answer.GOOD, chance_no=chance_no)

    counts = {}
    for chance_no in (0.0, 0.05, 0.15):
        asked.clear()
        assert good_until(partial(judge_on, chance_no=chance_no), ON) is None
        counts[chance_no] = len(set(asked))
    every = len(days_looked(ON))
    assert counts[0.15] == every
    assert every / 8 < counts[0.0] < counts[0.05] < every


def test_good_is_looked_for_over_two_years_and_no_further() -> None:
    days = days_looked(ON)
    assert days[0] == ON
    assert days[-1] == last_day_looked(ON) == date(2028, 3, 1)
    good = Judged(answer=Answer.GOOD, chance_no=0.15)
    assert good_until(lambda _: good, ON) is None
