"""What could be borrowed, and what is away with another horse that day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.fit import Part, Tack
from fitting.wanted import Peg
from fitting.wanted.telling import back_words, offer_words
from tests.fitting.making_fit import ON, make_bit, make_bridle, make_set
from tests.fitting.making_wanted import (
    MOUTH,
    NEEDED,
    growing,
    need,
    one,
    wanted_for,
    wearer_of,
)


def test_what_is_somebody_elses_is_wanted_and_named_with_its_lender() -> None:
    bit = make_bit(125.0)
    theirs = Peg(item=bit.name, owner="Old Fennel")
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(bit,), pegs=(theirs,)
    )
    (offer,) = one(wants.wanted).borrow
    assert (offer.item, offer.owner) == (bit.name, "Old Fennel")


def test_of_what_could_be_lent_that_which_is_good_for_longest_stands_first() -> None:
    growth = growing(MOUTH, {"mouth_width": 0.01})
    bits = tuple(make_bit(mm, name=f"{mm} mm") for mm in (123.0, 127.0, 125.0))
    pegs = tuple(Peg(item=bit.name, owner="Old Fennel") for bit in bits)
    wants = wanted_for(wearer_of(growth), need("bit"), tack=bits, pegs=pegs)
    offered = one(wants.wanted).borrow
    assert [offer.item for offer in offered] == ["127.0 mm", "125.0 mm", "123.0 mm"]


def test_a_bridle_is_offered_on_the_hole_that_is_good_that_day() -> None:
    growth = growing({"head_length": 1040.0}, {"head_length": 0.6})
    bridle = make_bridle()
    theirs = Peg(item=bridle.name, owner="Old Fennel")
    found = wanted_for(
        wearer_of(growth), need("bridle"), tack=(bridle,), pegs=(theirs,)
    )
    (offer,) = next(w for w in found.wanted if w.part == "whole").borrow
    assert offer.hole == 3  # today on hole 4, in 60 days for a head of 1076


@pytest.mark.parametrize(("longest", "offered"), [(900.0, True), (600.0, False)])
def test_what_is_not_taken_apart_is_lent_only_where_all_of_it_is_good(
    longest: float, *, offered: bool
) -> None:
    nose = Part(part="nose", shortest_mm=540.0, longest_mm=660.0)
    crown = Part(part="crown", shortest_mm=500.0, longest_mm=longest)
    theirs = Tack(name="Red headcollar", kind="headcollar", parts=(nose, crown))
    growth = growing({"nose_round": 560.0, "head_length": 900.0})
    found = wanted_for(
        wearer_of(growth, grown=True),
        need("headcollar"),
        tack=(theirs,),
        pegs=(Peg(item=theirs.name, owner="Jo"),),
    ).wanted
    assert {one.part for one in found} == {"nose", "crown"}
    assert all(bool(one.borrow) is offered for one in found)


@pytest.mark.parametrize(
    ("peg", "offered"),
    [
        (Peg(item="Steel snaffle", lent_to="Bramling"), False),
        (Peg(item="Steel snaffle", lent_to="Bramling", back_by=NEEDED), False),
        (
            Peg(
                item="Steel snaffle",
                owner="Sam",
                lent_to="Bramling",
                back_by=NEEDED - timedelta(days=1),
            ),
            True,
        ),
    ],
)
def test_what_is_lent_elsewhere_on_that_day_is_not_offered(
    peg: Peg, *, offered: bool
) -> None:
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(one(wants.wanted).borrow) is offered


def test_a_set_of_which_one_part_is_lent_elsewhere_does_not_do() -> None:
    growth = growing({**MOUTH, "head_length": 1040.0})
    made = make_set(make_bridle(), make_bit(125.0))
    hangs = make_bridle(), make_bit(125.0)
    bridle = Peg(item="Hazel bridle")
    away = Peg(item="Steel snaffle", lent_to="Bramling")
    here = Peg(item="Steel snaffle")
    for bit, wanted in ((here, False), (away, True)):
        wants = wanted_for(
            wearer_of(growth),
            need("bit"),
            tack=hangs,
            made_up=(made,),
            pegs=(bridle, bit),
        )
        assert bool(wants.wanted) is wanted


@pytest.mark.parametrize(
    ("owner", "back_by", "wanted", "offered"),
    [
        ("", ON - timedelta(days=1), True, False),
        ("Sam", ON - timedelta(days=1), True, False),
        ("", ON, False, False),  # due back today: here by then
        ("Sam", ON, True, True),
    ],
)
def test_what_another_horse_should_have_given_back_is_still_away(
    owner: str, back_by: date, *, wanted: bool, offered: bool
) -> None:
    peg = Peg(item="Steel snaffle", owner=owner, lent_to="Bramling", back_by=back_by)
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(wants.wanted) is wanted
    assert any(one.borrow for one in wants.wanted) is offered


@pytest.mark.parametrize(
    ("back_by", "wanted"),
    [
        (None, False),
        (NEEDED, False),
        (NEEDED - timedelta(days=1), True),
        (ON - timedelta(days=1), True),  # hers no more, if not given back yet
    ],
)
def test_what_is_lent_to_her_counts_as_hers_until_it_goes_back(
    back_by: date | None, *, wanted: bool
) -> None:
    peg = Peg(item="Steel snaffle", owner="Sam", lent_to="Teasel", back_by=back_by)
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(wants.wanted) is wanted


@pytest.mark.parametrize(
    ("throat", "besides"),
    [(None, ("throatlash",)), (700.0, ("throatlash",)), (800.0, ())],
)
def test_a_bridle_is_good_by_the_straps_that_hang_the_bit_and_says_so_of_the_rest(
    throat: float | None, besides: tuple[str, ...]
) -> None:
    sizes = {"head_length": 1040.0}
    if throat is not None:
        sizes["throat_round"] = throat
    lash = Part(part="throatlash", length_mm=910.0)
    bridle = make_bridle(more=(lash,))
    theirs = Peg(item=bridle.name, owner="Old Fennel")
    hers = replace(theirs, lent_to="Teasel", back_by=NEEDED - timedelta(days=9))
    for peg in (theirs, hers):
        found = wanted_for(
            wearer_of(growing(sizes)), need("bridle"), tack=(bridle,), pegs=(peg,)
        )
        whole = next(w for w in found.wanted if w.part == "whole")
        told_of = {(one.item, one.besides) for one in whole.borrow}
        told_of |= {(one.item, one.besides) for one in whole.goes_back}
        assert told_of == {(bridle.name, besides)}
        told = " ".join((*map(offer_words, whole.borrow), back_words([whole])))
        known = "Without its throatlash: not good by then, or not known."
        assert (known in told) is bool(besides)
