"""Nothing that a page or a file says is believed before it is checked again."""

from __future__ import annotations

from datetime import date

import pytest
from django.test import Client

from fitting.models import Horse, Measurement, Yard
from tests.fitting.making_looked import LIST, NEW, at, file, look, page_of, sends, write
from tests.make import make_horse, make_measurement, make_yard

pytestmark = pytest.mark.django_db


@pytest.fixture
def horse(yard: Yard) -> Horse:
    make_horse(yard, name="Old Marl", foaled="2008", grown=True)
    return make_horse(yard, name="Pennyroyal")


def test_what_stands_in_a_file_is_text_and_never_part_of_the_page(
    keeper: Client, horse: Horse
) -> None:
    evil = "<script>alert(1)</script>"
    text = f"Horse,Day,Withers,Method,{evil}\n{evil},2026-01-01,118,stick,{evil}\n"
    page = page_of(keeper.post(at(NEW), {"file": file(text, f"{evil}.csv")}))
    assert "<script>a" not in page
    assert "&lt;script&gt;" in page


def test_a_retry_on_poor_signal_writes_once(keeper: Client, horse: Horse) -> None:
    sent = look(keeper)
    first, again = write(keeper, sent), write(keeper, sent)
    assert first.headers["Location"] == again.headers["Location"]
    assert Measurement.objects.count() == 3


def test_what_changed_since_it_was_shown_is_shown_again_first(
    keeper: Client, horse: Horse
) -> None:
    sent = look(keeper)
    Horse.objects.filter(name="Old Marl").update(name="Young Marl")
    page = page_of(write(keeper, sent), 422)
    assert "has changed since it was shown" in page
    assert "No horse here is called Old Marl. Young Marl may be meant." in page
    assert not Measurement.objects.exists()
    write(keeper, sends(page))
    assert Measurement.objects.count() == 2


@pytest.mark.parametrize(
    "tampered",
    [
        {"text": LIST.replace("118", "119")},
        {"seen": "0" * 64},
        {"column-2": "croup_height"},
        {"height": "hands", "text": LIST.replace(" (cm)", "")},
        {"text": "\x00"},
        {"text": ""},
        {"text": 'Horse,Day\n"'},
    ],
)
def test_nothing_that_was_not_shown_is_written_in(
    keeper: Client, horse: Horse, tampered: dict[str, str]
) -> None:
    page = page_of(write(keeper, look(keeper), **tampered), 422)
    assert "has changed since it was shown" in page
    assert not Measurement.objects.exists()


def test_choices_that_were_never_offered_are_not_believed(
    keeper: Client, horse: Horse
) -> None:
    far = make_horse(make_yard(), name="Elsewhere")
    never = {"column-0": "yard", "order": "x", "horse": far.key, "length": "miles"}
    never |= {"delimiter": "|", "method-withers_height": "eye", "do": "look"}
    sent = look(keeper) | never
    page = page_of(keeper.post(at(NEW), sent))
    assert "3 measurements can be written in." in page
    assert far.key not in sends(page)["horse"]


def test_another_yards_horses_and_sizes_are_unknown_here(
    keeper: Client, horse: Horse
) -> None:
    far = make_horse(make_yard(), name="Elsewhere")
    same_name = make_horse(far.yard, name="Pennyroyal")
    make_measurement(same_name, on=date(2026, 1, 10), value=1180.0)
    text = LIST + "Elsewhere,2026-01-10,118,stick,\n"
    page = page_of(keeper.post(at(NEW), {"text": text}))
    assert "No horse here is called Elsewhere." in page
    assert "3 measurements can be written in." in page
