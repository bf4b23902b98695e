"""Findings as a page tells them: what is said at once, and what is folded away."""

from __future__ import annotations

from typing import cast

from fitting.fit import Answer, Part, fits
from fitting.growth import Growth
from fitting.told import Verdict, verdict
from tests.fitting.making_fit import ON, Steady, make_bridle, make_wearer, steady


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
