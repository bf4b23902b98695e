"""Care: visits, rests, off work, incidents, and what each means."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client

from fitting.models import Horse, Loan, Tack, Yard
from starting.care import say_date
from starting.gates.mouth import FIRST_BIT_DAYS
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.writes import today_in
from tests.make import SIGNED_IN, make_horse
from tests.starting.making_care import at, teeth, text_of

Queries = Callable[[int], AbstractContextManager[Any]]
FORMS = ("add-care", "add-rest", "add-off-work", "add-incident")
PAGE = 6  # the horse, four kinds of record, its outlook


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return make_horse(yard, name="Dunnock")


@pytest.fixture
def today(yard: Yard) -> date:
    return today_in(yard)


# Who may


@pytest.mark.parametrize("role", ["keeper", "helper", "viewer"])
def test_every_member_reads_and_only_keepers_are_offered_forms(
    signed_in: Callable[[str], Client], horse: Horse, today: date, role: str
) -> None:
    visit = CareVisit.objects.create(horse=horse, kind="vet", on=today)
    page = text_of(signed_in(role), at("care", horse))
    assert "Vet: nothing left open" in page
    for name in FORMS:
        assert (at(name, horse) in page) == (role == "keeper")
    assert (at("edit-care", horse, visit.pk) in page) == (role == "keeper")


@pytest.mark.parametrize("role", ["helper", "viewer"])
def test_others_may_not_use_the_forms(
    signed_in: Callable[[str], Client], horse: Horse, today: date, role: str
) -> None:
    client = signed_in(role)
    visit = CareVisit.objects.create(horse=horse, kind="vet", on=today)
    for address in (
        *(at(name, horse) for name in FORMS),
        at("edit-care", horse, visit.pk),
        at("delete-care", horse, visit.pk),
    ):
        assert client.get(address).status_code == 403
        assert client.post(address, teeth(today)).status_code == 403
    assert CareVisit.objects.count() == 1


def test_to_a_stranger_there_is_no_such_page(
    stranger: Client, client: Client, horse: Horse
) -> None:
    for name in ("care", *FORMS):
        assert stranger.get(at(name, horse)).status_code == 404
        asked = client.get(at(name, horse))
        assert (asked.status_code, "sign-in" in asked.headers["Location"]) == (
            302,
            True,
        )


def test_a_record_is_found_only_under_its_own_horse(
    keeper: Client, horse: Horse, today: date
) -> None:
    other = make_horse(horse.yard, name="Linnet")
    visit = CareVisit.objects.create(horse=other, kind="vet", on=today)
    for name in ("edit-care", "delete-care"):
        assert keeper.get(at(name, horse, visit.pk)).status_code == 404
        assert keeper.post(at(name, horse, visit.pk)).status_code == 404
    assert CareVisit.objects.count() == 1


# What the page says


def test_with_nothing_written_down_nothing_is_called_fine(
    keeper: Client, horse: Horse
) -> None:
    page = text_of(keeper, at("care", horse))
    assert "Neither off work nor resting" in page
    assert "No look at Dunnock&#x27;s teeth is written down." in page
    assert 'Teeth: <span class="w-unknown">can&#x27;t say</span>' in page
    assert 'Wolf teeth: <span class="w-unknown">can&#x27;t say</span>' in page
    assert "Nothing yet" in page
    assert "w-met" not in page


def test_cautions_stand_beside_the_numbers_and_defer_to_vet_and_technician(
    keeper: Client, horse: Horse
) -> None:
    day = today_in(horse.yard)
    CareVisit.objects.create(horse=horse, kind="teeth", on=day)
    CareVisit.objects.create(horse=horse, kind="worming", on=day)
    page = text_of(keeper, at("care", horse))
    assert "The site gives no doses." in page
    good, passable = FIRST_BIT_DAYS
    assert f"For a first bit a look counts {good} days, and up to {passable}" in page
    assert "Never pull a cap or a wolf tooth yourself." in page
    assert "qualified dental technician" in page
    assert "Common practice, no published source." in page
    assert "Your farrier&#x27;s dates come first." in page


def test_records_stand_newest_first_and_each_leads_to_its_correction(
    keeper: Client, horse: Horse, today: date
) -> None:
    visit = CareVisit.objects.create(
        horse=horse, kind="farrier", on=today - timedelta(days=40), who="Tom Ash",
        note="Long in the toe.",
    )  # fmt: skip
    incident = Incident.objects.create(
        horse=horse, on=today - timedelta(days=30), what="bolt", note="A pheasant."
    )
    lame = OffWork.objects.create(
        horse=horse, start=today - timedelta(days=20), why="a knock",
        until=today - timedelta(days=10),
    )  # fmt: skip
    rest = Rest.objects.create(horse=horse, start=today - timedelta(days=2))
    page = text_of(keeper, at("care", horse))
    written = page.partition("All that is written down")[2]
    links = [
        at("edit-rest", horse, rest.pk),
        at("edit-off-work", horse, lame.pk),
        at("edit-incident", horse, incident.pk),
        at("edit-care", horse, visit.pk),
    ]
    places = [written.index(f'href="{link}"') for link in links]
    assert places == sorted(places)
    for words in ("Tom Ash.", "Long in the toe.", "Incident: bolted", "A knock."):
        assert words in written


def test_off_work_names_who_must_clear_and_resting_its_last_day(
    viewer: Client, horse: Horse, today: date
) -> None:
    OffWork.objects.create(
        horse=horse, start=today, why="lame near fore", cleared_by="Ann Moor",
    )  # fmt: skip
    ends = today + timedelta(days=9)
    Rest.objects.create(horse=horse, start=today, end=ends)
    now = text_of(viewer, at("care", horse)).partition(
        "Looked at, done, and when again"
    )[0]
    assert f"Off work from {say_date(today)} until cleared by Ann Moor" in now
    assert "Lame near fore." in now
    assert f"Resting from {say_date(today)} to {say_date(ends)}" in now
    assert "Neither off work" not in now


def test_what_is_over_or_still_to_come_is_not_said_of_today(
    keeper: Client, horse: Horse, today: date
) -> None:
    day = timedelta(days=1)
    OffWork.objects.create(horse=horse, start=today - 9 * day, why="x", until=today)
    Rest.objects.create(horse=horse, start=today + day)
    page = text_of(keeper, at("care", horse))
    assert "Neither off work nor resting" in page
    ahead = page.partition("Looked at, done, and when again")[0]
    assert f"Resting from {say_date(today + day)} with no last day yet" in ahead


def test_the_next_visit_stands_ahead_and_leads_to_its_form(
    keeper: Client, horse: Horse, today: date
) -> None:
    before, overdue = today - timedelta(days=70), today - timedelta(days=3)
    CareVisit.objects.create(horse=horse, kind="farrier", on=before, next_due=overdue)
    page = text_of(keeper, at("care", horse))
    ahead = page.partition("Looked at, done, and when again")[0]
    assert 'Farrier: <span class="w-caution">overdue</span>' in ahead
    assert f"Next after {say_date(before)}." in ahead
    form = text_of(keeper, f"{at('add-care', horse)}?kind=farrier")
    assert '<option value="farrier" selected>' in form
    assert f"{10} weeks ago" in page


def test_what_is_borrowed_and_the_mouth_to_watch_break_no_care_page(
    keeper: Client, yard: Yard, today: date
) -> None:
    horse = make_horse(yard, name="Teal", foaled=str(today.year - 2))
    bit = Tack.objects.create(yard=yard, name="Old bit", key="old-bit", kind="bit")
    back = today + timedelta(days=9)
    Loan.objects.create(tack=bit, to=horse, back_by=back)
    page = text_of(keeper, at("care", horse))
    ahead = page.partition("Looked at, done, and when again")[0]
    assert "Watch the mouth" in ahead
    assert f"{at('add-care', horse)}?kind=tooth_change" in ahead
    assert "Write a tooth change in" in ahead
    assert "Old bit" not in ahead


def test_older_records_are_folded_away_and_none_is_lost(
    keeper: Client, horse: Horse, today: date
) -> None:
    for number in range(23):
        CareVisit.objects.create(
            horse=horse,
            kind="other",
            on=today - timedelta(days=number),
            who=f"W{number}",
        )
    page = text_of(keeper, at("care", horse))
    assert ">3 older</summary>" in page
    assert all(f"<p>W{number}.</p>" in page for number in range(23))


@pytest.mark.parametrize("horses", [1, 6])
@pytest.mark.parametrize("records", [3, 40])
def test_the_page_asks_as_often_for_many_horses_and_records_as_for_few(
    keeper: Client,
    horse: Horse,
    today: date,
    horses: int,
    records: int,
    django_assert_num_queries: Queries,
) -> None:
    for _ in range(horses - 1):
        make_horse(horse.yard)
    for number in range(records):
        on = today - timedelta(days=number)
        CareVisit.objects.create(horse=horse, kind="farrier", on=on)
        Incident.objects.create(horse=horse, on=on, what="kick")
        until = today + timedelta(days=1)
        OffWork.objects.create(horse=horse, start=on, why="x", until=until)
        Rest.objects.create(horse=horse, start=on, end=on)
    keeper.get(at("care", horse))  # the day's planning is done once
    with django_assert_num_queries(SIGNED_IN + PAGE):
        keeper.get(at("care", horse))
