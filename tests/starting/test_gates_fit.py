from __future__ import annotations

from datetime import date

import pytest

from fitting.fit import Answer, Finding
from starting.gates import GateAnswer, may_start
from tests.starting.making_gates import BRIDLE, MOUTHING, finding, gate

GOOD, WATCH, NO, UNKNOWN = Answer.GOOD, Answer.WATCH, Answer.NO, Answer.NOT_KNOWN


def bit(name: str, length: Answer, thickness: Answer = GOOD) -> tuple[Finding, ...]:
    return (
        finding(name, "bit", "length", length, hole=None),
        finding(name, "bit", "thickness", thickness),
    )


@pytest.mark.parametrize(
    ("length", "thickness", "answer"),
    [
        (GOOD, GOOD, GateAnswer.MET),
        (GOOD, WATCH, GateAnswer.CAUTION),
        (WATCH, GOOD, GateAnswer.CAUTION),
        (GOOD, NO, GateAnswer.SHUT),
        (WATCH, UNKNOWN, GateAnswer.NOT_KNOWN),
        (UNKNOWN, GOOD, GateAnswer.NOT_KNOWN),
        (UNKNOWN, NO, GateAnswer.SHUT),
    ],
)
def test_a_bit_is_as_good_as_its_worst_part(
    length: Answer, thickness: Answer, answer: GateAnswer
) -> None:
    asked = gate("fit:bit", MOUTHING, findings=bit("Eggbutt", length, thickness))
    assert asked.answer is answer


def test_one_good_bit_among_others_is_enough_and_is_named() -> None:
    findings = bit("Pony dee", NO) + bit("Eggbutt", GOOD) + bit("Hunter", UNKNOWN)
    asked = gate("fit:bit", MOUTHING, findings=findings)
    assert asked.answer is GateAnswer.MET
    assert asked.why == "Eggbutt fits Bracken."
    assert asked.record == "item:Eggbutt"


def test_every_bit_too_small_shuts_and_no_reason_passes() -> None:
    asked = gate("fit:bit", MOUTHING, findings=bit("A", NO) + bit("B", NO))
    assert asked.answer is GateAnswer.SHUT
    assert not asked.may_pass


def test_a_bit_nobody_can_speak_of_keeps_the_answer_from_shut() -> None:
    asked = gate("fit:bit", MOUTHING, findings=bit("A", NO) + bit("B", UNKNOWN))
    assert asked.answer is GateAnswer.NOT_KNOWN


def test_no_bit_at_all_says_what_to_measure_and_holds() -> None:
    asked = gate("fit:bit", MOUTHING)
    assert asked.answer is GateAnswer.NOT_KNOWN
    assert "measure her mouth width" in asked.would_meet
    assert not may_start([asked])


def test_an_unknown_bit_hands_on_what_to_ask_for() -> None:
    unknown = finding("Eggbutt", "bit", "length", UNKNOWN, ask="length of the bit")
    asked = gate("fit:bit", MOUTHING, findings=(unknown,))
    assert asked.would_meet == "Still to be had of Eggbutt: length of the bit."


def test_an_unmeasured_jaw_gap_asks_and_bars_nothing() -> None:
    jaw = finding("Eggbutt", "bit", "mouthpiece", GOOD, ask="jaw gap, by the vet")
    asked = gate("fit:bit", MOUTHING, findings=(jaw,))
    assert asked.answer is GateAnswer.MET
    assert asked.caution.endswith("Still to be had: jaw gap, by the vet.")


def test_a_bit_too_thick_for_a_measured_jaw_is_a_no() -> None:
    thick = finding("Eggbutt", "bit", "thickness", NO, why="Thicker than the jaw gap.")
    length = finding("Eggbutt", "bit", "length", GOOD)
    asked = gate("fit:bit", MOUTHING, findings=(length, thick))
    assert asked.answer is GateAnswer.SHUT


def test_a_bit_of_unknown_thickness_is_still_unknown() -> None:
    thick = finding(
        "Eggbutt", "bit", "thickness", UNKNOWN, ask="Measure the mouthpiece."
    )
    length = finding("Eggbutt", "bit", "length", GOOD)
    asked = gate("fit:bit", MOUTHING, findings=(length, thick))
    assert asked.answer is GateAnswer.NOT_KNOWN


