"""A list is chosen, looked through and written in; nothing before that."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import BroughtIn, Horse, Measurement, Yard
from starting.writes import replan, today_in
from tests.fitting.making_looked import LIST, NEW, at, file, look, page_of, sends, write
from tests.make import make_horse

pytestmark = pytest.mark.django_db
AT_ONCE = "Horse;Day;Withers;Method\n"


@pytest.fixture
def horse(yard: Yard) -> Horse:
    make_horse(yard, name="Old Marl", foaled="2008", grown=True)
    return make_horse(yard, name="Pennyroyal")


def test_the_page_is_found_from_where_one_writes(keeper: Client, horse: Horse) -> None:
    for name, args in (
        ("starting:write", []),
        ("fitting:measured", [horse.key]),
        ("fitting:all-brought", []),
    ):
        page = page_of(keeper.get(reverse(name, args=["sallow-end", *args])))
        assert at(NEW) in page, name
    settings = page_of(
        keeper.get(reverse("starting:yard-settings", args=["sallow-end"]))
    )
    assert at("all-brought") in settings


def test_a_helper_is_shown_no_way_to_it(helper: Client, horse: Horse) -> None:
    for name, args in (("starting:write", []), ("fitting:measured", [horse.key])):
        page = page_of(helper.get(reverse(name, args=["sallow-end", *args])))
        assert "brought-in" not in page
    assert helper.get(at(NEW)).status_code == 403


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "Nothing is written in it."),
        (b"Horse,Day\nAsh\x00,1", "signs in this that are no text"),
        (b"PK\x03\x04 and the rest", "own kind of file"),
        (b'Horse,Day\n"Ash,1', "Line 2 cannot be taken apart"),
        (b"x" * 1_000_001, "1 MB at most"),
        (b"Horse,Day\n" + b"a,b\n" * 5001, "5000 lines at most"),
    ],
)
def test_a_file_that_is_no_list_is_refused_by_its_field(
    keeper: Client, horse: Horse, content: bytes, why: str
) -> None:
    page = page_of(keeper.post(at(NEW), {"file": file(content)}), 422)
    assert why in page
    assert 'id="id_file_error"' in page


def test_nothing_chosen_and_both_chosen_are_refused_and_what_was_pasted_stays(
    keeper: Client, horse: Horse
) -> None:
    assert "Choose a file, or paste" in page_of(keeper.post(at(NEW), {}), 422)
    both = keeper.post(at(NEW), {"file": file(LIST), "text": "Horse,Day\nmy own,1"})
    page = page_of(both, 422)
    assert "not both" in page
    assert "my own,1" in page
    nul = page_of(keeper.post(at(NEW), {"text": "Horse,Day\nmine,\x00"}), 422)
    assert "no text" in nul
    assert "mine," in nul


def test_looking_through_says_what_it_comes_to_and_saves_nothing(
    keeper: Client, horse: Horse
) -> None:
    text = (
        LIST
        + "Pennyroyel,2026-03-10,120,stick,\n\nPennyroyal,2026-03-10,13.4 hh,stick,"
    )
    page = page_of(keeper.post(at(NEW), {"file": file(text.encode("utf-16"))}))
    assert "book.csv: 5 lines, letters in UTF-16. Nothing is written in yet." in page
    assert "3 measurements can be written in." in page
    assert "2 cannot be read and are left." in page
    assert "<b>Line 5.</b> No horse here is called Pennyroyel. Pennyroyal may" in page
    assert "<b>Line 7.</b> Withers height: 13.4 hh cannot be read." in page
    assert "10 Jan 2026 to 10 Feb 2026" in page
    assert not Measurement.objects.exists()
    assert not BroughtIn.objects.exists()


def test_one_sentence_stands_once_with_all_its_lines(
    keeper: Client, horse: Horse
) -> None:
    lines = "".join(f"Nobody,2026-01-{n:02d},118,stick,\n" for n in (1, 2, 3, 5))
    page = page_of(keeper.post(at(NEW), {"text": LIST + lines}))
    assert "<b>Lines 5 to 8.</b> No horse here is called Nobody." in page


def test_a_list_is_written_in_as_it_was_seen(keeper: Client, horse: Horse) -> None:
    before = horse.yard.version
    answer = write(keeper, look(keeper), name="The blue book")
    row = BroughtIn.objects.get()
    assert answer.headers["Location"] == row.get_absolute_url()
    assert horse.measurements.count() == 2
    assert Measurement.objects.get(horse__name="Old Marl").values == (1420.0,)
    windy = Measurement.objects.get(note="windy")
    assert (windy.on, windy.values, windy.method) == (
        date(2026, 2, 10),
        (1195.0,),
        "stick",
    )
    assert windy.written == "119.5 cm"
    assert windy.brought_in == row
    assert windy.written_by == row.by
    assert windy.history.count() == 1
    assert (row.name, row.came, row.left) == ("The blue book", 3, [])
    horse.yard.refresh_from_db()
    assert horse.yard.version == before + 1


def test_a_changed_column_or_unit_is_read_anew(keeper: Client, horse: Horse) -> None:
    text = "Horse,Day,Size,Method\nPennyroyal,2026-01-10,46,tape\n"
    answer = keeper.post(at(NEW), {"text": text, "do": ""})
    sent = sends(page_of(answer))
    assert sent["column-2"] == ["reading"]
    sent |= {"column-2": "heart_girth", "length": "in", "do": "look"}
    page = page_of(keeper.post(at(NEW), sent))
    assert "1 measurement can be written in." in page
    write(keeper, sends(page))
    assert Measurement.objects.get().values == pytest.approx((46 * 25.4,))


def test_days_that_may_be_two_days_are_asked_about_and_nothing_is_written(
    keeper: Client, horse: Horse
) -> None:
    text = "Horse,Day,Withers (cm),Method\nPennyroyal,3/4/2026,118,stick\n"
    page = page_of(keeper.post(at(NEW), {"text": text}))
    assert "3/4/2026 may mean two days." in page
    assert 'value="write"' not in page
    sent = sends(page)
    assert "Nothing of it can be written in yet." in page_of(write(keeper, sent), 422)
    page = page_of(keeper.post(at(NEW), {**sent, "order": "month", "do": "look"}))
    write(keeper, sends(page))
    assert Measurement.objects.get().on == date(2026, 3, 4)


def test_cells_parted_otherwise_have_their_columns_found_anew(
    keeper: Client, horse: Horse
) -> None:
    sent = {**look(keeper), "delimiter": "semicolon", "do": "look"}
    page = page_of(keeper.post(at(NEW), sent))
    assert "No column names the day." in page
    back = {**sends(page), "delimiter": "comma", "do": "look"}
    assert "3 measurements can be" in page_of(keeper.post(at(NEW), back))


def test_how_it_was_taken_is_asked_where_no_method_is_written(
    keeper: Client, horse: Horse
) -> None:
    text = "Horse,Day,Withers (cm)\nPennyroyal,2026-01-10,118\n"
    page = page_of(keeper.post(at(NEW), {"text": text}))
    assert "No method is written. Say how it was taken." in page
    sent = {**sends(page), "method-withers_height": "laser", "do": "look"}
    write(keeper, sends(page_of(keeper.post(at(NEW), sent))))
    assert Measurement.objects.get().method == "laser"


DOUBTED = LIST + "Pennyroyal,2026-03-10,190,stick,\nPennyroyal,2026-03-11,191,stick,\n"


def test_what_is_hard_to_believe_goes_in_only_when_ticked(
    keeper: Client, horse: Horse
) -> None:
    page = page_of(keeper.post(at(NEW), {"text": DOUBTED}))
    assert "2 are to be looked at" in page
    write(keeper, sends(page), keep=["5-withers_height-190 cm", "6-withers_height-19"])
    assert Measurement.objects.filter(on="2026-03-10").exists()
    assert not Measurement.objects.filter(on="2026-03-11").exists()
    row = BroughtIn.objects.get()
    assert row.left[0].startswith("Line 6: withers height: Far from what is usual")
    assert "Line 6: withers height: Far" in page_of(keeper.get(row.get_absolute_url()))


def test_all_that_was_looked_at_goes_in_with_one_tick(
    keeper: Client, horse: Horse
) -> None:
    page = page_of(keeper.post(at(NEW), {"text": DOUBTED}))
    write(keeper, sends(page), keep_all="on")
    assert Measurement.objects.count() == 5
    assert BroughtIn.objects.get().left == []


def test_the_bad_lines_are_left_and_named_on_the_record(
    keeper: Client, horse: Horse
) -> None:
    write(keeper, look(keeper, LIST + "Nobody,2026-03-10,120,stick,\n"))
    row = BroughtIn.objects.get()
    assert (row.came, row.left) == (3, ["Line 5: No horse here is called Nobody."])


def test_the_same_list_twice_brings_nothing(keeper: Client, horse: Horse) -> None:
    write(keeper, look(keeper))
    sent = look(keeper)
    page = page_of(write(keeper, sent), 422)
    assert "Nothing of it can be written in yet." in page
    assert "3 stand here already" in page
    assert Measurement.objects.count() == 3


def test_the_lines_can_be_mended_where_they_are(keeper: Client, horse: Horse) -> None:
    page = page_of(keeper.post(at(NEW), {**look(keeper), "do": "mend"}))
    assert "Pennyroyal,2026-02-10,119.5,stick,windy" in page
    assert 'name="file"' in page


def test_a_list_of_one_horse_need_not_name_it(keeper: Client, horse: Horse) -> None:
    page = page_of(keeper.get(f"{at(NEW)}?horse={horse.key}"))
    assert f'name="horse" value="{horse.key}"' in page
    text = "Day,Withers (cm),Method\n2026-01-10,118,stick\n"
    looked = keeper.post(at(NEW), {"text": text, "horse": horse.key})
    write(keeper, sends(page_of(looked)))
    assert Measurement.objects.get().horse == horse


@pytest.mark.parametrize("lines", [2, 300])
def test_a_long_list_asks_no_more_of_the_database_than_a_short_one(
    keeper: Client, horse: Horse, lines: int, django_assert_num_queries: Any
) -> None:
    days = (date(2025, 1, 1) + timedelta(days=number) for number in range(lines))
    text = AT_ONCE + "".join(f"Pennyroyal;{on};118 cm;stick\n" for on in days)
    replan(horse.yard, today_in(horse.yard))
    with django_assert_num_queries(3 + 2):  # signed in; horses, measurements
        sent = sends(page_of(keeper.post(at(NEW), {"text": text})))
    assert sent["seen"]
