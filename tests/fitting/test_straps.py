"""Straps about the head: which length is good for which body, and what is asked."""

from __future__ import annotations

import pytest

from fitting.fit import Answer, MadeUp, Part, Tack, fits
from fitting.fit.answers import Window
from fitting.fit.clearances import STRAPS
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import Seen, Tried, TryOn
from tests.fitting.making_fit import (
    BORN,
    GOOD,
    NO,
    ON,
    UNKNOWN,
    WATCH,
    YOUNG,
    make_wearer,
    steady,
)
from tests.fitting.making_straps import (
    KIND_OF,
    MEASURE_OF,
    NOSEBAND,
    of_parts,
    rule_of_strap,
    sized,
    strap,
    strap_on,
    strap_over,
)


@pytest.mark.parametrize(
    ("part", "room_mm", "answer"),
    [
        # the windows as they are laid down, edge by edge
        *(("noseband", room, GOOD) for room in (30, 42, 55)),
        *(("noseband", room, WATCH) for room in (0, 29.5, 55.5, 80)),
        *(("noseband", room, NO) for room in (-1, 80.5)),
        *(("browband", room, GOOD) for room in (10, 30, 50)),
        *(("browband", room, WATCH) for room in (0, 9.5, 50.5, 70)),
        *(("browband", room, NO) for room in (-1, 70.5)),
        *(("throatlash", room, GOOD) for room in (90, 110, 130)),
        *(("throatlash", room, WATCH) for room in (70, 89.5, 130.5, 160)),
        *(("throatlash", room, NO) for room in (69, 160.5)),
    ],
)
def test_a_strap_answers_by_its_room_over_the_body(
    part: str, room_mm: float, answer: Answer
) -> None:
    assert strap_over(part, 600 + room_mm, 600).answer is answer


def test_the_lengths_of_strap_that_would_be_good_are_named() -> None:
    found = strap_over("noseband", 700, 600)
    assert (found.needs_from_mm, found.needs_to_mm) == (630, 655)
    crown = strap_over("crown", 700, 1000)  # it lies along 880 of the head
    assert (crown.needs_from_mm, crown.needs_to_mm) == (820, 940)


@pytest.mark.parametrize("part", sorted(KIND_OF))
def test_a_strap_that_cannot_be_done_up_says_which_way(part: str) -> None:
    _, share = MEASURE_OF[part]
    wearer = make_wearer(sized(part, 600.0 / share))
    for length, loose in ((400.0, False), (1000.0, True)):
        item = strap(part, length, holes=3, spacing_mm=20)
        found, rule = strap_on(wearer, item), rule_of_strap(wearer, item)
        hole, mm = (3, length - 40 - 600) if loose else (1, 600 - length)
        assert (found.answer, found.hole) == (NO, None)
        assert (
            f"hole {hole} of 3, {mm:.0f} mm {'more' if loose else 'less'}" in found.why
        )
        assert found.why.endswith(f": {rule.loose if loose else rule.tight}.")


@pytest.mark.parametrize("part", sorted(KIND_OF))
def test_a_body_never_measured_is_asked_for_and_never_good(part: str) -> None:
    measure, _ = MEASURE_OF[part]
    growth = sized(part, 560.0, measured=False)
    found = strap_on(make_wearer(growth), strap(part, 600))
    asks = {
        "nose_round": "round the nose",
        "brow": "brow",
        "throat_round": "round the throat",
        "head_length": "head length",
    }
    assert (found.answer, found.ask) == (UNKNOWN, asks[measure])
    assert found.why.endswith("was never measured, and it was not put on lately.")


@pytest.mark.parametrize(
    ("part", "ask"),
    [
        (Part(part="noseband"), "length of the noseband"),
        (Part(part="browband"), "length of the browband"),
        (Part(part="throatlash"), "length of the throatlash"),
        (
            Part(part="noseband", longest_mm=680, holes=7),
            "hole spacing of the noseband",
        ),
        (Part(part="noseband", longest_mm=680), "the shortest of the noseband"),
        (Part(part="noseband", shortest_mm=580), "the longest of the noseband"),
        (
            Part(part="noseband", length_mm=650, holes=7, spacing_mm=20),
            "the hole the noseband was measured on",
        ),
        (
            Part(part="noseband", longest_mm=120, holes=7, spacing_mm=20),
            "hole spacing of the noseband",
        ),
    ],
)
def test_a_size_not_written_down_is_asked_for_and_never_good(
    part: Part, ask: str
) -> None:
    growth = steady(nose_round=600, brow=380, throat_round=780)
    found = strap_on(make_wearer(growth), of_parts("bridle", part))
    assert (found.answer, found.ask) == (UNKNOWN, ask)
    assert found.cautions


def test_a_nose_known_loosely_is_watch_near_the_end_of_the_strap() -> None:
    wearer = make_wearer(steady(nose_round=672, sd=8.0))
    found = strap_on(wearer, of_parts("bridle", NOSEBAND))
    assert found.answer is WATCH
    # 8 mm or one SD until it is shorter than the nose
    assert found.chance_no == pytest.approx(0.157, abs=0.005)


def test_a_set_lends_its_straps_from_several_items() -> None:
    bridle = of_parts("bridle", NOSEBAND)
    band = Tack(
        name="Spare", kind="bridle", parts=(Part(part="browband", length_mm=400),)
    )
    made = MadeUp(name="Made", parts=(("noseband", bridle), ("browband", band)))
    wearer = make_wearer(steady(nose_round=600, brow=370))
    found = fits(wearer, (), (made,), ON)
    assert [(one.part, one.answer) for one in found] == [
        ("noseband", GOOD),
        ("browband", GOOD),
    ]


@pytest.mark.parametrize(
    ("part", "kind", "window"),
    [
        ("nose", "headcollar", STRAPS["young_headcollar_nose"]),
        ("crown", "headcollar", STRAPS["headcollar_crown"]),
        ("jowl", "headcollar", STRAPS["headcollar_jowl"]),
        ("nose", "cavesson", STRAPS["cavesson_nose"]),
        ("crown", "cavesson", STRAPS["cavesson_crown"]),
        ("jowl", "cavesson", STRAPS["cavesson_jowl"]),
    ],
)
@pytest.mark.parametrize(
    ("seen", "kind_of_bound", "way"),
    [
        ("too_short", "at_least", 1),
        ("too_long", "at_most", -1),
        ("sits_right", "about", 0),
    ],
)
def test_a_headcollar_or_cavesson_teaches_the_size_of_the_head(
    part: str, kind: str, window: Window, seen: Seen, kind_of_bound: str, way: int
) -> None:
    item = strap(part, 700, holes=5, spacing_mm=20, kind=kind)
    tried = Tried(part=part, seen=seen, hole=2)
    word = TryOn(on=ON, item=item.name, how="worn", parts=(tried,))
    (bound,) = bounds_of(YOUNG, TriedOn(tryons=(word,), tack=(item,)))
    measure, share = MEASURE_OF[part]
    assert (bound.measure, bound.kind) == (measure, kind_of_bound)
    middle = (window.good_from + window.good_to) / 2
    half = (window.good_to - window.good_from) / 2
    assert bound.value == pytest.approx((680 - middle + way * half) / share)
    assert bound.sigma == pytest.approx(half / share)
    assert bound.on > BORN
