"""The horses of the yard, and the body of one."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.reads.today import today_in
from starting.writes import replan
from tests.fitting.making_youngster import at, days_ago, text_of, youngster
from tests.make import SIGNED_IN, make_horse, make_measurement, make_yard

# The list


def test_an_empty_yard_says_what_will_stand_there_and_leads_to_the_first_horse(
    keeper: Client, yard: Yard
) -> None:
    page = text_of(keeper, at("horses"))
    assert "No horse stands here yet" in page
    assert at("add-horse") in page


def test_a_viewer_of_an_empty_yard_is_not_sent_where_they_may_not_go(
    viewer: Client, yard: Yard
) -> None:
    assert at("add-horse") not in text_of(viewer, at("horses"))


def test_the_list_shows_age_height_and_grown_horses_apart(
    keeper: Client, yard: Yard
) -> None:
    youngster(yard)
    make_horse(yard, name="Sorrel Foal", foaled=days_ago(yard, 95).isoformat())
    make_horse(yard, name="Old Marl", foaled="2012", grown=True)
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horses"))
    assert "Filly, 30 months. Rising three. Pony." in page
    assert "at the withers" in page
    assert "Not measured yet" in page
    assert "by type and age" in page
    assert page.index("Sorrel Foal") < page.index(">Grown<") < page.index("Old Marl")


def test_many_horses_get_one_line_each(keeper: Client, yard: Yard) -> None:
    for number in range(9):
        make_horse(yard, name=f"Horse {number}")
    page = text_of(keeper, at("horses"))
    assert 'class="quiet"' in page
    assert "Horse 8" in page


@pytest.mark.parametrize("how_many", [1, 6])
def test_the_list_takes_one_query_however_many_horses(
    keeper: Client, yard: Yard, how_many: int, django_assert_num_queries: Any
) -> None:
    for number in range(how_many):
        youngster(yard, f"Horse {number}", readings=1)
    replan(yard, today_in(yard))
    with django_assert_num_queries(SIGNED_IN + 1):  # horses with their briefs
        keeper.get(at("horses"))


# The body


def test_the_body_page_says_height_share_and_grown_height(
    keeper: Client, yard: Yard
) -> None:
    horse = youngster(yard)
    horse.dam_height_mm = 1340
    horse.save()
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert '<p class="big">12.3½ hands</p>' in page
    assert "Today she stands" in page
    assert "% of the height she is likely to reach" in page
    assert "Both nine times in ten." in page
    assert "Rests on 5 measurements since" in page
    assert "the height of the dam" in page
    assert "dam 13.0¾" in page
    assert "Lamas and others, 2007" in page
    assert "A stale measurement is good for no more than a caution" in page
    assert "The same in figures" in page


def test_the_chart_tells_methods_apart_and_keeps_tape_heights_out(
    keeper: Client, yard: Yard
) -> None:
    horse = youngster(yard)
    make_measurement(horse, on=days_ago(yard, 200), value=1370, method="tape")
    make_measurement(horse, on=days_ago(yard, 300), value=900, struck="slipped")
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert "stick, with its error" in page
    assert "tape over the shoulder: reads high, kept out" in page
    assert "struck out" in page


def test_other_measures_by_age_are_drawn_when_asked_for(
    keeper: Client, yard: Yard
) -> None:
    horse = youngster(yard)
    make_measurement(horse, "mouth_width", value=110, method="dowel")
    replan(yard, today_in(yard))
    address = at("horse", "pennyroyal")
    short, long = text_of(keeper, address), text_of(keeper, f"{address}?more")
    assert "?more" in short
    assert "No growth curve of the mouth is published" not in short
    assert "No growth curve of the mouth is published" in long
    assert "Mouth width by age" in long


def test_a_foal_never_measured_shows_its_wide_band_and_says_so(
    keeper: Client, yard: Yard
) -> None:
    make_horse(
        yard, name="Sorrel Foal", sex="colt", foaled=days_ago(yard, 95).isoformat()
    )
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "sorrel-foal"))
    assert "Not measured yet" in page
    assert "By type and age alone he stands" in page
    assert "Rests on no reading" in page
    assert 'class="chart narrow"' in page
    assert "Measure for the first time" in page


def test_a_grown_horse_has_a_table_and_no_chart(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard, name="Old Marl", foaled="2012", grown=True)
    make_measurement(horse, value=1380)
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "old-marl"))
    assert "13.2¼ hands" in page
    assert "<caption>Measured</caption>" in page
    assert 'class="chart' not in page
    assert "Again by" not in page
    assert 'class="chart' in text_of(keeper, at("horse", "old-marl") + "?more")


def test_a_stale_measure_is_marked_and_due(keeper: Client, yard: Yard) -> None:
    horse = youngster(yard)
    make_measurement(
        horse, "mouth_width", on=days_ago(yard, 120), value=110, method="dowel"
    )
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert '<small class="w-unknown">stale</small>' in page


def test_a_viewer_reads_the_body_and_is_shown_no_form(
    viewer: Client, yard: Yard
) -> None:
    youngster(yard)
    replan(yard, today_in(yard))
    page = text_of(viewer, at("horse", "pennyroyal"))
    assert f'"{at("measure", "pennyroyal")}"' not in page
    assert at("edit-horse", "pennyroyal") not in page


def test_a_horse_of_another_yard_is_not_there(keeper: Client, yard: Yard) -> None:
    make_horse(make_yard(), name="Elsewhere")
    assert keeper.get(at("horse", "elsewhere")).status_code == 404


@pytest.mark.parametrize("name", ["horses", "add-horse"])
def test_strangers_find_nothing_and_the_signed_out_sign_in(
    name: str, stranger: Client, yard: Yard
) -> None:
    assert stranger.get(at(name)).status_code == 404
    signed_out = Client().get(at(name))
    assert signed_out.status_code == 302
    assert signed_out.headers["Location"].startswith(reverse("sign-in"))


@pytest.mark.parametrize("name", ["edit-horse", "delete-horse"])
def test_only_the_keeper_corrects_or_deletes(
    name: str, helper: Client, viewer: Client, yard: Yard
) -> None:
    make_horse(yard, name="Pennyroyal")
    for client in (helper, viewer):
        assert client.get(at(name, "pennyroyal")).status_code == 403
        assert client.post(at(name, "pennyroyal")).status_code == 403
    assert Horse.objects.count() == 1


def test_the_chart_marks_the_ages_for_tack_and_for_a_rider(
    keeper: Client, yard: Yard
) -> None:
    youngster(yard)
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert "tack from 30 months" in page
    assert "rider from 36 months" in page
    assert "earliest starting points, not targets" in page


def test_a_day_of_the_ledger_over_a_year_off_shows_its_year(
    keeper: Client, yard: Yard
) -> None:
    horse = youngster(yard)
    near, far = days_ago(yard, 40), days_ago(yard, 400)
    make_measurement(horse, "brow", on=near, value=340, method="tape")
    make_measurement(horse, "nose_round", on=far, value=540, method="tape")
    replan(yard, today_in(yard))
    page = text_of(keeper, at("horse", "pennyroyal"))
    assert f"<small>tape, {near.day} {near:%b}</small>" in page
    assert f"<small>tape, {far.day} {far:%b %Y}</small>" in page
