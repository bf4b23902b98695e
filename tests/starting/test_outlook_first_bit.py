"""What a first bit waits for, and what holds it back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from fitting.fit import Answer
from starting.gates import GateAnswer, Off, RestSpan
from starting.progress import Recorded
from tests.starting.making_first_bit import BIT, BRIDLE, look, ready_for_a_bit
from tests.starting.making_outlook import LAST_WEEK, gate


def test_a_filly_with_everything_done_may_have_her_first_bit() -> None:
    outlook = look(ready_for_a_bit())
    assert [s.stage for s in outlook.can_do_now][:1] == ["mouthing"]
    assert "Small eggbutt" in outlook.can_do_now[0].wear
    mouthing = outlook.stage("mouthing")
    assert mouthing is not None
    assert (mouthing.state, mouthing.may_start) == ("open", True)


@pytest.mark.parametrize(
    ("without", "held_by"),
    [
        ({"care": ()}, "teeth"),
        ({"sessions": ()}, "stages_before"),
        ({"foaled": None}, "age"),
        ({"measured": ()}, "fresh:mouth_width"),
        ({"off": (Off(start=LAST_WEEK, why="lame", cleared_by="vet"),)}, "off_work"),
        ({"rests": (RestSpan(start=LAST_WEEK, end=None),)}, "rest"),
    ],
)
def test_each_thing_missing_holds_the_first_bit_back(
    without: dict[str, object], held_by: str
) -> None:
    horse = ready_for_a_bit()
    if "foaled" in without:
        young = replace(horse.foaled, first=date(2024, 8, 1), last=date(2024, 8, 1))
        without = {"foaled": young}
    outlook = look(replace(horse, **without))  # type: ignore[arg-type]
    mouthing = outlook.stage("mouthing")
    assert mouthing is not None
    assert not mouthing.may_start
    assert gate(outlook, "mouthing", held_by) is not GateAnswer.MET
    assert "mouthing" not in [s.stage for s in outlook.can_do_now]


def test_no_bit_that_fits_holds_the_first_bit_back() -> None:
    wide = replace(BIT, parts=(replace(BIT.parts[0], length_mm=140.0),))
    outlook = look(ready_for_a_bit(), tack=(wide, BRIDLE))
    assert gate(outlook, "mouthing", "fit:bit") is GateAnswer.SHUT
    assert any(
        f.answer is Answer.NO and f.item == "Small eggbutt" for f in outlook.fits
    )


def test_november_holds_the_roller_to_spring_but_not_under_cover() -> None:
    outdoors = look(ready_for_a_bit()).stage("roller")
    assert outdoors is not None
    season = next(g for g in outdoors.gates if g.gate == "season")
    assert (season.answer, season.opens_on) == (GateAnswer.CAUTION, date(2027, 3, 1))
    assert outdoors.start is not None
    assert outdoors.start >= date(2027, 3, 1)
    under = look(ready_for_a_bit(), covered=True).stage("roller")
    assert under is not None
    assert "season" not in [g.gate for g in under.gates if g.answer != "met"]
    assert under.start is not None
    assert under.start < date(2027, 3, 1)


def test_a_bit_lasts_until_a_day_and_the_band_says_why() -> None:
    outlook = look(ready_for_a_bit())
    bit = next(f for f in outlook.fits if f.item == "Small eggbutt")
    mouth = outlook.measure("mouth_width")
    assert bit.answer is Answer.GOOD
    assert mouth is not None
    assert mouth.now is not None
    assert mouth.grown is not None
    assert mouth.now.p5 < 105 < mouth.now.p95
    assert mouth.grown.p50 > mouth.now.p50


def test_a_left_out_step_that_is_needed_leaves_the_next_without_a_day() -> None:
    horse = ready_for_a_bit()
    left_out = Recorded(stage="cloth_and_ropes", state="left_out", on=LAST_WEEK)
    others = tuple(r for r in horse.records if r.stage != "cloth_and_ropes")
    outlook = look(replace(horse, records=(*others, left_out)))
    roller = outlook.stage("roller")
    assert roller is not None
    assert roller.start is None
    assert gate(outlook, "roller", "stages_before") is GateAnswer.SHUT
