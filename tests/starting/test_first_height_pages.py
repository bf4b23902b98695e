"""The first measurement: a height as it is typed, read back, asked about and kept."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Measurement, Yard
from tests.make import make_horse


def height_of(horse: Horse) -> str:
    return reverse("first-measurement", args=[horse.yard.slug, horse.key])


def readings(*typed: str, **more: str) -> dict[str, str]:
    boxes = {f"withers_height-{n}": text for n, text in enumerate(typed, start=1)}
    on = (timezone.localdate() - timedelta(days=1)).isoformat()  # any near day
    return {**boxes, "withers_height-method": "stick", "on": on, "token": "t", **more}


def test_the_readings_are_kept_as_typed_and_said_back(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard, name="Pennyroyal")
    sent = readings("12.3", "12.3 1/4", "12.3¼")
    done = keeper.post(height_of(horse), sent)
    written = Measurement.objects.get()
    assert done.headers["Location"] == horse.get_absolute_url()
    assert written.written == "12.3, 12.3 1/4, 12.3¼"
    assert written.values == (1295.4, 1301.75, 1301.75)
    assert (written.measure, written.method) == ("withers_height", "stick")
    said = [str(m) for m in get_messages(done.wsgi_request)]
    assert said == ["Written in: withers height 12.3¼ hands (130.2\u2009cm)."]


def test_reading_back_says_what_was_understood_and_writes_nothing(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard)
    page = keeper.post(height_of(horse), readings("12.3", check="yes"))
    assert page.status_code == 200
    assert "12.3 hands (129.5\u2009cm)" in page.content.decode()
    assert "Not written in yet." in page.content.decode()
    assert not Measurement.objects.exists()


def test_a_page_that_asks_by_itself_gets_the_answer_alone(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard)
    sent = readings("12.3", check="yes")
    part = keeper.post(height_of(horse), sent, headers={"HX-Request": "true"})
    assert "12.3 hands (129.5\u2009cm)" in part.content.decode()
    assert "Not written in yet." in part.content.decode()
    assert "<html" not in part.content.decode()
    assert not Measurement.objects.exists()


def test_a_reading_that_is_no_height_is_refused_with_what_was_likely_meant(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard)
    page = keeper.post(height_of(horse), readings("13.4"))
    said = page.content.decode()
    assert page.status_code == 422
    assert "13.4 cannot be read." in said
    assert "14.0 hands" in said
    assert 'value="13.4"' in said
    assert not Measurement.objects.exists()


def test_a_height_hard_to_believe_is_asked_about_and_kept_if_said_so(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard, horse_type="small_pony")
    page = keeper.post(height_of(horse), readings("16.2"))
    assert page.status_code == 422
    assert "far from what is usual of this type at that age" in page.content.decode()
    assert not Measurement.objects.exists()
    keeper.post(height_of(horse), readings("16.2", **{"withers_height-keep": "16.2"}))
    assert Measurement.objects.get().written == "16.2"


def test_readings_far_apart_are_asked_about(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard)
    page = keeper.post(height_of(horse), readings("12.3", "13.1"))
    assert page.status_code == 422
    assert "The two lie" in page.content.decode()
    assert not Measurement.objects.exists()


def test_a_height_without_a_reading_is_refused(keeper: Client, yard: Yard) -> None:
    horse = make_horse(yard)
    page = keeper.post(height_of(horse), readings())
    assert page.status_code == 422
    assert "Write one reading at least." in page.content.decode()
    assert not Measurement.objects.exists()


@pytest.mark.parametrize(
    ("on", "said"),
    [("2199-01-01", "still to come"), ("2020-01-01", "she was not foaled yet")],
)
def test_a_day_on_which_nobody_could_measure_is_refused(
    keeper: Client, yard: Yard, on: str, said: str
) -> None:
    horse = make_horse(yard)
    page = keeper.post(height_of(horse), readings("12.3", on=on))
    assert page.status_code == 422
    assert said in page.content.decode()
    assert not Measurement.objects.exists()


def test_a_height_sent_twice_is_written_once(helper: Client, yard: Yard) -> None:
    horse = make_horse(yard)
    for _ in range(2):
        done = helper.post(height_of(horse), readings("12.3"))
        assert done.headers["Location"] == horse.get_absolute_url()
    assert Measurement.objects.count() == 1


def test_each_page_can_be_left_for_later(keeper: Client, yard: Yard) -> None:
    page = keeper.get(reverse("first-horse", args=[yard.slug])).content.decode()
    assert f'href="{yard.get_absolute_url()}">Later</a>' in page
    horse = make_horse(yard)
    page = keeper.get(height_of(horse)).content.decode()
    assert f'href="{horse.get_absolute_url()}">Later</a>' in page
