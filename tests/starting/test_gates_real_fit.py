from __future__ import annotations

from fitting.body import Taken
from fitting.fit import Finding, MadeUp, Part, Tack, Wearer, fits
from fitting.growth import Subject, fit_growth
from starting.gates import GateAnswer
from tests.starting.making_gates import BORN, MOUTHING, ON, born, gate

BRIDLE_PARTS = (Part(part="whole", length_mm=940, hole=4, holes=7, spacing_mm=20),)
OLD_BRIDLE = Tack(name="Old bridle", kind="bridle", parts=BRIDLE_PARTS)


def eggbutt(length_mm: float) -> Tack:
    part = Part(
        part="mouthpiece",
        length_mm=length_mm,
        thickness_mm=16,
        cheek="eggbutt",
        ring_mm=60,
    )
    return Tack(name="Eggbutt", kind="bit", parts=(part,))


def taken(measure: str, size_mm: float, method: str) -> Taken:
    return Taken(
        measure=measure, on=ON, readings=(size_mm,), method=method, same_person=True
    )


def found(bit: Tack, *readings: Taken) -> tuple[Finding, ...]:
    subject = Subject(horse_type="light", foaled=born(BORN))
    wearer = Wearer(
        name="Bracken",
        horse_type="light",
        foaled=subject.foaled,
        grown=False,
        growth=fit_growth(subject, readings),
        standing=tuple((one.measure, "stands") for one in readings),
    )
    slots = (("headpiece", OLD_BRIDLE), ("cheekpieces", OLD_BRIDLE), ("bit", bit))
    made_up = MadeUp(name="Schooling", parts=slots)
    return fits(wearer, (bit, OLD_BRIDLE), (made_up,), ON)


MOUTH = taken("mouth_width", 118, "calliper")
HEAD = taken("head_length", 1000, "tape")


def answers(findings: tuple[Finding, ...]) -> list[GateAnswer]:
    names = ("Schooling",)
    return [
        gate(key, MOUTHING, findings=findings, set_names=names).answer
        for key in ("fit:bit", "fit:bridle")
    ]


def test_a_measured_horse_is_met_by_tack_that_is_reckoned_to_fit() -> None:
    assert answers(found(eggbutt(124), MOUTH, HEAD)) == [GateAnswer.MET] * 2


def test_an_unmeasured_horse_is_never_met() -> None:
    assert answers(found(eggbutt(124))) == [GateAnswer.NOT_KNOWN] * 2


def test_a_bit_far_too_narrow_shuts_the_bit() -> None:
    findings = found(eggbutt(100), MOUTH, HEAD)
    assert answers(findings)[0] is GateAnswer.SHUT
