"""Readings that are refused, or doubted, on the page of measuring."""

from __future__ import annotations

import pytest
from django.test import Client

from fitting.models import Horse, Measurement, Yard
from tests.fitting.making_measured import (
    at,
    body_of,
    box,
    given,
    pennyroyal,
)


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


EIGHT = {
    "height_1": "12.3",
    "height_2": "12.3¼",
    "height_3": "13.4",
    "girth_1": "59",
    "girth_2": "59½",
    "girth_3": "59¼",
    "mouth_1": "4 3/8",
    "mouth_2": "4 1/2",
}


def test_one_bad_reading_saves_nothing_and_keeps_all_eight(
    keeper: Client, horse: Horse
) -> None:
    page = body_of(keeper.post(at("measure"), given(horse, **EIGHT)))
    for name, value in given(horse, **EIGHT).items():
        if "-" in name:
            assert f'value="{value}"' in box(page, name), name
    assert "checked" in box(page, "same_person")
    assert 'value="Jo"' in box(page, "who")
    assert not Measurement.objects.exists()


def test_the_refused_box_is_framed_with_its_sentence_and_its_meanings(
    keeper: Client, horse: Horse
) -> None:
    page = body_of(keeper.post(at("measure"), given(horse, **EIGHT)))
    refused = box(page, "withers_height-3")
    assert 'aria-invalid="true"' in refused
    assert 'aria-describedby="id_withers_height-3_error"' in refused
    assert 'id="id_withers_height-3_error"' in page
    assert "13.4 cannot be read." in page
    assert "A hand has four inches" in page
    assert "13.3 hands (139.7\u2009cm)" in page
    assert "14.0 hands (142.2\u2009cm)" in page
    assert "The rest of the page is kept." in page
    assert "aria-invalid" not in box(page, "withers_height-1")


def test_a_meaning_picked_without_any_script_is_used(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, height_1="13.4")
    body_of(keeper.post(at("measure"), typed))
    typed["withers_height-1-meant"] = "13.4|13.3 hands"
    response = keeper.post(at("measure"), typed)
    assert response.status_code == 302
    written = Measurement.objects.get()
    assert written.readings == [{"written": "13.3 hands", "value": 1397.0}]


def test_a_picked_meaning_stands_while_another_box_is_refused(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, height_1="13.4", height_2="thirteen")
    typed["withers_height-1-meant"] = "13.4|13.3 hands"
    page = body_of(keeper.post(at("measure"), typed))
    assert "13.4 is read as 13.3 hands" in page
    assert "checked" in box(page, "withers_height-1-meant")
    assert "aria-invalid" not in box(page, "withers_height-1")


@pytest.mark.parametrize("meant", ["13.4|99 hands", "13.5|13.3 hands", "rubbish"])
def test_only_an_offered_meaning_of_this_very_text_is_taken(
    keeper: Client, horse: Horse, meant: str
) -> None:
    typed = {**given(horse, height_1="13.4"), "withers_height-1-meant": meant}
    body_of(keeper.post(at("measure"), typed))
    assert not Measurement.objects.exists()


@pytest.mark.parametrize(
    "typed", ["1e999", "nan", "-12", "0", "٣", "<b>1</b>", "x" * 99]
)
def test_rubbish_is_refused_in_words_and_never_a_fault(
    keeper: Client, horse: Horse, typed: str
) -> None:
    page = body_of(keeper.post(at("measure"), given(horse, girth_1=typed)))
    assert "cannot be read." in page
    assert "<b>1</b>" not in page


def test_a_method_that_nobody_uses_for_it_is_refused(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, height_1="12.3", height_method="weighbridge")
    body_of(keeper.post(at("measure"), typed))
    assert not Measurement.objects.exists()


def test_a_folded_measure_opens_when_it_is_refused(
    keeper: Client, horse: Horse
) -> None:
    typed = {**given(horse), "rug_length-1": "long"}
    page = body_of(keeper.post(at("measure"), typed))
    assert '<details class="rest" open>' in page
    assert 'href="#rug_length">rug length</a>' in page


def test_a_reading_far_from_the_others_is_asked_about_and_framed(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, girth_1="60", girth_2="64¼", girth_3="60¼")
    page = body_of(keeper.post(at("measure"), typed))
    assert "64¼\u2009in is 4⅛\u2009in more than the others." in page
    assert "Measure once more, or keep it." in page
    assert 'class="reading odd"' in box(page, "heart_girth-2")
    assert 'aria-describedby="heart_girth-doubt"' in box(page, "heart_girth-2")
    assert "once more" in page
    assert box(page, "heart_girth-4")
    assert not Measurement.objects.exists()


def test_measuring_once_more_settles_the_doubt(keeper: Client, horse: Horse) -> None:
    typed = given(horse, girth_1="60", girth_2="64¼", girth_3="60¼", girth_4="60¼")
    assert keeper.post(at("measure"), typed).status_code == 302
    assert len(Measurement.objects.get().values) == 4


def test_a_doubted_reading_is_kept_when_asked_to(keeper: Client, horse: Horse) -> None:
    typed = given(horse, girth_1="60", girth_2="64¼", girth_3="60¼")
    typed["heart_girth-keep"] = "60, 64¼, 60¼"
    assert keeper.post(at("measure"), typed).status_code == 302
    assert Measurement.objects.get().written == "60, 64¼, 60¼"


def test_keeping_one_doubt_does_not_keep_the_next(keeper: Client, horse: Horse) -> None:
    typed = given(horse, girth_1="60", girth_2="70", girth_3="60¼")
    typed["heart_girth-keep"] = "60, 64¼, 60¼"
    body_of(keeper.post(at("measure"), typed))
    assert not Measurement.objects.exists()


def test_a_size_absurd_at_that_age_is_a_doubt_and_no_refusal(
    keeper: Client, horse: Horse
) -> None:
    typed = given(horse, height_1="17.3")
    page = body_of(keeper.post(at("measure"), typed))
    assert "is far from what is usual of this type at that age" in page
    assert "Look again, or keep it." in page
    assert 'value="17.3"' in box(page, "withers_height-keep")
    assert not Measurement.objects.exists()
    typed["withers_height-keep"] = "17.3"
    assert keeper.post(at("measure"), typed).status_code == 302
    assert Measurement.objects.get().written == "17.3"
