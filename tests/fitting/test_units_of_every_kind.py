"""Whatever unit a size of tack is typed in, the answer is the same, of every kind."""

from __future__ import annotations

from typing import Any, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.fit import Answer, Part, Tack, Wearer, fits
from fitting.fit.answers import Finding
from fitting.growth import Growth
from fitting.pieces import COUNTS, PARTS_OF_KIND, SIZES, asked_of, limits_of
from fitting.units import read_length
from tests.fitting.making_fit import ON, Steady, make_wearer

INCH = 25.4
BODY = {  # mm; a horse on which some of what is drawn below is good
    "mouth_width": 120.0,
    "head_length": 1040.0,
    "nose_round": 600.0,
    "brow": 360.0,
    "throat_round": 780.0,
    "heart_girth": 1700.0,
    "girth_path": 1800.0,
    "rug_length": 1750.0,
    "back_length": 440.0,
}
MIDDLES = {  # about what fits that horse (mm), by part and size
    ("mouthpiece", "length"): 126.0,
    ("mouthpiece", "thickness"): 15.0,
    ("mouthpiece", "ring"): 65.0,
    ("headpiece", "length"): 600.0,
    ("cheekpieces", "length"): 230.0,
    ("browband", "length"): 390.0,
    ("noseband", "longest"): 660.0,
    ("throatlash", "length"): 890.0,
    ("whole", "length"): 1000.0,
    ("nose", "length"): 650.0,
    ("nose", "longest"): 660.0,
    ("crown", "longest"): 950.0,
    ("jowl", "length"): 720.0,
    ("jowl", "longest"): 740.0,
    ("strap", "length"): 1820.0,
    ("strap", "longest"): 1850.0,
    ("panel", "length"): 430.0,
    ("back_seam", "length"): 1780.0,
}
WITH_RULE = sorted(set(PARTS_OF_KIND) - {"other"})


@st.composite
def eighths(draw: st.DrawFn, part: str, key: str) -> int:
    """Draw a size near what fits, in eighths of an inch."""
    low, high = limits_of(part, key)
    if key == "spacing":
        return draw(st.integers(4, 8))
    if key == "strap_width":
        return draw(st.integers(4, 8))
    middle = MIDDLES.get((part, key), (low + high) / 2)
    near = max(low, middle * 0.9), min(high, middle * 1.1)
    return draw(st.integers(*(round(mm / INCH * 8) for mm in near)))


@st.composite
def items(draw: st.DrawFn, kind: str) -> list[Tack]:
    """Draw an item as it is typed in inches, in centimetres and in millimetres."""
    by_unit: dict[str, list[Part]] = {"in": [], "cm": [], "mm": []}
    for part in PARTS_OF_KIND[kind]:
        asked = [one.key for one in asked_of(part)]
        counted: dict[str, Any] = {}
        if "holes" in asked:
            counted["holes"] = draw(st.integers(3, 9))
        if "hole" in asked:
            counted["hole"] = draw(st.integers(1, 3))
        if part == "mouthpiece":
            counted |= {"cheek": draw(st.sampled_from(["eggbutt", "loose_ring"]))}
        sizes = [key for key in asked if key in SIZES and key != "shortest"]
        typed = {key: draw(eighths(part, key)) / 8 for key in sizes}
        assert set(counted) - {"cheek"} == set(COUNTS) & set(asked)
        for unit, parts in by_unit.items():
            parts.append(Part(part=part, **counted, **_read(typed, unit)))
    return [Tack(name="Typed", kind=kind, parts=tuple(of)) for of in by_unit.values()]


def _read(inches: dict[str, float], unit: str) -> dict[str, Any]:
    """Return each size in millimetres, typed in a unit and read."""
    one = {"in": 1.0, "cm": 2.54, "mm": INCH}[unit]
    texts = {key: f"{size * one:.10g} {unit}" for key, size in inches.items()}
    return {f"{key}_mm": read_length(said, unit="cm").mm for key, said in texts.items()}


def wearer(sd: float) -> Wearer:
    return make_wearer(cast("Growth", Steady(sizes=BODY, sd=sd)))


def told(item: Tack, sd: float) -> list[tuple[object, ...]]:
    found: tuple[Finding, ...] = fits(wearer(sd), (item,), (), ON)
    return [(one.part, one.answer, one.hole, one.why, one.ask) for one in found]


@pytest.mark.parametrize("kind", WITH_RULE)
@settings(max_examples=40)
@given(data=st.data(), sd=st.sampled_from([0.01, 4.0, 25.0]))
def test_the_unit_a_size_was_typed_in_never_changes_an_answer(
    kind: str, data: st.DataObject, sd: float
) -> None:
    inches, *others = data.draw(items(kind))
    for other in others:
        assert told(other, sd) == told(inches, sd)


@pytest.mark.parametrize("kind", WITH_RULE)
def test_sizes_are_drawn_that_are_good_and_that_are_not(kind: str) -> None:
    """The test above would hold of sizes that nobody can judge."""
    answers: set[Answer] = set()

    @settings(max_examples=150, derandomize=True)
    @given(made=items(kind))
    def see(made: list[Tack]) -> None:
        answers.update(one.answer for one in fits(wearer(0.01), (made[0],), (), ON))

    see()
    # no length says that a saddle is good
    assert kind == "saddle" or Answer.GOOD in answers
    assert answers & {Answer.NO, Answer.WATCH}
