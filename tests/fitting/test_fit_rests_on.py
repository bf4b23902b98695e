"""On what an answer rests: nothing unmeasured is good, what was seen on her decides."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import pytest

from fitting.fit import Answer, Finding, Part, Tack, fits, worst
from fitting.growth import Growth
from fitting.tryons import Seen, Tried, TryOn
from tests.fitting.making_fit import (
    ON,
    Steady,
    bit_on,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    steady,
)


def test_a_measure_never_taken_is_asked_for_and_never_good() -> None:
    # growth could guess at it from the type of horse, and the guess would fit
    growth = steady(
        mouth_width=120, head_length=1040, unmeasured=("mouth_width", "head_length")
    )
    made = make_set(make_bridle(), make_bit())
    found = fits(make_wearer(growth), (), (made,), ON)
    assert [one.answer for one in found] == [Answer.NOT_KNOWN] * 3
    assert [one.ask for one in found] == ["head length", "head length", "mouth width"]


def _of(kind: str, **lengths: float) -> Tack:
    parts = (Part(part=part, length_mm=mm) for part, mm in lengths.items())
    return Tack(name=f"A {kind}", kind=kind, parts=tuple(parts))


SIZES = {
    "mouth_width": 120.0,
    "head_length": 1040.0,
    "nose_round": 600.0,
    "brow": 380.0,
    "throat_round": 900.0,
    "heart_girth": 1800.0,
    "girth_path": 1100.0,
    "back_length": 460.0,
    "rug_length": 1800.0,
}
# Tack that suits those sizes, some of every kind.
SUITS = (
    make_bit(126.0),
    make_bridle(
        more=_of("bridle", browband=410, noseband=640, throatlash=1010).parts,
    ),
    _of("headcollar", nose=640, crown=915, jowl=720),
    _of("cavesson", nose=620, crown=915, jowl=700),
    Tack(
        name="A roller",
        kind="roller",
        parts=(Part(part="strap", shortest_mm=1700, longest_mm=1900),),
    ),
    _of("girth", strap=1100),
    _of("rug", back_seam=1830),
    _of("saddle", panel=420),
)


def of_every_kind(growth: Growth, *tryons: TryOn) -> dict[tuple[str, str], Finding]:
    made = make_set(SUITS[1], SUITS[0])
    found = fits(make_wearer(growth, tryons=tryons), SUITS, (made,), ON)
    return {(one.item, one.part): one for one in found}


def test_of_a_horse_never_measured_nor_tried_on_nothing_is_good() -> None:
    measured = of_every_kind(cast("Growth", Steady(sizes=SIZES)))
    suited = {key for key, one in measured.items() if one.answer is Answer.GOOD}
    assert measured.keys() - suited == {("A saddle", "panel")}  # to be seen on first
    guessed = cast("Growth", Steady(sizes=SIZES, unmeasured=tuple(SIZES)))
    held = [
        TryOn(
            on=ON,
            item=item,
            how="held",
            parts=(Tried(part=part, seen="sits_right"),),
        )
        for item, part in measured
    ]
    for growth, tryons in ((steady(), []), (guessed, []), (guessed, held)):
        for one in of_every_kind(growth, *tryons).values():
            assert one.answer is Answer.NOT_KNOWN
            assert one.ask
            assert (one.chance_no, one.good_until, one.hole) == (None, None, None)


def test_what_was_seen_on_the_horse_decides_for_every_kind_of_tack() -> None:
    growth = cast("Growth", Steady(sizes=SIZES))
    plain = of_every_kind(growth)
    answers = {"too_short": Answer.NO, "rubs": Answer.WATCH, "sits_right": Answer.GOOD}
    for item, part in plain:
        for seen, answer in answers.items():
            tried = (Tried(part=part, seen=cast("Seen", seen)),)
            seen_on = TryOn(on=ON, item=item, how="worn", parts=tried)
            found = of_every_kind(growth, seen_on)[item, part]
            assert found.answer is answer, (item, part, seen)
            assert found.rests_on.startswith("put on 2 Mar 2026")


@pytest.mark.parametrize(
    ("bridle", "bit", "ask"),
    [
        (make_bridle(cheek_mm=None), make_bit(), "length of the cheekpieces"),
        (make_bridle(head_mm=None), make_bit(), "length of the headpiece"),
        (make_bridle(spacing_mm=None), make_bit(), "hole spacing"),
        (make_bridle(holes=0), make_bit(), "its holes"),
        (make_bridle(), make_bit(None), "length of the bit, cheek to cheek"),
        (make_bridle(), make_bit(127, None), "which cheeks the bit has"),
        (
            make_bridle(),
            make_bit(thickness_mm=None),
            "thickness of the bit, beside the ring or cheek",
        ),
    ],
)
def test_a_size_not_written_down_is_asked_for_and_never_good(
    bridle: Tack, bit: Tack, ask: str
) -> None:
    wearer = make_wearer(steady(mouth_width=120, head_length=1040))
    found = fits(wearer, (), (make_set(bridle, bit),), ON)
    assert worst(found) is Answer.NOT_KNOWN
    assert ask in {one.ask for one in found if one.answer is Answer.NOT_KNOWN}


def test_a_stale_measurement_keeps_its_answer_and_says_so() -> None:
    growth = steady(mouth_width=120)
    found = bit_on(make_wearer(growth, stale=("mouth_width",)), make_bit())
    assert (found.answer, found.stale) == (Answer.GOOD, True)
    assert not bit_on(make_wearer(growth), make_bit()).stale


def test_a_measurement_whose_standing_is_not_told_counts_as_stale() -> None:
    wearer = replace(make_wearer(steady(mouth_width=120)), standing=())
    assert bit_on(wearer, make_bit()).stale
