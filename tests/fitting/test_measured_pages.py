"""All that was measured: the history, correcting, striking out, deleting."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.test import Client

from fitting.models import Horse, Measurement, Yard
from fitting.reads.today import today_in
from starting.writes import replan
from tests.fitting.making_measured import at, body_of, box, days_ago, pennyroyal, said
from tests.make import SIGNED_IN, make_measurement


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


def test_the_history_shows_what_was_typed_and_what_was_understood(
    keeper: Client, horse: Horse
) -> None:
    typed = [{"written": "13.0", "value": 1320.8}, {"written": "132 cm", "value": 1320}]
    make_measurement(horse, readings=typed, who="Sam", shod=True)
    page = body_of(keeper.get(at("measured")), 200)
    assert "Typed 13.0, 132 cm; stick, Sam, shod." in page
    assert "13.0 hands (132.0\u2009cm)" in page


def test_what_is_struck_out_stays_with_a_line_through_and_its_reason(
    keeper: Client, horse: Horse
) -> None:
    make_measurement(horse, value=1219.2, struck="she would not stand")
    page = body_of(keeper.get(at("measured")), 200)
    assert "<s>Withers height: 12.0 hands (121.9\u2009cm)</s>" in page
    assert "Struck out: she would not stand." in page
    make_measurement(horse, value=1219.2, struck="The stick slipped.")
    page = body_of(keeper.get(at("measured")), 200)
    assert "Struck out: The stick slipped. Typed" in page


def test_the_newest_day_comes_first(keeper: Client, horse: Horse) -> None:
    make_measurement(horse, on=days_ago(horse, 50), value=1100)
    make_measurement(horse, on=days_ago(horse, 5), value=1200)
    page = body_of(keeper.get(at("measured")), 200)
    assert page.index("1200 mm") < page.index("1100 mm")


def test_nothing_measured_says_what_will_stand_there(
    keeper: Client, horse: Horse
) -> None:
    page = body_of(keeper.get(at("measured")), 200)
    assert "Nothing is measured yet" in page
    assert at("measure") in page


@pytest.mark.parametrize("readings", [5, 60])
def test_the_history_takes_three_queries_however_many_readings(
    keeper: Client, horse: Horse, readings: int, django_assert_num_queries: Any
) -> None:
    for number in range(readings):
        make_measurement(horse, on=days_ago(horse, number + 1))
    replan(horse.yard, today_in(horse.yard))
    with django_assert_num_queries(SIGNED_IN + 3):  # horse, measurements, edits
        keeper.get(at("measured"))


def corrected(row: Measurement, **changed: Any) -> dict[str, Any]:
    fields = {
        "withers_height-1": "13.0",
        "withers_height-method": "stick",
        "on": row.on.isoformat(),
        "seen_revision": row.revision,
        "token": "once",
    }
    return {**fields, **changed}


@pytest.fixture
def row(horse: Horse) -> Measurement:
    return make_measurement(horse, readings=[{"written": "13.0", "value": 1320.8}])


def test_readings_day_and_method_are_corrected(
    keeper: Client, row: Measurement
) -> None:
    day = row.on - timedelta(days=3)
    changes = {
        "withers_height-1": "13.0¼",
        "withers_height-2": "13.0¼",
        "withers_height-method": "laser",
        "on": day.isoformat(),
        "who": "Sam",
        "note": "in the lane",
    }
    response = keeper.post(at("edit-measurement", row.pk), corrected(row, **changes))
    assert response.headers["Location"] == at("measured")
    row.refresh_from_db()
    assert row.written == "13.0¼, 13.0¼"
    assert (row.method, row.on, row.who, row.note) == (
        "laser", day, "Sam", "in the lane",
    )  # fmt: skip


def test_what_was_typed_in_hands_is_still_read_so_in_a_metric_yard(
    keeper: Client, row: Measurement
) -> None:
    Yard.objects.update(height_unit="cm")
    page = body_of(keeper.get(at("edit-measurement", row.pk)), 200)
    assert 'value="13.0 hh"' in box(page, "withers_height-1")
    unchanged = corrected(row, **{"withers_height-1": "13.0 hh", "note": "a note"})
    assert keeper.post(at("edit-measurement", row.pk), unchanged).status_code == 302
    row.refresh_from_db()
    assert row.readings == [{"written": "13.0", "value": 1320.8}]
    assert row.note == "a note"


def test_striking_out_needs_a_reason_and_can_be_undone(
    keeper: Client, row: Measurement
) -> None:
    address = at("edit-measurement", row.pk)
    response = keeper.post(address, corrected(row, struck="the bubble was off"))
    assert said(response) == ["Withers height: struck out; it counts for nothing."]
    row.refresh_from_db()
    assert row.struck == "the bubble was off"
    assert not Measurement.objects.standing().exists()
    keeper.post(address, corrected(row, struck="", token="twice"))
    row.refresh_from_db()
    assert row.struck == ""


def test_a_bad_correction_is_refused_and_nothing_changes(
    keeper: Client, row: Measurement
) -> None:
    bad = corrected(row, **{"withers_height-1": "13.4", "note": "kept on the page"})
    page = body_of(keeper.post(at("edit-measurement", row.pk), bad))
    assert "13.4 cannot be read." in page
    assert "kept on the page" in page
    row.refresh_from_db()
    assert row.written == "13.0"


def test_a_correction_without_a_reading_is_refused(
    keeper: Client, row: Measurement
) -> None:
    empty = corrected(row, **{"withers_height-1": ""})
    page = body_of(keeper.post(at("edit-measurement", row.pk), empty))
    assert "Write one reading at least, or delete it." in page


def test_a_reading_kept_once_is_not_doubted_again(keeper: Client, horse: Horse) -> None:
    readings = [{"written": "17.3", "value": 1803.4}]
    row = make_measurement(horse, readings=readings)
    same = corrected(row, **{"withers_height-1": "17.3", "note": "he is huge"})
    assert keeper.post(at("edit-measurement", row.pk), same).status_code == 302
    other = corrected(row, **{"withers_height-1": "17.2", "token": "twice"})
    other["seen_revision"] = row.revision + 1
    page = body_of(keeper.post(at("edit-measurement", row.pk), other))
    assert "is far from what is usual" in page


def test_more_readings_than_usual_all_stay(keeper: Client, horse: Horse) -> None:
    readings = [{"written": f"13{n} cm", "value": 1300.0 + 10 * n} for n in range(6)]
    row = make_measurement(horse, readings=readings)
    page = body_of(keeper.get(at("edit-measurement", row.pk)), 200)
    assert 'value="135 cm"' in box(page, "withers_height-6")


def test_who_comes_second_sees_what_changed_meanwhile(
    keeper: Client, row: Measurement
) -> None:
    mine = corrected(row, note="mine")
    row.note = "theirs"
    row.save()
    page = body_of(keeper.post(at("edit-measurement", row.pk), mine))
    assert "Somebody changed this meanwhile" in page
    assert "theirs" in page


def test_every_edit_is_shown_in_words(keeper: Client, row: Measurement) -> None:
    changed = corrected(row, **{"withers_height-1": "13.0¼", "shod": "on"})
    keeper.post(at("edit-measurement", row.pk), changed)
    page = body_of(keeper.get(at("edit-measurement", row.pk)), 200)
    assert "readings: 13.0 became 13.0¼; shod: no became yes" in page
    assert "written in" in page
    name = row.horse.yard.memberships.get().user.username
    assert f", {name}: " in page


def test_a_strike_out_says_who_did_it_and_when_by_the_clock_of_the_yard(
    keeper: Client, row: Measurement
) -> None:
    yard = row.horse.yard
    yard.timezone = "Pacific/Auckland"
    yard.save()
    address = at("edit-measurement", row.pk)
    keeper.post(address, corrected(row, struck="the bubble was off"))
    edit = row.history.latest()
    there = edit.history_date.astimezone(ZoneInfo("Pacific/Auckland"))
    name = yard.memberships.get().user.username
    page = body_of(keeper.get(at("measured")), 200)
    assert f"Struck out by {name}, {there.day} {there:%b %Y, %H.%M}: the bub" in page
    page = body_of(keeper.get(address), 200)
    assert f"{there:%H.%M}</time>, {name}: struck out because: the bubble" in page
    row.refresh_from_db()
    keeper.post(address, corrected(row, struck="", token="twice"))
    page = body_of(keeper.get(address), 200)
    assert f"{name}: counts again (it was struck out because: the bubble" in page


def test_a_correction_is_named_on_the_page_of_all_that_was_measured(
    keeper: Client, row: Measurement
) -> None:
    page = body_of(keeper.get(at("measured")), 200)
    assert "Corrected by" not in page
    changed = corrected(row, **{"withers_height-1": "13.0¼"})
    keeper.post(at("edit-measurement", row.pk), changed)
    name = row.horse.yard.memberships.get().user.username
    page = body_of(keeper.get(at("measured")), 200)
    assert f"Corrected by {name}, " in page


def test_deleting_asks_once_and_offers_to_strike_out(
    keeper: Client, row: Measurement
) -> None:
    address = at("delete-measurement", row.pk)
    page = body_of(keeper.get(address), 200)
    assert "better struck out" in page
    assert Measurement.objects.count() == 1
    assert keeper.post(address).headers["Location"] == at("measured")
    assert not Measurement.objects.exists()
