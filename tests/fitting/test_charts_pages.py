"""The charts of a horse's page: one for each measure, and what its tack covers."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from fitting.body import MEASURES
from fitting.growth import fit_growth
from fitting.growth.bounds import Bound
from fitting.models import (
    FirstWorn,
    Horse,
    Part,
    SetPart,
    Tack,
    TackSet,
    TryOn,
    TryOnPart,
    Yard,
)
from fitting.reads.body import Asked, body_page
from fitting.reads.charts import ChartView, Known, charted, growth_chart
from fitting.reads.growth import growth_of, subject_of
from fitting.reads.outlook import seen_of
from fitting.reads.today import today_in
from starting.writes import replan
from tests.fitting.making_youngster import at, days_ago, text_of, youngster
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement

GIVEN = {"weight": 300.0, "condition_score": 5.0, "nose_gap": 20.0}  # else mm
TACK = 1  # first wearings; what was tried on is read for growth already


def take_everything(horse: Horse, times: int = 1) -> None:
    """Take every measure, on as many days."""
    for measure in MEASURES:
        for time in range(times):
            make_measurement(
                horse,
                measure.key,
                on=days_ago(horse.yard, 20 + 10 * time),
                value=GIVEN.get(measure.key, 100.0),
                method=measure.methods[0].key,
            )


def put_on(horse: Horse, bit: Tack, on: date) -> None:
    tryon = TryOn.objects.create(horse=horse, on=on, tack=bit, how="worn")
    TryOnPart.objects.create(tryon=tryon, part="mouthpiece", seen="sits_right")


def charts(horse: Horse) -> dict[str, ChartView]:
    """Return the charts beside the height's, planned as of today, by measure."""
    today = today_in(horse.yard)
    replan(horse.yard, today)
    fresh = Horse.objects.select_related("yard").get(pk=horse.pk)
    return {
        c.measure: c for c in body_page(fresh, today, Asked(all_charts=True)).others
    }


def test_every_measure_with_readings_has_a_chart(yard: Yard) -> None:
    horse = youngster(yard)
    take_everything(horse)
    drawn = {"withers_height", *charts(horse)}
    assert drawn == {measure.key for measure in MEASURES}
    assert len(drawn) == 20


def test_a_measure_never_taken_has_no_chart(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "brow", value=340, method="tape")
    assert set(charts(horse)) == {"brow"}


@pytest.mark.parametrize("measure", ["condition_score", "nose_gap"])
def test_what_does_not_grow_has_its_readings_and_no_band(
    yard: Yard, measure: str
) -> None:
    horse = youngster(yard)
    take_everything(horse)
    drawn = charts(horse)[measure]
    assert not drawn.chart.band
    assert drawn.chart.grown is None
    assert [row.age for row in drawn.figures]
    assert drawn.by == "Day"


def test_the_band_runs_from_before_the_first_reading_to_two_years_ahead(
    yard: Yard,
) -> None:
    horse = youngster(yard)
    make_measurement(horse, "brow", value=340, method="tape", on=days_ago(yard, 100))
    band = charts(horse)["brow"].chart.band
    ages = [point.age_months for point in band]
    assert ages == sorted(ages)
    assert ages[0] == pytest.approx((930 - 130) / 30.4375, abs=0.01)
    assert ages[-1] == pytest.approx((930 + 730) / 30.4375, abs=0.01)
    assert all(point.p5 < point.p50 < point.p95 for point in band)


def test_a_foal_never_measured_is_drawn_from_birth(yard: Yard) -> None:
    horse = make_horse(yard, foaled=days_ago(yard, 95).isoformat())
    replan(yard, today_in(yard))
    page = body_page(Horse.objects.get(pk=horse.pk), today_in(yard))
    assert page.main is not None
    assert page.main.chart.band[0].age_months == 0