def test_an_answer_that_rests_on_old_facts_is_a_caution() -> None:
    old = finding("Eggbutt", "bit", "length", GOOD, stale=True)
    asked = gate("fit:bit", MOUTHING, findings=(old,))
    assert asked.answer is GateAnswer.CAUTION
    assert "too old" in asked.why


def bridle_set(
    name: str, cheek: Answer, bit_length: Answer = GOOD
) -> tuple[Finding, ...]:
    ends = date(2026, 8, 1)
    return (
        finding(name, "bridle", "cheekpieces", cheek, hole=4, good_until=ends),
        finding(name, "bit", "length", bit_length),
    )


def test_a_made_up_bridle_is_named_with_its_hole_and_until_when() -> None:
    single = finding("Old bridle", "bridle", "whole", GOOD, hole=2)
    findings = (single, *bridle_set("Schooling", GOOD))
    asked = gate("fit:bridle", MOUTHING, findings=findings, set_names=("Schooling",))
    assert asked.why == "Schooling fits Bracken on hole 4, until about 1 August 2026."
    assert asked.record == "set:Schooling"


def test_a_made_up_bridle_is_no_better_than_its_bit() -> None:
    findings = bridle_set("Schooling", GOOD, NO)
    names = ("Schooling",)
    asked = gate("fit:bridle", MOUTHING, findings=findings, set_names=names)
    assert asked.answer is GateAnswer.SHUT


def test_every_part_of_a_made_up_bridle_counts_whatever_peg_it_comes_from() -> None:
    noseband = finding("Schooling", "other", "noseband", NO)
    findings = (noseband, *bridle_set("Schooling", GOOD))
    names = ("Schooling",)
    asked = gate("fit:bridle", BRIDLE, findings=findings, set_names=names)
    assert asked.answer is GateAnswer.SHUT


def test_a_bridle_worn_without_its_bit_is_judged_without_it() -> None:
    findings = bridle_set("Schooling", GOOD, NO)
    names = ("Schooling",)
    asked = gate("fit:bridle", BRIDLE, findings=findings, set_names=names)
    assert asked.answer is GateAnswer.MET


def test_the_bit_of_a_made_up_bridle_counts_as_a_bit() -> None:
    findings = bridle_set("Schooling", NO, GOOD)
    names = ("Schooling",)
    asked = gate("fit:bit", MOUTHING, findings=findings, set_names=names)
    assert asked.answer is GateAnswer.MET


def test_a_browband_alone_is_no_bridle() -> None:
    browband = finding("Navy browband", "bridle", "browband", GOOD)
    asked = gate("fit:bridle", MOUTHING, findings=(browband,))
    assert asked.answer is GateAnswer.NOT_KNOWN


@pytest.mark.parametrize(
    ("kind", "part"),
    [
        ("roller", "strap"),
        ("girth", "strap"),
        ("saddle", "panel"),
        ("rug", "back_seam"),
    ],
)
@pytest.mark.parametrize(
    ("found", "answer"),
    [
        (GOOD, GateAnswer.MET),
        (WATCH, GateAnswer.CAUTION),
        (NO, GateAnswer.SHUT),
        (UNKNOWN, GateAnswer.NOT_KNOWN),
    ],
)
def test_a_roller_or_a_saddle_is_a_set_of_its_own(
    kind: str, part: str, found: Answer, answer: GateAnswer
) -> None:
    one = finding("Brown one", kind, part, found)
    asked = gate(f"fit:{kind}", BRIDLE, findings=(one,))
    assert asked.answer is answer
    assert asked.record == "item:Brown one"
    # and it is none of another kind
    other = gate("fit:headcollar", BRIDLE, findings=(one,))
    assert other.answer is GateAnswer.NOT_KNOWN


