"""The ages the gates ask for, against what is published; each source at its test."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from starting.gates import GateAnswer
from tests.starting.making_gates import ASTRIDE, BRIDLE, MOUTHING, born, gate, seen


def test_thirty_months_are_counted_from_the_birthday() -> None:
    # German guideline on animal welfare in horse sport, revised 2020 (BMEL):
    # training for the later use from 30 months, counted from the day of birth, not
    # from 1 January; the birthday 28 April 2019 as cut-off: in-the-focus.com,
    # November 2021. The day is computed by the calendar.
    foal = born(date(2019, 4, 28))
    the_day = date(2021, 10, 28)
    before = gate("age", BRIDLE, the_day - timedelta(days=1), foaled=foal)
    assert before.answer is GateAnswer.CAUTION
    assert before.opens_on == the_day
    assert gate("age", BRIDLE, the_day, foaled=foal).answer is GateAnswer.MET
    assert "bml_2020" in before.sources


def test_no_rider_before_thirty_six_completed_months() -> None:
    # The Animal Welfare (Licensing of Activities Involving Animals) (England)
    # Regulations 2018, SI 2018/486, schedule 5, paragraph 6(8): no horse under three
    # years is hired out for riding. German federation handbook, quoted in
    # Reiter-Kurier June 2019, p. 15: usually first ridden at three. The floor is ours.
    foal = born(date(2020, 5, 10))
    at_35 = gate("age", ASTRIDE, date(2023, 5, 9), foaled=foal)
    assert at_35.answer is GateAnswer.SHUT
    assert "35 months" in at_35.why
    assert not at_35.may_pass
    assert gate("age", ASTRIDE, date(2023, 5, 10), foaled=foal).answer is GateAnswer.MET
    assert {"fn_backing", "hire_2018"} <= set(at_35.sources)


def test_a_two_year_old_by_the_season_is_one_year_old_at_the_gate() -> None:
    # A foal of 31 December 2012 is called two on 1 January 2014, at twelve months of
    # life: turfaccounts.blogspot.com, April 2013. A label opens no gate.
    foal = born(date(2012, 12, 31))
    asked = gate("age", BRIDLE, date(2014, 1, 1), foaled=foal)
    assert asked.answer is GateAnswer.SHUT
    assert "12 months" in asked.why


@pytest.mark.parametrize(
    ("foaled", "opens"),
    [
        (Foaled(first=date(2022, 1, 1), last=date(2022, 12, 31)), date(2025, 12, 31)),
        (Foaled(first=date(2022, 5, 1), last=date(2022, 5, 31)), date(2025, 5, 31)),
    ],
)
def test_a_year_or_month_alone_is_taken_at_its_youngest(
    foaled: Foaled, opens: date
) -> None:
    # Reasoned from the two sources above (ours): true age, not 1 January.
    asked = gate("age", ASTRIDE, date(2025, 2, 1), foaled=foaled)
    assert asked.opens_on == opens


def test_the_age_caution_gives_the_spines_closing() -> None:
    # Haussler, Stover, Willits 1997, Developmental variation in lumbosacropelvic
    # anatomy of Thoroughbred racehorses, Am J Vet Res 58(10):1083-1091: growth plates
    # of the lumbosacral vertebrae close at 4.9 to 6.7 years.
    asked = gate("age", ASTRIDE)
    assert "between 4.9 and 6.7 years" in asked.caution
    assert "haussler_1997" in asked.sources


def test_a_dental_look_three_months_before_the_first_bit_is_enough() -> None:
    # Equine Dental Clinic NI (equinedentalclinicni.com/faq): ideally about three
    # months before backing or training. 90 days as that figure is ours.
    assert gate("teeth", MOUTHING, care=(seen(90),)).answer is GateAnswer.MET
    assert gate("teeth", MOUTHING, care=(seen(92),)).answer is not GateAnswer.MET


def test_the_teeth_of_a_youngster_in_a_bit_are_seen_twice_a_year() -> None:
    # Randwick Equine Centre (randwickequine.com.au/Young-Horses): every six months
    # under five years. 180 days as that figure, and 365 as the most, are ours.
    assert gate("teeth", ASTRIDE, care=(seen(180),)).answer is GateAnswer.MET
    assert gate("teeth", ASTRIDE, care=(seen(184),)).answer is GateAnswer.CAUTION
