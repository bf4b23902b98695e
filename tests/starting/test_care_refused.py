"""What cannot be said of care is refused in words; records are corrected, deleted."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.db.models import Model
from django.test import Client

from fitting.models import Horse, Yard
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.writes import today_in
from tests.make import make_horse
from tests.starting.making_care import at, off, said, teeth, text_of


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return make_horse(yard, name="Dunnock")


@pytest.fixture
def today(yard: Yard) -> date:
    return today_in(yard)


def refused(
    client: Client, address: str, sent: dict[str, Any], model: type[Model]
) -> str:
    """Send a form that is refused; return the page with what was typed."""
    before = model._default_manager.count()
    page = client.post(address, sent)
    assert page.status_code == 422
    assert model._default_manager.count() == before
    return page.content.decode()


def test_a_visit_still_to_come_belongs_under_next(
    keeper: Client, horse: Horse, today: date
) -> None:
    sent = teeth(today + timedelta(days=1), note="Ring before nine")
    page = refused(keeper, at("add-care", horse), sent, CareVisit)
    assert "That day is still to come. A visit still to come goes under Next" in page
    assert "Ring before nine" in page
    assert f'value="{sent["on"]}"' in page
    assert 'value="Ann Moor"' in page


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"kind": "vet", "wolf_teeth": "out"}, "is written at a teeth visit"),
        ({"kind": "gelding"}, "Dunnock is written down as a filly."),
        ({"clear": ""}, "Say which: unsaid, it would not count."),
        ({"kind": "vet", "clear": ""}, "Say which: unsaid, it would not count."),
        ({"kind": "gelding", "clear": ""}, "Say which: unsaid, it would not count."),
        ({"on": "2020-01-01"}, "On that day she was not foaled yet."),
        ({"kind": "", "clear": ""}, "This field is required."),
    ],
)
def test_what_cannot_be_said_of_a_visit_is_refused_in_words(
    keeper: Client, horse: Horse, today: date, more: dict[str, str], words: str
) -> None:
    sent = {**teeth(today), "note": "Typed at the gate", **more}
    page = refused(keeper, at("add-care", horse), sent, CareVisit)
    assert words in page
    assert "Typed at the gate" in page


def test_healing_of_anything_but_mouth_and_gelding_is_off_work(
    keeper: Client, horse: Horse, today: date
) -> None:
    sent = teeth(today, kind="vet", healing_until=today.isoformat())
    page = refused(keeper, at("add-care", horse), sent, CareVisit)
    assert "This is the healing of the mouth or after gelding, written at that" in page


def test_what_the_database_refuses_is_said_in_its_words(
    keeper: Client, horse: Horse, today: date
) -> None:
    day, before = today.isoformat(), (today - timedelta(days=1)).isoformat()
    cases: tuple[tuple[str, dict[str, Any], type[Model], str], ...] = (
        (
            "add-care",
            teeth(today, next_due=day),
            CareVisit,
            "The next visit comes after this one.",
        ),
        (
            "add-care",
            teeth(today, healing_until=before),
            CareVisit,
            "Healing ends after the visit.",
        ),
        (
            "add-rest",
            {"start": day, "end": before, "why": "Kept words"},
            Rest,
            "A rest ends on or after its first day.",
        ),
        (
            "add-off-work",
            off(today, until=day),
            OffWork,
            "The first day back comes after the first off.",
        ),
    )
    for name, sent, model, words in cases:
        page = refused(keeper, at(name, horse), sent, model)
        assert words in page
        assert all(f'value="{v}"' in page for k, v in sent.items() if k != "clear")


def test_nobody_is_cleared_before_the_first_day_off_nor_ahead(
    keeper: Client, horse: Horse, today: date
) -> None:
    row = OffWork.objects.create(horse=horse, start=today, why="x", cleared_by="Ann")
    address, day = at("edit-off-work", horse, row.pk), timedelta(days=1)
    sent = {"start": today.isoformat(), "why": "x", "cleared_by": "Ann"}
    early = {**sent, "cleared_on": (today - day).isoformat()}
    assert "Cleared on or after the first day off." in refused(
        keeper, address, early, OffWork
    )
    ahead = {**sent, "cleared_on": (today + day).isoformat()}
    assert "Write it in once it is so." in refused(keeper, address, ahead, OffWork)
    row.refresh_from_db()
    assert row.cleared_on is None


def test_off_work_ends_by_a_day_or_by_somebody_not_by_both(
    keeper: Client, horse: Horse, today: date
) -> None:
    until = (today + timedelta(days=9)).isoformat()
    sent = off(today, until=until, cleared_by="Ann Moor")
    page = refused(keeper, at("add-off-work", horse), sent, OffWork)
    assert "Ann Moor is to clear, so" in page


# Correcting, deleting


def test_a_visit_is_corrected_and_keeps_what_it_said_before(
    keeper: Client, horse: Horse, today: date
) -> None:
    row = CareVisit.objects.create(horse=horse, kind="teeth", on=today, who="A. Moor")
    form = text_of(keeper, at("edit-care", horse, row.pk))
    assert 'value="A. Moor"' in form
    assert 'value="True" id="id_clear_0" checked' in form
    said(keeper, at("edit-care", horse, row.pk), teeth(today, clear="False"))
    row.refresh_from_db()
    assert (row.who, row.clear, row.history.count()) == ("Ann Moor", False, 2)


def test_the_second_of_two_keepers_sees_what_the_first_changed(
    keeper: Client, horse: Horse, today: date
) -> None:
    row = CareVisit.objects.create(horse=horse, kind="teeth", on=today, who="Ann")
    seen = row.revision
    row.who = "Somebody else"
    row.save()
    sent = teeth(today, who="Ann Moor", seen_revision=seen)
    page = refused(keeper, at("edit-care", horse, row.pk), sent, CareVisit)
    assert "It says now: Who came: Somebody else" in page
    assert 'value="Ann Moor"' in page
    row.refresh_from_db()
    assert row.who == "Somebody else"


def test_deleting_says_what_goes_with_it_and_asks_once(
    keeper: Client, horse: Horse, today: date
) -> None:
    made: tuple[tuple[str, Model, str], ...] = (
        (
            "delete-care",
            CareVisit.objects.create(horse=horse, kind="teeth", on=today),
            "rest on the look before this one, or on none",
        ),
        (
            "delete-rest",
            Rest.objects.create(horse=horse, start=today),
            "as if never turned away",
        ),
        (
            "delete-off-work",
            OffWork.objects.create(horse=horse, start=today, why="x"),
            "as if never off work",
        ),
        (
            "delete-incident",
            Incident.objects.create(horse=horse, on=today, what="fall"),
            "no longer wait because of it",
        ),
    )
    for name, row, words in made:
        version = Yard.objects.get().version
        address = at(name, horse, row.pk)
        assert words in text_of(keeper, address)
        assert type(row)._default_manager.count() == 1
        assert said(keeper, address, {}).startswith("Deleted: ")
        assert type(row)._default_manager.count() == 0
        assert Yard.objects.get().version == version + 1


def test_a_grown_horse_has_care_but_no_first_bit(
    keeper: Client, yard: Yard, today: date
) -> None:
    mare = make_horse(yard, name="Old Marl", sex="mare", foaled="2012", grown=True)
    assert said(keeper, at("add-care", mare), teeth(today)) == (
        "Written in: teeth, clear."
    )
    page = text_of(keeper, at("care", mare))
    assert "Last seen on" in page
    assert "first bit" not in page
    assert "Wolf teeth" not in page