def test_no_tape_meets_a_saddle_and_the_fitter_is_asked_for() -> None:
    none = gate("fit:saddle", BRIDLE)
    assert none.answer is GateAnswer.NOT_KNOWN
    assert none.would_meet.startswith("Write down a saddle, and put it on her with a")
    asks = finding("Brown one", "saddle", "panel", UNKNOWN, ask="try it on")
    unseen = gate("fit:saddle", BRIDLE, findings=(asks,))
    assert unseen.would_meet == (
        "Put Brown one on her with a qualified saddle fitter there, and write down"
        " both: what was seen, and the visit."
    )
    back = finding("Brown one", "saddle", "panel", UNKNOWN, ask="back length")
    short = gate("fit:saddle", BRIDLE, findings=(back,))
    assert short.would_meet.startswith("Still to be had: back length. Put Brown one")
    old = finding("Brown one", "saddle", "panel", WATCH, stale=True)
    assert (
        "saddle fitter there" in gate("fit:saddle", BRIDLE, findings=(old,)).would_meet
    )


def test_no_roller_says_what_to_measure_and_holds() -> None:
    asked = gate("fit:roller", BRIDLE)
    assert "measure her heart girth, or put the roller on her" in asked.would_meet
    assert not may_start([asked])


@pytest.mark.parametrize("kind", ["headcollar", "cavesson"])
@pytest.mark.parametrize(
    ("nose", "crown", "answer"),
    [
        (GOOD, GOOD, GateAnswer.MET),
        (GOOD, WATCH, GateAnswer.CAUTION),
        (NO, GOOD, GateAnswer.SHUT),
        (UNKNOWN, GOOD, GateAnswer.NOT_KNOWN),
    ],
)
def test_a_headcollar_or_cavesson_is_as_good_as_its_worst_strap(
    kind: str, nose: Answer, crown: Answer, answer: GateAnswer
) -> None:
    found = (finding("Web", kind, "nose", nose), finding("Web", kind, "crown", crown))
    asked = gate(f"fit:{kind}", BRIDLE, findings=found)
    assert asked.answer is answer
    assert asked.record == "item:Web"


def test_straps_of_a_headcollar_name_their_holes_and_a_single_one_its_own() -> None:
    nose = finding("Web", "headcollar", "nose", GOOD, hole=2)
    crown = finding("Web", "headcollar", "crown", GOOD, hole=3)
    both = gate("fit:headcollar", BRIDLE, findings=(nose, crown))
    assert both.why == "Web fits Bracken, nose on hole 2 and crown on hole 3."
    one = gate("fit:headcollar", BRIDLE, findings=(nose,))
    assert one.why == "Web fits Bracken on hole 2."


def test_the_hole_of_a_set_is_what_hangs_the_bit_and_not_its_noseband_s() -> None:
    noseband = finding("Schooling", "bridle", "noseband", GOOD, hole=2)
    findings = (noseband, *bridle_set("Schooling", GOOD))
    asked = gate("fit:bridle", BRIDLE, findings=findings, set_names=("Schooling",))
    assert asked.why.startswith("Schooling fits Bracken on hole 4,")


def test_no_headcollar_says_what_to_measure_and_holds() -> None:
    bridle = bridle_set("Schooling", GOOD)
    asked = gate("fit:headcollar", BRIDLE, findings=bridle, set_names=("Schooling",))
    assert asked.answer is GateAnswer.NOT_KNOWN
    assert "measure her nose, or put the headcollar on her" in asked.would_meet
    assert not may_start([asked])


def test_a_jowl_strap_alone_is_no_headcollar_nor_a_headcollar_a_cavesson() -> None:
    jowl = finding("Web", "headcollar", "jowl", GOOD)
    nose = finding("Web", "headcollar", "nose", GOOD)
    for key, found in (("fit:headcollar", jowl), ("fit:cavesson", nose)):
        asked = gate(key, BRIDLE, findings=(found,))
        assert asked.answer is GateAnswer.NOT_KNOWN


def test_each_kind_has_its_caution() -> None:
    said = {
        "fit:headcollar": "every day",
        "fit:cavesson": "never holds the mouth shut",
        "fit:bridle": "never holds the mouth shut",
        "fit:bit": "can still hurt",
        "fit:roller": "two fingers clear over the spine",
        "fit:saddle": "again as the back changes",
        "fit:girth": "buckles clear of the elbow",
        "fit:rug": "under a rug every day",
    }
    for key, words in said.items():
        assert words in gate(key, MOUTHING).caution
