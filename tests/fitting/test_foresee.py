"""What readings would change is said before they are written in, and is true."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from fitting.body import Taken
from fitting.models import (
    Horse,
    Measurement,
    SetPart,
    TackSet,
    TryOn,
    TryOnPart,
    Yard,
)
from fitting.reads.foresee import Foreseen, foreseen, with_readings
from fitting.reads.growth import growth_of, tried_on
from fitting.reads.outlook import seen_of
from fitting.reads.today import today_in
from starting.models import CareVisit, Session, SessionWorn
from starting.outlook.body import growth_of as outlook_growth
from starting.outlook.body import taught_of
from starting.reads.facts import yard_facts
from starting.writes import replan
from tests.fitting.making_measured import (
    at,
    body_of,
    days_ago,
    given,
    pennyroyal,
    said,
)
from tests.make import make_bit, make_measurement


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


def planned(horse: Horse) -> Horse:
    replan(horse.yard, today_in(horse.yard))
    return Horse.objects.select_related("yard").get(pk=horse.pk)


def foresee(horse: Horse, *typed: Taken) -> Foreseen:
    found = foreseen(horse, seen_of(horse), typed, today_in(horse.yard))
    assert found is not None
    return found


def mouth(horse: Horse, mm: float, days: int = 0) -> Taken:
    return Taken(
        measure="mouth_width",
        on=days_ago(horse, days),
        readings=(mm,),
        method="string",
        same_person=True,
    )


def make_used(horse: Horse) -> None:
    """Give a horse bits, a history, a try-on, and a session that says how one sat."""
    for length in (108, 114, 118, 125):
        make_bit(horse.yard, name=f"Eggbutt {length}", length_mm=length)
    for days, value in ((300, 100.0), (120, 104.0)):
        make_measurement(
            horse, "mouth_width", days_ago(horse, days), value, method="string"
        )
    make_measurement(horse, on=days_ago(horse, 200), value=1250)
    bit, other = horse.yard.tack.all()[:2]
    tried = TryOn.objects.create(
        horse=horse, on=days_ago(horse, 3), tack=bit, how="worn"
    )
    TryOnPart.objects.create(tryon=tried, part="mouthpiece", seen="too_short")
    session = Session.objects.create(
        horse=horse, on=days_ago(horse, 2), stage="mouthing"
    )
    SessionWorn.objects.create(session=session, tack=other, seen="sits_right")
    made_up = TackSet.objects.create(yard=horse.yard, key="plain", name="Plain bridle")
    SetPart.objects.create(made_up=made_up, slot="bit", tack=other)
    SessionWorn.objects.create(session=session, made_up=made_up, seen="rubs")
    CareVisit.objects.create(horse=horse, kind="tooth_change", on=days_ago(horse, 90))


@pytest.mark.django_db(transaction=True)  # the yard is planned after the commit
def test_what_is_foreseen_is_what_comes_true(keeper: Client, horse: Horse) -> None:
    make_used(horse)
    fresh = planned(horse)
    typed = given(fresh, mouth_1="112 mm", mouth_2="113 mm", height_1="12.3")
    typed["mouth_width-method"] = "string"
    page = body_of(keeper.post(at("measure"), {**typed, "check": "yes"}), 200)
    assert not Measurement.objects.filter(on=today_in(horse.yard)).exists()
    told = said(keeper.post(at("measure"), typed))
    shown = page[page.index('id="answer"') : page.index('class="fields"')]
    foretold = re.findall(r"<li[^>]*>([^<]+)</li>", shown)
    assert any(line.startswith("Eggbutt 118: good") for line in foretold)
    assert any(line.startswith("Mouth width today") for line in foretold)
    assert any(line.startswith("Withers height today") for line in foretold)
    assert " ".join(told[1:]) == " ".join(foretold)


@pytest.mark.django_db(transaction=True)
def test_every_answer_is_foreseen_as_it_will_be(keeper: Client, horse: Horse) -> None:
    make_used(horse)
    fresh = planned(horse)
    before = seen_of(fresh)
    assert before is not None
    one, today = mouth(fresh, 112), today_in(horse.yard)
    after = with_readings(fresh, before, [one], tried_on(fresh), today)
    keeper.post(at("measure"), given(fresh, mouth_1="112 mm", mouth_method="string"))
    true = seen_of(Horse.objects.get(pk=horse.pk))
    assert true is not None
    assert true.fits == after.fits != before.fits
    size, foretold = true.measure("mouth_width"), after.measure("mouth_width")
    assert size is not None
    assert foretold is not None
    assert foretold.now is not None
    assert size.now is not None
    assert foretold.now.p50 == pytest.approx(size.now.p50, abs=0.06)


def test_growth_on_a_page_is_the_growth_the_outlook_rests_on(horse: Horse) -> None:
    make_used(horse)
    Horse.objects.filter(pk=horse.pk).update(lives_out=True, dam_height_mm=1340)
    horse = planned(horse)
    yard = yard_facts(horse.yard)
    (facts,) = yard.horses
    assert growth_of(horse) == outlook_growth(yard, facts, taught_of(yard, facts))
    assert growth_of(horse).taught("mouth_width")


def test_a_bit_is_said_with_its_room_and_until_when(horse: Horse) -> None:
    make_bit(horse.yard, name="Small eggbutt", length_mm=118)
    found = foresee(planned(horse), mouth(horse, 112))
    (line,) = found.tack
    assert line.startswith("Small eggbutt: good ")
    assert "mm) each side; nothing could be said before." in line


def test_what_sat_right_in_a_session_outranks_the_tape_before_it_is_saved(
    horse: Horse,
) -> None:
    bit = make_bit(horse.yard, name="Small eggbutt", length_mm=118)
    session = Session.objects.create(
        horse=horse, on=days_ago(horse, 2), stage="mouthing"
    )
    SessionWorn.objects.create(session=session, tack=bit, seen="sits_right")
    found = foresee(planned(horse), mouth(horse, 125))
    assert not any("Small eggbutt: no" in line for line in found.tack)


def test_a_reading_too_old_to_stand_is_not_counted_as_fresh(horse: Horse) -> None:
    make_bit(horse.yard, name="Small eggbutt", length_mm=118)
    fresh = planned(horse)
    old = foresee(fresh, mouth(horse, 112, days=200))
    new = foresee(fresh, mouth(horse, 112))
    assert old.tack != new.tack


def test_a_yard_without_tack_hears_of_sizes_only(horse: Horse) -> None:
    found = foresee(planned(horse), mouth(horse, 112))
    assert found.tack == ()
    assert not found.has_tack
    (line,) = found.sizes
    assert line.startswith("Mouth width today ")


def test_nothing_is_foreseen_without_a_reading_or_before_the_first_planning(
    horse: Horse,
) -> None:
    today = today_in(horse.yard)
    assert foreseen(horse, None, [mouth(horse, 112)], today) is None
    fresh = planned(horse)
    assert foreseen(fresh, seen_of(fresh), [], today) is None


def test_one_bad_value_does_not_hide_what_the_others_change(
    keeper: Client, horse: Horse
) -> None:
    make_bit(horse.yard, name="Small eggbutt", length_mm=118)
    typed = given(planned(horse), mouth_1="112 mm", height_1="13.4")
    page = body_of(keeper.post(at("measure"), {**typed, "check": "yes"}), 200)
    assert "Small eggbutt: good" in page
    assert "13.4 cannot be read." in page


def test_reading_back_for_a_day_to_come_foresees_nothing(
    keeper: Client, horse: Horse
) -> None:
    typed: dict[str, Any] = given(planned(horse), mouth_1="112 mm", check="yes")
    typed["on"] = str(today_in(horse.yard) + timedelta(days=3))
    page = body_of(keeper.post(at("measure"), typed), 200)
    assert "still to come" in page
    assert "What it would change" not in page


@pytest.mark.parametrize("more", [0, 20])
def test_foreseeing_asks_the_same_however_much_is_written_down(
    horse: Horse, django_assert_num_queries: DjangoAssertNumQueries, more: int
) -> None:
    make_used(horse)
    for number in range(more):
        make_measurement(
            horse, "brow", days_ago(horse, 10 + number), 340.0, method="tape"
        )
        make_bit(horse.yard)
    fresh = planned(horse)
    seen = seen_of(fresh)
    with django_assert_num_queries(11):
        foreseen(fresh, seen, [mouth(horse, 112)], today_in(horse.yard))