def test_the_bit_a_horse_wears_is_drawn_beside_its_mouth(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    make_measurement(horse, "brow", value=340, method="tape")
    put_on(horse, make_bit(yard, name="Copper eggbutt"), days_ago(yard, 8))
    make_bit(yard, name="Hanging on its peg")
    drawn = charts(horse)
    (lane,) = drawn["mouth_width"].chart.lanes
    # 120.65 long, growing: 3 to 10 mm of room, and 2 more for its single joint.
    assert lane.good[0] == pytest.approx((108.65, 117.65))
    (row,) = drawn["mouth_width"].covers
    assert row.said.startswith("Copper eggbutt: good for a mouth width of 4¼ to 4⅝")
    assert "(109 to 118 mm), only just for" in row.said
    assert "(107 to 121 mm)" in row.said
    assert "Today: good" in row.said
    assert not drawn["brow"].chart.lanes


def test_a_headcollar_that_is_worn_says_which_noses_it_is_good_for(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "nose_round", value=500, method="tape")
    item = Tack.objects.create(yard=yard, key="web", name="Web", kind="headcollar")
    Part.objects.create(tack=item, part="nose", shortest_mm=480, longest_mm=600)
    put_on(horse, item, days_ago(yard, 8))
    drawn = charts(horse)["nose_round"]
    # young: 25 to 60 mm of slack is good, 10 to 90 only just
    assert drawn.chart.lanes[0].good[0] == pytest.approx((420, 575))
    (row,) = drawn.covers
    assert row.said.startswith("Web: good for 16½ to 22⅝")
    assert "(420 to 575 mm) round the nose, only just for" in row.said


def test_what_was_first_worn_counts_and_what_hangs_held_against_does_not(
    yard: Yard,
) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    worn, held = make_bit(yard, name="Worn"), make_bit(yard, name="Held")
    FirstWorn.objects.create(horse=horse, kind="bit", tack=worn, on=days_ago(yard, 9))
    TryOn.objects.create(horse=horse, on=days_ago(yard, 8), tack=held, how="held")
    said = [row.said for row in charts(horse)["mouth_width"].covers]
    assert len(said) == 1
    assert said[0].startswith("Worn:")


def test_a_bit_in_a_set_is_told_as_its_bit(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    bit = make_bit(yard, name="Copper eggbutt")
    made = TackSet.objects.create(yard=yard, name="First bridle", key="first-bridle")
    SetPart.objects.create(made_up=made, slot="bit", tack=bit)
    TryOn.objects.create(horse=horse, on=days_ago(yard, 8), made_up=made, how="worn")
    put_on(horse, bit, days_ago(yard, 30))
    (row,) = charts(horse)["mouth_width"].covers
    assert row.said.startswith("First bridle, its bit: good")


def test_four_items_are_drawn_and_a_fifth_is_told(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    for number in range(5):
        bit = make_bit(yard, name=f"Bit {number}", length_mm=115 + number)
        put_on(horse, bit, days_ago(yard, 8 + number))
    drawn = charts(horse)["mouth_width"]
    assert [lane.number for lane in drawn.chart.lanes] == [1, 2, 3, 4]
    assert [row.number for row in drawn.covers] == [1, 2, 3, 4, 0]
    assert drawn.covers[0].said.startswith("Bit 0")


def test_the_page_draws_what_the_tack_covers_and_names_it(
    keeper: Client, yard: Yard
) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    put_on(horse, make_bit(yard, name="Copper <eggbutt>"), days_ago(yard, 8))
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal") + "?more")
    assert "Copper &lt;eggbutt&gt;: good for" in page
    assert "tack in use" in page
    assert 'id="mouth_width"' in page
    assert "Today most likely" in page


def test_a_measure_of_the_ledger_leads_to_its_chart(keeper: Client, yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert 'href="?more#mouth_width"' in page
    assert 'href="?more#back_length"' not in page


@pytest.mark.parametrize("asked", ["", "?more"])
def test_queries_are_constant_however_many_readings_and_however_much_tack(
    keeper: Client, yard: Yard, asked: str, django_assert_num_queries: Any
) -> None:
    horse = youngster(yard)
    bit = make_bit(yard)
    made = TackSet.objects.create(yard=yard, name="First bridle", key="first-bridle")
    SetPart.objects.create(made_up=made, slot="bit", tack=bit)
    put_on(horse, bit, days_ago(yard, 8))
    replan(yard, today_in(yard))
    with CaptureQueriesContext(connection) as growth:
        growth_of(Horse.objects.select_related("yard").get(pk=horse.pk))
    # horse, outlook, measurements; what growth rests on; with every chart the tack
    expected = SIGNED_IN + 3 + len(growth) - 1 + (TACK if asked else 0)
    with django_assert_num_queries(expected):
        keeper.get(at("horse", "pennyroyal") + asked)
    take_everything(horse, times=4)
    for number in range(6):
        put_on(horse, make_bit(yard), days_ago(yard, 9 + number))
    replan(yard, today_in(yard))
    with django_assert_num_queries(expected):
        keeper.get(at("horse", "pennyroyal") + asked)


def test_a_long_name_and_a_struck_reading_alone_are_drawn(yard: Yard) -> None:
    name = "Marjoram of the Thistlethwaitesbottom Meadows"
    horse = make_horse(yard, name=name, foaled=days_ago(yard, 930).isoformat())
    make_measurement(horse, "brow", value=340, method="tape", struck="slipped")
    drawn = charts(horse)["brow"]
    assert [reading.mark for reading in drawn.chart.readings] == ["struck"]
    assert drawn.rests_on.startswith("Rests on no reading")
    assert drawn.chart.title.startswith(name)


def test_a_reading_from_before_the_foaling_day_breaks_no_chart(yard: Yard) -> None:
    horse = youngster(yard)
    early = days_ago(yard, 930) - timedelta(days=3)
    make_measurement(horse, "brow", value=340, method="tape", on=early)
    assert charts(horse)["brow"].chart.band


def test_what_a_try_on_taught_is_marked_on_a_chart_of_its_own(yard: Yard) -> None:
    horse = make_horse(yard, foaled=days_ago(yard, 930).isoformat())
    replan(yard, today_in(yard))
    fresh = Horse.objects.select_related("yard").get(pk=horse.pk)
    seen = seen_of(fresh)
    assert seen is not None
    bound = Bound(
        measure="mouth_width",
        on=days_ago(yard, 60),
        kind="at_least",
        value=105.0,
        sigma=3.0,
    )
    growth = fit_growth(subject_of(fresh), (), bounds=(bound,))
    known = Known(horse=fresh, growth=growth, seen=seen, rows=(), on=today_in(yard))
    assert charted(known) == ("withers_height", "mouth_width")
    drawn = growth_chart(known, "mouth_width")
    assert drawn is not None
    (mark,) = drawn.chart.bounds
    assert (mark.value, mark.side) == (105.0, "least")
    assert mark.age_months == pytest.approx(870 / 30.4375, abs=0.01)


def test_the_winter_dip_is_explained_of_a_horse_that_lives_out(yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(horse, "weight", value=300, method="weigh_tape")
    assert charts(horse)["weight"].caution == ""
    Horse.objects.filter(pk=horse.pk).update(lives_out=True)
    assert "winter dip" in charts(horse)["weight"].caution
