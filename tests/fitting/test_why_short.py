"""Why an item is a no, or only just, in as few words as a list has."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer, Finding, Part, Tack, fits
from fitting.told import verdict
from fitting.tryons import Seen, Tried, TryOn
from fitting.who_fits import item_looks
from fitting.why_short import why_short
from tests.fitting.making_fit import (
    ON,
    bit_on,
    hole_on,
    make_bit,
    make_bridle,
    make_wearer,
    steady,
)
from tests.fitting.making_straps import MEASURE_OF, strap_over

GOOD, WATCH, NO = Answer.GOOD, Answer.WATCH, Answer.NO
SMALL = {"too short", "too tight"}
LARGE = {"too long", "too loose"}


def one(kind: str, word: str, sizes: dict[str, Any], **part: Any) -> Finding:
    item = Tack(name="On the peg", kind=kind, parts=(Part(part=word, **part),))
    (found,) = fits(make_wearer(steady(**sizes)), (item,), (), ON)
    return found


@pytest.mark.parametrize(
    ("length_mm", "thick_mm", "short"),
    [
        (120.0, 15.0, "too narrow"),
        (127.0, 15.0, ""),
        (137.0, 15.0, "roomy"),
        (160.0, 15.0, "too wide"),
        (127.0, 40.0, "too thick"),
        (127.0, 3.0, "too thin"),
        (120.0, 40.0, "too narrow"),
    ],
)
def test_a_bit_says_which_way_it_does_not_fit(
    length_mm: float, thick_mm: float, short: str
) -> None:
    wearer = make_wearer(steady(mouth_width=125.0))
    found = bit_on(wearer, make_bit(length_mm, thickness_mm=thick_mm))
    assert found.short == short


def test_a_mouth_that_is_hardly_known_is_not_sure() -> None:
    found = bit_on(make_wearer(steady(mouth_width=125.0, sd=6.0)), make_bit())
    assert (found.answer, found.short) == (WATCH, "not sure")


@pytest.mark.parametrize(
    ("hole", "short"),
    [
        (4, ""),
        (1, ""),
        (0, "1 hole too short"),
        (-1, "2 holes too short"),
        (8, "1 hole too long"),
        (9, "2 holes too long"),
    ],
)
def test_a_bridle_says_how_many_holes_it_lacks(hole: int, short: str) -> None:
    """Of seven holes; the head is one that the hole named would sit right on."""
    apart = 16.0
    bridle = make_bridle(holes=7, spacing_mm=apart)
    known = make_wearer(steady(mouth_width=125.0, head_length=900.0))
    on_first = hole_on(known, bridle).reach_to_mm
    assert on_first is not None
    head = on_first - 2 * apart * (hole - 1)
    found = hole_on(make_wearer(steady(mouth_width=125.0, head_length=head)), bridle)
    assert found.short == short
    assert (found.answer is NO) == bool(short)


@given(part=st.sampled_from(sorted(MEASURE_OF)), off=st.floats(-300, 300))
def test_every_strap_that_is_a_no_says_which_way(part: str, off: float) -> None:
    body = 620.0
    found = strap_over(part, body + off, body)
    if found.answer is NO:
        size, least = found.size_mm, found.needs_from_mm
        assert size is not None
        assert least is not None
        assert found.short in (SMALL if size < least else LARGE)
    elif found.answer is GOOD:
        assert found.short == ""
    else:
        assert found.short in {"snug", "roomy"}


@pytest.mark.parametrize(
    ("kind", "part", "measure", "body", "short"),
    [
        ("roller", "strap", "heart_girth", 1900.0, "too short"),
        ("roller", "strap", "heart_girth", 1200.0, "too long"),
        ("roller", "strap", "heart_girth", 1690.0, "little to let out"),
        ("saddle", "panel", "back_length", 1300.0, "too long"),
        ("rug", "back_seam", "rug_length", 1700.0, "too short"),
        ("girth", "strap", "girth_path", 1000.0, "too long"),
    ],
)
def test_what_goes_round_the_body_says_so_too(
    kind: str, part: str, measure: str, body: float, short: str
) -> None:
    sizes = {"length_mm": 1500.0}
    if kind == "roller":
        sizes = {"shortest_mm": 1500.0, "longest_mm": 1700.0, "holes": 5}
    assert one(kind, part, {measure: body}, **sizes).short == short


@pytest.mark.parametrize(
    ("seen", "answer", "short"),
    [
        ("too_short", NO, "too short when put on"),
        ("too_long", NO, "too long when put on"),
        ("rubs", WATCH, "rubs"),
        ("wrong_place", WATCH, "in the wrong place"),
        ("sits_right", GOOD, ""),
    ],
)
def test_what_was_seen_on_the_horse_is_the_reason(
    seen: Seen, answer: Answer, short: str
) -> None:
    tryon = TryOn(
        on=ON, item="Steel snaffle", how="worn", parts=(_tried("mouthpiece", seen),)
    )
    wearer = make_wearer(steady(mouth_width=125.0), tryons=(tryon,))
    found = bit_on(wearer, make_bit())
    assert (found.answer, found.short) == (answer, short)


def test_a_gap_seen_too_small_is_the_reason() -> None:
    part = Part(part="noseband", longest_mm=680, holes=8, spacing_mm=15)
    item = Tack(name="On the peg", kind="bridle", parts=(part,))
    tried = Tried(part="noseband", seen="sits_right", hole=2, gap_mm=3.0)
    tryon = TryOn(on=ON, item="On the peg", how="worn", parts=(tried,))
    (found,) = fits(
        make_wearer(steady(nose_round=620), tryons=(tryon,)), (item,), (), ON
    )
    assert (found.answer, found.short) == (NO, "too tight at the front")


def _tried(part: str, seen: Seen) -> Tried:
    return Tried(part=part, seen=seen)


def part(word: str, answer: Answer, short: str = "") -> Finding:
    return Finding(
        item="Bridle", kind="bridle", part=word, answer=answer, why="", short=short
    )


def test_a_part_is_named_where_there_are_others() -> None:
    brow, nose = part("browband", NO, "too short"), part("noseband", NO, "too short")
    fine = part("cheekpieces", GOOD)
    assert why_short((brow,), NO) == "too short"
    assert why_short((brow, nose), NO) == "too short"
    assert why_short((fine, brow), NO) == "browband too short"
    assert why_short((fine, brow, nose), NO) == "browband and noseband too short"
    loose = part("throatlash", NO, "too loose")
    assert why_short((fine, brow, loose), NO) == (
        "browband too short, throatlash too loose"
    )
    assert why_short((fine, brow, nose, loose), NO) == (
        "browband too short, and 2 parts more"
    )


def test_only_the_parts_that_decide_are_given_as_reasons() -> None:
    parts = (part("browband", NO, "too short"), part("noseband", WATCH, "snug"))
    assert why_short(parts, NO) == "browband too short"
    assert why_short(parts, GOOD) == ""
    assert why_short((part("browband", NO),), NO) == ""


def test_lists_and_pages_are_given_the_same_reason() -> None:
    parts = (part("cheekpieces", GOOD), part("browband", NO, "too short"))
    (look,) = item_looks(parts)
    assert look.more == verdict(parts).short == "browband too short"
