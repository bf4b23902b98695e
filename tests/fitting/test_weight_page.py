"""The page of weight and condition."""

from __future__ import annotations

from datetime import date
from html import unescape
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.condition import CAUTION, PLACES, STEPS
from fitting.models import Horse, Yard
from fitting.reads.today import today_in
from starting.models import Person, Plan
from starting.writes import replan
from tests.fitting.making_measured import at, body_of, days_ago, pennyroyal
from tests.make import SIGNED_IN, make_horse, make_measurement

NEVER_DOSE = "Never use this figure to dose medicine: ask your vet."


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


def page(client: Client, horse: Horse | None = None) -> str:
    where = at("weight")
    if horse is not None:
        where = reverse("fitting:weight", args=[horse.yard.slug, horse.key])
    return unescape(" ".join(body_of(client.get(where), 200).split()))


def measure(horse: Horse, measure: str, days: int, value: float, method: str) -> None:
    on: date = days_ago(horse, days)
    make_measurement(horse, measure, on=on, value=value, method=method)


def weigh(horse: Horse, days: int, kg: float, method: str = "weigh_tape") -> None:
    measure(horse, "weight", days, kg, method)


def tape(horse: Horse, days: int, girth: float = 1500, length: float = 1300) -> None:
    measure(horse, "heart_girth", days, girth, "tape")
    measure(horse, "body_length", days, length, "tape")


def test_nothing_measured_is_not_known_and_says_what_to_do(
    keeper: Client, horse: Horse
) -> None:
    shown = page(keeper)
    assert "Not known" in shown
    assert "girth and body length were not taken together" in shown
    assert 'How it moves: <span class="ans w-unknown">not known.' in shown
    assert "never scored." in shown
    assert "No weight is written down yet" in shown
    assert NEVER_DOSE in shown
    assert "measure=weight&measure=heart_girth&measure=body_length" in shown


def test_a_tape_makes_a_weight_with_its_band_its_day_and_why(
    keeper: Client, horse: Horse
) -> None:
    tape(horse, 3)
    shown = page(keeper)
    assert "About 246 kg (542 lb)" in shown
    assert "give or take 25 kg, so 221 to 270 kg." in shown
    assert "No weight by scale or weigh tape stands" in shown
    assert "No rule for two-year-olds was found" in shown
    assert "less sure at this age" in shown
    assert NEVER_DOSE in shown


def test_pounds_come_first_where_the_yard_weighs_in_them(
    keeper: Client, yard: Yard, horse: Horse
) -> None:
    yard.weight_unit = "lb"
    yard.save()
    tape(horse, 3)
    assert "About 542 lb (246 kg)" in page(keeper)


def test_a_scale_goes_first_and_the_others_stand_beside_it(
    keeper: Client, horse: Horse
) -> None:
    weigh(horse, 5, 300, "weighbridge")
    weigh(horse, 2, 320)
    shown = page(keeper)
    assert '<p class="big">300 kg (661 lb)</p>' in shown
    assert "A scale goes before tape, formula and eye." in shown
    assert "By weigh tape, " in shown
    assert ": 320 kg." in shown


def test_a_falling_weight_sends_to_the_vet(keeper: Client, horse: Horse) -> None:
    weigh(horse, 30, 300)
    weigh(horse, 0, 282)
    shown = page(keeper)
    said = "down 6 % in 30 days by the same weigh tape: ask your vet."
    assert f'<span class="ans w-caution">{said}</span>' in shown
    assert "lives out" not in shown


def test_a_horse_that_lives_out_is_told_of_its_winter_dip(
    keeper: Client, horse: Horse
) -> None:
    assert "That dip" not in page(keeper)
    horse.lives_out = True
    horse.save()
    assert "heaviest about 1 November" in page(keeper)
    horse.yard.hemisphere = "south"
    horse.yard.save()
    assert "heaviest about 1 May" in page(keeper)


def test_what_is_struck_out_counts_for_nothing(keeper: Client, horse: Horse) -> None:
    on = days_ago(horse, 1)
    make_measurement(
        horse, "weight", on=on, value=300, method="weighbridge", struck="no"
    )
    assert "Not known" in page(keeper)


