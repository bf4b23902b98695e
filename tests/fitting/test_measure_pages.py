"""Measuring: one walk round the horse."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client

from fitting.body import MEASURES
from fitting.models import Horse, Measurement, Yard
from fitting.reads.today import today_in
from starting.writes import replan
from tests.fitting.making_measured import (
    at,
    body_of,
    box,
    days_ago,
    given,
    pennyroyal,
    said,
)
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement, make_yard


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


def test_every_measure_is_on_the_page_with_how_it_is_taken(
    keeper: Client, horse: Horse
) -> None:
    page = body_of(keeper.get(at("measure")), 200)
    for measure in MEASURES:
        assert f'name="{measure.key}-1"' in page
        assert measure.how.partition(".")[0] in page


def test_what_is_due_comes_first_and_the_rest_is_folded(
    keeper: Client, horse: Horse
) -> None:
    make_measurement(horse, "mouth_width", days_ago(horse, 120), 110, method="calliper")
    make_measurement(horse, on=days_ago(horse, 5))
    for measure, value in (("head_length", 900.0), ("heart_girth", 1500.0)):
        make_measurement(horse, measure, days_ago(horse, 5), value, method="tape")
    make_measurement(horse, "weight", days_ago(horse, 5), 250.0, method="weigh_tape")
    replan(horse.yard, today_in(horse.yard))
    page = body_of(keeper.get(at("measure")), 200)
    assert "Due: mouth width." in page
    assert page.index('id="mouth_width"') < page.index("Any other measure")
    assert page.index("Any other measure") < page.index('id="withers_height"')
    assert "Last 4⅜\u2009in, calliper" in page

    assert 'value="calliper" id="id_mouth_width-method_2" checked' in page


def test_a_measure_asked_for_in_the_address_comes_first(
    keeper: Client, horse: Horse
) -> None:
    page = body_of(keeper.get(f"{at('measure')}?measure=rug_length"), 200)
    assert page.index('id="rug_length"') < page.index("Any other measure")


def test_who_measured_last_is_filled_in(keeper: Client, horse: Horse) -> None:
    make_measurement(horse, who="Sam", same_person=True)
    page = body_of(keeper.get(at("measure")), 200)
    assert 'value="Sam"' in box(page, "who")
    assert "checked" in box(page, "same_person")


@pytest.mark.parametrize("readings", [5, 60])
def test_the_page_takes_three_queries_however_many_readings(
    keeper: Client, horse: Horse, readings: int, django_assert_num_queries: Any
) -> None:
    for number in range(readings):
        make_measurement(horse, on=days_ago(horse, number + 1))
    replan(horse.yard, today_in(horse.yard))
    with django_assert_num_queries(SIGNED_IN + 3):  # horse, outlook, last measurement
        keeper.get(at("measure"))


def test_each_filled_measure_becomes_one_measurement(
    helper: Client, horse: Horse
) -> None:
    typed = given(
        horse,
        height_1="12.3",
        height_2="12.3 1/4",
        height_3="12.3¼",
        mouth_1="11,3 cm",
        mouth_method="string",
        shod="on",
    )
    response = helper.post(at("measure"), typed)
    assert response.headers["Location"] == horse.get_absolute_url()
    height, mouth = Measurement.objects.order_by("-measure")
    assert [r["written"] for r in height.readings] == ["12.3", "12.3 1/4", "12.3¼"]
    assert height.values == pytest.approx((1295.4, 1301.75, 1301.75))
    assert (height.method, height.who, height.shod) == ("stick", "Jo", True)
    assert height.same_person
    assert mouth.values == pytest.approx((113,))
    assert (mouth.measure, mouth.method) == ("mouth_width", "string")
    assert mouth.written_by is not None


def test_what_was_understood_is_said_in_both_units(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, height_1="12.3", height_2="12.3 1/4", height_3="12.3 1/4")
    response = keeper.post(at("measure"), typed)
    understood = "12.3¼ hands (130.2\u2009cm), the three inside ¼\u2009in."
    assert said(response) == [f"Withers height {understood}"]


def test_the_phone_forgets_its_draft_once_it_is_saved(
    keeper: Client, horse: Horse
) -> None:
    response = keeper.post(at("measure"), given(horse, height_1="12.3"), follow=True)
    page = body_of(response, 200)
    form = body_of(keeper.get(at("measure")), 200)
    assert 'data-draft="measure-sallow-end-pennyroyal"' in form
    assert 'data-saved="measure-sallow-end-pennyroyal"' in page


@pytest.mark.parametrize(
    ("typed", "by", "told"),
    [
        ("1306 mm", True, "Within ⅜\u2009in of"),
        ("1307 mm", True, "Up ⅜\u2009in since"),
        ("1285 mm", True, "Down ⅜\u2009in since"),
        ("1314 mm", False, "Within ¾\u2009in of"),
        ("1330 mm", False, "Up 1⅜\u2009in since"),
    ],
)
def test_a_height_is_called_growth_only_where_a_stick_can_tell(
    keeper: Client, horse: Horse, typed: str, by: bool, told: str
) -> None:
    make_measurement(horse, on=days_ago(horse, 20), value=1296, same_person=by)
    replan(horse.yard, today_in(horse.yard))
    response = keeper.post(at("measure"), given(horse, height_1=typed))
    assert told in said(response)[0]
    assert ("not called growth" in said(response)[0]) is told.startswith("Within")
    assert ("not surely read by the same person" in said(response)[0]) is (
        not by and told.startswith("Within")
    )


def test_shoes_are_never_called_growth(keeper: Client, horse: Horse) -> None:
    make_measurement(horse, on=days_ago(horse, 20), value=1296, same_person=True)
    typed = given(horse, height_1="1311 mm", shod="on")
    told = said(keeper.post(at("measure"), typed))[0]
    assert "Within ⅜\u2009in of" in told
    assert "The shoes are taken off the figure." in told


def test_what_is_due_is_asked_where_one_stands(keeper: Client, horse: Horse) -> None:
    page = body_of(keeper.get(at("measure")), 200)
    order = ["In front of the head", "Near side of the head", "Shoulder", "Barrel"]
    places = [page.index(f'<h2 class="hand sect">{title}') for title in order]
    assert places == sorted(places)
    assert places[0] < page.index('id="mouth_width"') < places[1]
    assert places[-1] < page.index('id="heart_girth"') < page.index("Any other")


def test_how_a_measure_is_taken_is_folded_once_it_was_taken(
    keeper: Client, horse: Horse
) -> None:
    make_measurement(horse, "mouth_width", days_ago(horse, 2), 110, method="calliper")
    page = body_of(keeper.get(f"{at('measure')}?measure=mouth_width&measure=brow"), 200)
    mouth = page[page.index('id="mouth_width"') : page.index('id="brow"')]
    assert '<details class="howto">' in mouth
    assert "2 mm by calliper (ours)" in mouth
    assert "it is asked about once more" in mouth
    assert '<details class="howto" open>' in page[page.index('id="brow"') :]


@pytest.mark.django_db(transaction=True)  # the yard is planned after the commit
def test_what_it_changes_for_the_tack_is_said_after_saving(
    keeper: Client, horse: Horse
) -> None:
    make_bit(horse.yard, name="Small eggbutt", length_mm=118)
    replan(horse.yard, today_in(horse.yard))
    told = said(keeper.post(at("measure"), given(horse, mouth_1="112 mm")))
    assert told[1].startswith("Small eggbutt: good")
    assert "nothing could be said before" in told[1]


def test_a_retry_on_poor_signal_saves_once(keeper: Client, horse: Horse) -> None:
    first = keeper.post(at("measure"), given(horse, height_1="12.3"))
    again = keeper.post(at("measure"), given(horse, height_1="12.3"))
    assert again.headers["Location"] == first.headers["Location"]
    assert Measurement.objects.count() == 1


def test_reading_it_back_saves_nothing(keeper: Client, horse: Horse) -> None:
    typed = {**given(horse, height_1="12.3"), "check": "yes"}
    page = body_of(keeper.post(at("measure"), typed), 200)
    assert "12.3 hands (129.5\u2009cm), one reading." in page
    assert not Measurement.objects.exists()


def test_reading_it_back_opens_no_fold(keeper: Client, horse: Horse) -> None:
    fresh = keeper.get(at("measure")).content.decode()
    assert '<details class="howto" open>' in fresh  # never taken: how it is done
    typed = {**given(horse, height_1="12.3"), "check": "yes"}
    read = keeper.post(at("measure"), typed).content.decode()
    assert "<details" in read
    assert not re.search(r"<details[^>]*\bopen\b", read)


def test_a_page_without_a_reading_is_refused(keeper: Client, horse: Horse) -> None:
    page = body_of(keeper.post(at("measure"), given(horse)))
    assert "Write one reading at least." in page


@pytest.mark.parametrize(
    ("days", "why"), [(-1, "still to come"), (940, "she was not foaled yet")]
)
def test_a_day_on_which_nobody_could_measure_is_refused(
    keeper: Client, horse: Horse, days: int, why: str
) -> None:
    typed = {**given(horse, height_1="12.3"), "on": str(days_ago(horse, days))}
    page = body_of(keeper.post(at("measure"), typed))
    assert why in page
    assert not Measurement.objects.exists()


@pytest.mark.parametrize("name", ["measure", "measured"])
def test_strangers_find_nothing_and_the_signed_out_sign_in(
    name: str, stranger: Client, horse: Horse
) -> None:
    assert stranger.get(at(name)).status_code == 404
    assert Client().get(at(name)).status_code == 302


def test_a_viewer_reads_the_history_and_writes_nothing(
    viewer: Client, horse: Horse
) -> None:
    row = make_measurement(horse)
    page = body_of(viewer.get(at("measured")), 200)
    assert "13.0 hands" in page
    assert at("edit-measurement", row.pk) not in page
    assert viewer.get(at("measure")).status_code == 403
    assert viewer.post(at("measure"), given(horse, height_1="12.3")).status_code == 403
    assert viewer.get(at("edit-measurement", row.pk)).status_code == 403
    assert viewer.post(at("delete-measurement", row.pk)).status_code == 403
    assert Measurement.objects.count() == 1


def test_a_measurement_of_another_yard_is_not_there(
    keeper: Client, horse: Horse
) -> None:
    other = make_measurement(make_horse(make_yard(), name="Pennyroyal"))
    for name in ("edit-measurement", "delete-measurement"):
        assert keeper.get(at(name, other.pk)).status_code == 404
        assert keeper.post(at(name, other.pk)).status_code == 404
    assert Measurement.objects.filter(pk=other.pk).exists()
