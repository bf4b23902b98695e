from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.body import HorseType
from fitting.croup import Judged, judge
from starting.gates import Gate, GateAnswer, Passed, may_start
from tests.fitting.making_croup import both, day, several
from tests.starting.making_gates import ASTRIDE, gate

MARCH_9 = day(7)


def read(
    *pairs: tuple[int, float], horse_type: HorseType = "light"
) -> tuple[Judged, ...]:
    return judge(several(*pairs), horse_type)


def asked(croup: tuple[Judged, ...], on: date = MARCH_9, **changes: object) -> Gate:
    return gate("growth_pause", ASTRIDE, on, croup=croup, **changes)


def plainly(said: str) -> str:
    return said.replace("\u2009", " ")


def test_never_taken_together_is_not_known_and_holds_until_both_are_measured() -> None:
    found = asked(())
    assert (found.answer, found.kind) == (GateAnswer.NOT_KNOWN, "to_do")
    assert found.opens_on is None
    assert found.would_meet == (
        "Measure her withers and croup on one day, by one method."
    )
    assert found.record == "measure:croup_height"
    assert not found.may_pass
    assert not may_start([found])


def test_a_croup_a_little_high_is_no_alarm() -> None:
    found = asked(read((-60, 26), (0, 31)))
    assert found.answer is GateAnswer.MET
    assert plainly(found.why) == (
        "Bracken's croup stood 3.1 cm over the withers on 2 March 2026"
        " (usual for her 2.6 cm): not high."
    )
    assert may_start([found])


def test_a_croup_under_the_withers_is_said_so() -> None:
    found = asked(read((0, -12)))
    assert "stood 1.2 cm under the withers on 2 March 2026: not high" in plainly(
        found.why
    )


def test_one_high_reading_is_a_caution_that_a_reason_may_pass() -> None:
    found = asked(read((0, 62)))
    assert (found.answer, found.kind) == (GateAnswer.CAUTION, "to_do")
    assert found.opens_on is None
    assert found.may_pass
    assert "7 days or more after 2 March 2026" in found.would_meet
    reason = Passed(
        stage="astride", gate="growth_pause", reason="Misread", who="Jo", on=MARCH_9
    )
    assert asked(read((0, 62)), passed=(reason,)).went_ahead
    # A reason from before the reading says nothing of it.
    early = replace(reason, on=day(-1))
    assert not asked(read((0, 62)), passed=(early,)).went_ahead


def test_high_twice_running_shuts_for_four_weeks_and_no_reason_passes_it() -> None:
    croup = read((0, 62), (7, 66))
    found = asked(croup)
    assert (found.answer, found.kind) == (GateAnswer.SHUT, "dated")
    assert found.opens_on == date(2026, 4, 6) == day(7 + 28)
    assert plainly(found.why) == (
        "Bracken's croup was high twice running: 6.2 cm over the withers on"
        " 2 March 2026, 6.6 cm over the withers on 9 March 2026. A pause of 28 days,"
        " until 6 April 2026."
    )
    assert not found.may_pass
    assert not may_start([found])
    reason = Passed(
        stage="astride", gate="growth_pause", reason="Show", who="Jo", on=MARCH_9
    )
    assert not asked(croup, passed=(reason,)).went_ahead


def test_after_the_pause_the_last_reading_is_a_caution_until_taken_again() -> None:
    croup = read((0, 62), (7, 66))
    ends = day(35)
    assert asked(croup, ends - timedelta(days=1)).answer is GateAnswer.SHUT
    assert asked(croup, ends).answer is GateAnswer.CAUTION
    again = read((0, 62), (7, 66), (35, 30))
    assert asked(again, ends).answer is GateAnswer.MET
    still = read((0, 62), (7, 66), (35, 64))
    assert asked(still, ends).opens_on == day(35 + 28)


@pytest.mark.parametrize(
    ("horse_type", "answer"),
    [("light", GateAnswer.SHUT), ("heavy", GateAnswer.MET)],
)
def test_a_heavy_horse_may_stand_higher_behind(
    horse_type: HorseType, answer: GateAnswer
) -> None:
    croup = read((0, 62), (7, 62), horse_type=horse_type)
    assert asked(croup).answer is answer


def test_two_people_are_not_one_reading_twice() -> None:
    croup = judge((*both(0, 62), *both(7, 66, who="Sam")), "light")
    assert asked(croup).answer is GateAnswer.CAUTION


def test_it_says_what_is_normal_whom_to_ring_and_what_is_ours() -> None:
    found = asked(read((0, 62), (7, 66)))
    assert "normally the higher, by 2 to 6 cm" in found.caution
    assert "ring your vet" in found.caution
    assert "are ours" in found.caution
    assert {"thompson_1995", "ardennes_thesis", "ours"} <= set(found.sources)
