"""An item that goes back too soon, and one that two horses want in the same weeks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from fitting.wanted import Peg
from fitting.wanted.clashes import Wish, clash_words, same_weeks, wishes_of
from fitting.wanted.telling import back_words
from tests.fitting.making_fit import make_bit
from tests.fitting.making_wanted import NEEDED, growing, need, wanted_for, wearer_of

MOUTH = growing({"mouth_width": 122})
BIT = make_bit(127)
BACK = NEEDED - timedelta(days=9)
ON_LOAN = Peg(item=BIT.name, owner="Old Marl", lent_to="Teasel", back_by=BACK)


def test_what_is_lent_and_goes_back_before_it_is_needed_is_the_reason() -> None:
    wearer = wearer_of(MOUTH)
    assert wearer.name == ON_LOAN.lent_to
    (one,) = wanted_for(wearer, need("bit"), tack=(BIT,), pegs=(ON_LOAN,)).wanted
    said = f"{BACK.day} {BACK:%b %Y}"
    told = f"{BIT.name} is good then, but goes back by {said}: ask whether it may stay."
    assert back_words([one]) == told


def test_what_goes_back_afterwards_or_would_not_fit_is_no_reason() -> None:
    wearer = wearer_of(MOUTH)
    later = replace(ON_LOAN, back_by=NEEDED)
    assert wanted_for(wearer, need("bit"), tack=(BIT,), pegs=(later,)).wanted == ()
    wide = make_bit(150)
    (one,) = wanted_for(wearer, need("bit"), tack=(wide,), pegs=(ON_LOAN,)).wanted
    assert back_words([one]) == ""
    elsewhere = replace(ON_LOAN, lent_to="Bran", back_by=None)
    (one,) = wanted_for(wearer, need("bit"), tack=(BIT,), pegs=(elsewhere,)).wanted
    assert back_words([one]) == ""


def wish(horse: str, start: date, until: date | None, item: str = "Snaffle") -> Wish:
    return Wish(horse=horse, item=item, start=start, until=until)


MARCH, APRIL, MAY, JUNE = (date(2027, month, 1) for month in (3, 4, 5, 6))
TANSY = wish("Tansy", APRIL, JUNE)


def test_two_who_want_an_item_in_the_same_weeks_are_named_by_day() -> None:
    bran = wish("Bran", MARCH, MAY)
    (said,) = clash_words([TANSY], [TANSY, bran])
    assert said == (
        "Bran and Tansy want Snaffle in the same weeks: Bran comes first, from 1 Mar"
        " 2027, Tansy from 1 Apr 2027."
    )
    assert clash_words([bran], [TANSY, bran]) == clash_words([TANSY], [TANSY, bran])
    (said,) = clash_words([TANSY], [wish("Bran", APRIL, None)])
    assert said.endswith("both from 1 Apr 2027, so only one of them has it.")


def test_one_after_the_other_and_other_items_are_no_clash() -> None:
    for other in (
        wish("Bran", MARCH, APRIL),  # done the day Tansy begins
        wish("Bran", JUNE, None),
        wish("Bran", APRIL, JUNE, item="Roller"),
        TANSY,
    ):
        assert not same_weeks(TANSY, other)
        assert not same_weeks(other, TANSY)
        assert clash_words([TANSY], [other]) == ()


def test_a_wish_is_what_could_be_lent_from_the_day_it_is_first_needed() -> None:
    peg = Peg(item=BIT.name, owner="Old Marl")
    needs = (need("bit"), need("bit", NEEDED + timedelta(days=30)))
    wants = wanted_for(wearer_of(MOUTH), *needs, tack=(BIT,), pegs=(peg,))
    (found,) = wishes_of("Teasel", wants.wanted)
    assert (found.item, found.start) == (BIT.name, NEEDED)
