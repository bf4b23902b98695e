"""Findings as a page tells them: what is said at once, and what is folded away."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import cast

from fitting.fit import Answer, Finding, Part, fits
from fitting.growth import Growth
from fitting.told import Verdict, hole_words, spare_words, verdict
from tests.fitting.making_fit import ON, Steady, make_bridle, make_wearer, steady

ENDS = date(2027, 10, 1)
CHEEKS = Finding(
    item="Hazel",
    kind="bridle",
    part="cheekpieces",
    answer=Answer.GOOD,
    why="Right.",
    good_until=ENDS,
    hole=2,
    spare_longer=1,
    spare_shorter=5,
)
BROW = Finding(
    item="Hazel",
    kind="bridle",
    part="browband",
    answer=Answer.GOOD,
    why="Right.",
    looked_until=date(2028, 3, 1),
)


def told_of(browband: float | None, sizes: dict[str, float]) -> Verdict:
    band = Part(part="browband", length_mm=browband)
    wearer = make_wearer(cast("Growth", Steady(sizes=sizes)))
    return verdict(fits(wearer, (make_bridle(more=(band,)),), (), ON))


def test_the_part_that_makes_it_a_no_says_why_at_once() -> None:
    told = told_of(300.0, {"head_length": 1040.0, "brow": 380.0})
    assert told.answer is Answer.NO
    (line,) = told.against
    assert line.parts == "browband"
    assert "too short" in line.why


def test_where_nothing_is_against_it_nothing_is_said_twice() -> None:
    assert told_of(400.0, {"head_length": 1040.0, "brow": 380.0}).against == ()
    assert told_of(400.0, {"head_length": 1040.0}).against == ()


def test_what_to_measure_is_listed_as_it_is_said() -> None:
    assert told_of(400.0, {}).ask == "measure head length and brow"
    noseband = Part(part="noseband", shortest_mm=560.0, longest_mm=690.0)
    band = Part(part="browband", length_mm=400.0)
    bridle = make_bridle(more=(band, noseband))
    told = verdict(fits(make_wearer(steady()), (bridle,), (), ON))
    assert told.ask == "measure head length, brow and round the nose"


def test_the_holes_left_to_let_down_are_told_before_those_to_take_up() -> None:
    told = verdict([CHEEKS, BROW])
    assert told.hole == 2
    assert spare_words(told) == "1 to let down, 5 to take up"
    assert hole_words([CHEEKS, BROW]) == " on hole 2"
    assert spare_words(verdict([BROW])) == ""


def test_only_what_is_good_is_told_until_when() -> None:
    good = verdict([CHEEKS, BROW])
    assert (good.until, good.looked_until) == (ENDS, None)
    assert verdict([BROW]).looked_until == date(2028, 3, 1)
    for answer in (Answer.WATCH, Answer.NOT_KNOWN, Answer.NO):
        told = verdict([CHEEKS, replace(BROW, answer=answer, looked_until=None)])
        assert (told.answer, told.until, told.looked_until) == (answer, None, None)


def test_parts_on_holes_of_their_own_are_told_one_by_one() -> None:
    crown = replace(CHEEKS, part="crown", kind="headcollar")
    nose = replace(crown, part="nose", hole=4)
    assert verdict([crown, nose]).hole is None
    assert hole_words([crown, nose]) == ", crown on hole 2 and nose on hole 4"