def test_a_small_ponys_weigh_tape_alone_is_no_weight(
    keeper: Client, yard: Yard
) -> None:
    small = make_horse(yard, horse_type="small_pony", name="Sorrel")
    weigh(small, 2, 120)
    shown = page(keeper, small)
    assert "Not known" in shown
    assert "Under 100 cm a weigh tape alone is no weight" in shown
    assert "120 kg, which alone is no weight." in shown
    assert "stale" not in shown


def test_a_grown_horse_goes_by_the_grown_horses_rule(
    keeper: Client, yard: Yard
) -> None:
    grown = make_horse(yard, name="Fennel", foaled="2010", grown=True)
    tape(grown, 3, 1800, 1600)
    shown = page(keeper, grown)
    assert "About 436 kg" in shown
    assert "The rule for grown horses" in shown
    assert "less sure at this age" not in shown


def test_with_a_rider_named_a_weight_stands_thirty_days(
    keeper: Client, horse: Horse
) -> None:
    weigh(horse, 35, 300, "weighbridge")
    assert "300 kg (661 lb)" in page(keeper)
    rider = Person.objects.create(yard=horse.yard, name="Jo")
    Plan.objects.filter(horse=horse).update(rider=rider)
    shown = page(keeper)
    assert "too old to go by" in shown
    assert "Last 300 kg on the weighbridge" in shown


@pytest.mark.parametrize(
    ("score", "css", "said"),
    [(5, "ans", "5, moderate"), (7, "ans w-caution", "7, fleshy"),
     (2, "ans w-shut", "2, very thin")],
)  # fmt: skip
def test_the_condition_is_said_as_loudly_as_it_needs(
    keeper: Client, horse: Horse, score: float, css: str, said: str
) -> None:
    measure(horse, "condition_score", 2, score, "eye")
    assert f'Condition: <span class="{css}">{said}, ' in page(keeper)


def test_an_old_score_asks_for_a_new_one(keeper: Client, horse: Horse) -> None:
    measure(horse, "condition_score", 60, 5, "eye")
    assert "Too long ago: score again." in page(keeper)


@pytest.mark.parametrize("name", ["weight", "measure"])
def test_the_nine_steps_and_six_places_stand_where_condition_is_scored(
    keeper: Client, horse: Horse, name: str
) -> None:
    answer = keeper.get(at(name), {"measure": "condition_score"})
    shown = unescape(" ".join(body_of(answer, 200).split()))
    for step in STEPS:
        assert f"<b>{step.name}.</b> {step.said}" in shown
    for place in PLACES:
        assert place.how in shown
    assert CAUTION in shown


def test_a_viewer_sees_it_all_and_is_offered_no_form(
    viewer: Client, horse: Horse
) -> None:
    shown = page(viewer)
    assert "Weigh, tape and score" not in shown
    assert "The nine steps" in shown


def test_the_body_leads_to_the_weight(keeper: Client, horse: Horse) -> None:
    assert at("weight") in body_of(keeper.get(at("horse")), 200)


@pytest.mark.parametrize("grown", [False, True])
def test_a_score_that_is_not_asked_for_is_said_so_on_both_pages(
    keeper: Client, yard: Yard, *, grown: bool
) -> None:
    old = make_horse(yard, name="Old Marl", foaled="2012-05-01", grown=grown)
    replan(yard, today_in(yard))
    args = [yard.slug, old.key]
    body = body_of(keeper.get(reverse("fitting:horse", args=args)), 200)
    weight = body_of(keeper.get(reverse("fitting:weight", args=args)), 200)
    _, told, names = body.partition("Never measured, and not asked for this year: ")
    not_asked = told and "condition score" in names.partition(".")[0]
    assert bool(not_asked) is ("Not asked for this year." in weight)
    assert grown is bool(not_asked)


@pytest.mark.parametrize("how_many", [1, 8])
def test_the_page_asks_the_same_of_one_reading_and_of_many(
    keeper: Client, horse: Horse, how_many: int, django_assert_num_queries: Any
) -> None:
    for number in range(how_many):
        tape(horse, 3 + 9 * number)
        weigh(horse, 3 + 9 * number, 300)
    replan(horse.yard, today_in(horse.yard))
    with django_assert_num_queries(SIGNED_IN + 4):  # horse, measured, plan, outlook
        page(keeper)
