"""Who wears what now, so that nothing is taken off another horse unasked."""

from __future__ import annotations

from datetime import date, timedelta

from fitting.fit import MadeUp, Part, Tack
from fitting.tryons import How, TryOn
from fitting.worn_now import last_worn_by, taken_from, uses_of
from tests.fitting.making_fit import ON, make_bit, make_bridle, make_set

BRIDLE, BIT = make_bridle(), make_bit()
SET = make_set(BRIDLE, BIT)


def put_on(item: str, days: int, how: How = "worn") -> TryOn:
    return TryOn(on=ON - timedelta(days=days), item=item, how=how, answer="good")


def worn_by(**tryons: tuple[TryOn, ...]) -> dict[str, tuple[date, str]]:
    return last_worn_by(tryons, ON)


def test_the_horse_that_had_it_on_last_wears_it() -> None:
    found = worn_by(Ash=(put_on("Slip", 9),), Bramling=(put_on("Slip", 3),))
    assert found == {"Slip": (ON - timedelta(days=3), "Bramling")}
    found = worn_by(Ash=(put_on("Slip", 3),), Bramling=(put_on("Slip", 9),))
    assert found == {"Slip": (ON - timedelta(days=3), "Ash")}
    both = worn_by(Bramling=(put_on("Slip", 3),), Ash=(put_on("Slip", 3),))
    assert both["Slip"][1] == "Ash"  # of one day the first in the alphabet


def test_what_was_held_against_a_horse_or_worn_long_ago_or_is_to_come_is_not_worn() -> (
    None
):
    assert worn_by(Ash=(put_on("Slip", 3, "held"),)) == {}
    assert worn_by(Ash=(put_on("Slip", 57),)) == {}
    assert worn_by(Ash=(put_on("Slip", 56),)) != {}
    assert worn_by(Ash=(put_on("Slip", -1),)) == {}


def taken(horse: str, **tryons: tuple[TryOn, ...]) -> frozenset[tuple[str, str]]:
    uses = uses_of((BRIDLE, BIT), (SET,), worn_by(**tryons))
    return taken_from(uses, horse)


def test_another_horse_s_set_takes_its_parts_and_one_s_own_takes_none() -> None:
    parts = {
        ("Hazel bridle", "headpiece"),
        ("Hazel bridle", "cheekpieces"),
        ("Steel snaffle", "mouthpiece"),
    }
    worn = (put_on("First bridle", 3),)
    assert taken("Ash", Bramling=worn) == parts
    assert taken("Bramling", Bramling=worn) == frozenset()
    assert taken("Ash") == frozenset()


def test_an_item_worn_by_itself_takes_every_part_of_it() -> None:
    assert taken("Ash", Bramling=(put_on("Steel snaffle", 3),)) == {
        ("Steel snaffle", "mouthpiece")
    }


def test_a_bridle_measured_whole_is_taken_whole() -> None:
    part = Part(part="whole", length_mm=960.0)
    whole = Tack(name="Old bridle", kind="bridle", parts=(part,))
    made = MadeUp(name="Old set", parts=(("cheekpieces", whole), ("bit", BIT)))
    uses = uses_of((whole, BIT), (made,), worn_by(Bramling=(put_on("Old set", 1),)))
    assert taken_from(uses, "Ash") == {
        ("Old bridle", "whole"),
        ("Steel snaffle", "mouthpiece"),
    }
