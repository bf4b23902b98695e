"""What was brought in is listed, and can be taken back: that and nothing else."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.messages import get_messages
from django.core.management import call_command
from django.test import Client
from django.urls import reverse

from fitting.models import BroughtIn, Horse, Measurement, Yard
from starting.writes import replan, today_in
from tests.fitting.making_looked import LIST, at, look, sends, write
from tests.make import SIGNED_IN, make_horse, make_measurement

pytestmark = pytest.mark.django_db


@pytest.fixture
def horse(yard: Yard) -> Horse:
    make_horse(yard, name="Old Marl", foaled="2008", grown=True)
    return make_horse(yard, name="Pennyroyal")


@pytest.fixture
def brought(keeper: Client, horse: Horse) -> BroughtIn:
    """Return a list of three measurements, just brought in."""
    write(keeper, look(keeper))
    return BroughtIn.objects.get()


def correct(keeper: Client, row: Measurement, **fields: Any) -> None:
    """Correct a measurement on its page."""
    there = reverse(
        "fitting:edit-measurement", args=["sallow-end", row.horse.key, row.pk]
    )
    sent = sends(keeper.get(there).content.decode())
    answer = keeper.post(there, {**sent, **fields})
    assert answer.status_code == 302


def take_back(keeper: Client, row: BroughtIn, **fields: Any) -> Any:
    there = at("undo-brought", row.pk)
    sent = sends(keeper.get(there).content.decode())
    return keeper.post(there, {**sent, **fields})


def page(client: Client, name: str, *args: Any) -> str:
    answer = client.get(at(name, *args))
    assert answer.status_code == 200
    return str(answer.content.decode())


def said(answer: Any) -> list[str]:
    return [str(message) for message in get_messages(answer.wsgi_request)]


def test_before_anything_came_the_page_says_what_will_stand_there(
    keeper: Client, yard: Yard
) -> None:
    assert "Nothing was brought in yet" in page(keeper, "all-brought")


def test_a_list_stands_with_what_came_of_it(keeper: Client, brought: BroughtIn) -> None:
    listed = page(keeper, "all-brought")
    assert "book.csv" in listed
    assert "3 measurements came." in listed
    seen = page(keeper, "see-brought", brought.pk)
    assert "3 measurements, of which 3 stand here." in seen
    assert "10 Jan 2026 to 10 Feb 2026" in seen
    assert "Corrected since" not in seen


def test_each_measurement_says_which_list_it_came_with(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    make_measurement(horse, note="by hand")
    there = reverse("fitting:measured", args=["sallow-end", horse.key])
    measured = keeper.get(there).content.decode()
    assert measured.count("Came with book.csv.") == horse.measurements.count() - 1
    assert "windy Came with book.csv." in measured


def test_taking_back_deletes_what_came_and_nothing_else(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    by_hand = make_measurement(horse)
    write(keeper, look(keeper, LIST.replace("2026-", "2025-")))
    version = Yard.objects.get(pk=horse.yard_id).version
    answer = take_back(keeper, brought)
    assert said(answer) == ["book.csv is taken back."]
    left = Measurement.objects.exclude(pk=by_hand.pk)
    assert {row.on.year for row in left} == {2025}
    assert left.count() == 3
    assert not BroughtIn.objects.filter(pk=brought.pk).exists()
    assert Yard.objects.get(pk=horse.yard_id).version == version + 1


def test_what_was_corrected_since_is_named_and_stays(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    row = horse.measurements.get(note="windy")
    correct(keeper, row, note="calm")
    asked = page(keeper, "undo-brought", brought.pk)
    assert "2 measurements that came with it are deleted" in asked
    assert "Pennyroyal, 10 Feb 2026: Withers height" in asked
    answer = take_back(keeper, brought)
    assert said(answer) == ["book.csv is taken back. 1 corrected since stays."]
    assert list(Measurement.objects.all()) == [row]
    assert BroughtIn.objects.filter(pk=brought.pk).exists()
    assert "3 measurements, of which 1 stands here." in page(
        keeper, "see-brought", brought.pk
    )


def test_what_was_corrected_goes_too_when_ticked(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    row = horse.measurements.get(note="windy")
    correct(keeper, row, struck="a gale")
    assert "struck out: a gale" in page(keeper, "undo-brought", brought.pk)
    take_back(keeper, brought, also=[f"{row.pk}-2"])
    assert not Measurement.objects.exists()
    assert not BroughtIn.objects.exists()


def test_a_tick_holds_for_what_it_stood_beside_alone(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    row, by_hand = horse.measurements.get(note="windy"), make_measurement(horse)
    correct(keeper, row, note="calm")
    correct(keeper, row, note="calm after all")
    take_back(keeper, brought, also=[f"{row.pk}-2", f"{by_hand.pk}-1"])
    assert set(Measurement.objects.all()) == {row, by_hand}


def test_taking_back_twice_is_once(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    there = at("undo-brought", brought.pk)
    sent = sends(keeper.get(there).content.decode())
    first, again = keeper.post(there, sent), keeper.post(there, sent)
    assert first.headers["Location"] == again.headers["Location"]
    assert keeper.get(there).status_code == 404


def test_one_of_them_is_deleted_by_itself(
    keeper: Client, brought: BroughtIn, horse: Horse
) -> None:
    row = horse.measurements.get(note="windy")
    keeper.post(
        reverse("fitting:delete-measurement", args=["sallow-end", horse.key, row.pk])
    )
    assert "3 measurements came; 1 deleted since." in page(keeper, "all-brought")


def test_when_nothing_of_it_is_left_the_page_says_so(
    keeper: Client, brought: BroughtIn
) -> None:
    Measurement.objects.all().delete()
    assert "Nothing of it stands here" in page(keeper, "see-brought", brought.pk)


def test_a_list_is_called_otherwise_and_nobody_overwrites_blindly(
    keeper: Client, brought: BroughtIn
) -> None:
    there = brought.get_absolute_url()
    sent = sends(keeper.get(there).content.decode())
    assert keeper.post(there, {**sent, "name": "Blue book"}).status_code == 302
    late = keeper.post(there, {**sent, "token": "other", "name": "Red book"})
    assert late.status_code == 422
    assert "Somebody changed this meanwhile" in late.content.decode()
    brought.refresh_from_db()
    assert brought.name == "Blue book"
    empty = {**sends(keeper.get(there).content.decode()), "name": ""}
    assert keeper.post(there, empty).status_code == 422


def test_loading_a_yard_file_over_it_leaves_no_empty_list(
    brought: BroughtIn, yard: Yard, tmp_path: Any
) -> None:
    kept = tmp_path / "yard.json"
    call_command("dump_yard", yard.name, str(kept))
    call_command("load_yard", str(kept), replace=True)
    assert Measurement.objects.count() == 3
    assert not BroughtIn.objects.exists()


@pytest.mark.parametrize("lines", [2, 60])
def test_the_pages_ask_no_more_however_much_came(
    keeper: Client, horse: Horse, lines: int, django_assert_num_queries: Any
) -> None:
    row = BroughtIn.objects.create(
        yard=horse.yard, name="Long", on="2026-01-01", came=lines
    )
    for number in range(lines):
        make_measurement(horse, value=1180.0 + number, brought_in=row)
    replan(horse.yard, today_in(horse.yard))
    for name, args, queries in (
        ("all-brought", [], 1),
        ("see-brought", [row.pk], 3),
        ("undo-brought", [row.pk], 2),
    ):
        with django_assert_num_queries(SIGNED_IN + queries):
            page(keeper, name, *args)
