"""Month by month on its pages: one horse, and the whole yard."""

from __future__ import annotations

from datetime import date, timedelta
from html import unescape
from importlib import import_module

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from fitting.drawings.months import month_after
from fitting.models import FirstWorn, Horse, Yard
from starting.models import CareVisit, Incident, LastTold, Moved, OffWork, Rest
from starting.writes import replan
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement
from tests.starting.making_log import (
    make_session,
    make_youngster,
    not_planned,
    page,
    planned,
    today,
)

LONG = "Marjoram of the Thistlethwaitesbottom Meadows"
DRAWING = import_module("starting.outlook.days_ahead")


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """Return a filly under way with the bridle, with a record of each kind."""
    horse = make_youngster(yard)
    make_session(horse, 2)
    on = today(yard) - timedelta(days=2)
    make_measurement(horse, on=on)
    make_measurement(horse, "mouth_width", on=on, value=104.0, method="dowel")
    struck = make_measurement(horse, "heart_girth", on=on, value=9.0, method="tape")
    struck.struck = "The rope lay under it."
    struck.save()
    bit = make_bit(yard, name="Small eggbutt")
    FirstWorn.objects.create(horse=horse, kind="bit", tack=bit, on=on)
    CareVisit.objects.create(horse=horse, kind="teeth", on=on, who="The dentist")
    Incident.objects.create(horse=horse, on=on, what="kick")
    planned(yard)
    return horse


def read(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return " ".join(unescape(answer.content.decode()).split())


def of_yard(yard: Yard, name: str = "months") -> str:
    return reverse(f"starting:{name}", args=[yard.slug])


def listed(told: str) -> str:
    """Return the months of a page, without the drawing and its table."""
    return told[told.index('id="months"') :]


def said(on: date) -> str:
    return f"{on.day} {on:%b}"


# one horse


def test_the_month_behind_holds_what_was_written(tansy: Horse, viewer: Client) -> None:
    on = said(today(tansy.yard) - timedelta(days=2))
    told = listed(read(viewer, page("horse-months", tansy)))
    assert f"begun on {on}." in told
    assert "1 session:</b> Bridle without a bit 1." in told
    assert f"<b>Measured</b> on {on}: mouth width, withers height." in told
    assert f"<b>First worn</b> Small eggbutt (bit), on {on}." in told
    assert f"<b>Teeth: nothing left open</b> on {on}. The dentist." in told
    assert f"<b>Incident: kick</b> on {on}." in told
    assert "established on" in told


def test_the_months_ahead_hold_what_is_planned(tansy: Horse, viewer: Client) -> None:
    told = listed(read(viewer, page("horse-months", tansy)))
    assert "Mouthing</a> from about" in told
    assert "likely done about" in told
    assert "<b>Measure</b>" in told


def test_every_step_drawn_has_its_days_in_the_table(
    tansy: Horse, viewer: Client
) -> None:
    told = read(viewer, page("horse-months", tansy))
    table = told[told.index("The steps drawn, in days") : told.index('id="months"')]
    assert page("step", tansy, "mouthing") in table
    assert "Waits for Bridle without a bit" in table
    assert 'class="chart narrow"' in told
    assert 'class="chart wide"' in told


def test_a_rest_is_drawn_and_stands_in_its_month(tansy: Horse, viewer: Client) -> None:
    on = today(tansy.yard)
    Rest.objects.create(horse=tansy, start=on, end=on + timedelta(days=40))
    OffWork.objects.create(
        horse=tansy, start=on, until=on + timedelta(days=9), why="Cut"
    )
    planned(tansy.yard)
    told = read(viewer, page("horse-months", tansy))
    assert f"<b>Rest</b> from {said(on)} to " in told
    assert f"<b>Off work</b> from {said(on)} to " in told
    assert ">rest</text>" in told
    assert ">off work</text>" in told


def test_where_ends_are_not_drawn_the_page_says_so_and_draws_no_bar(
    tansy: Horse, viewer: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "Early and late ends are not known here" not in read(
        viewer, page("horse-months", tansy)
    )
    monkeypatch.setattr(DRAWING, "MOST_DRAWN", 0)
    planned(tansy.yard)
    for address in (page("horse-months", tansy), of_yard(tansy.yard)):
        told = read(viewer, address)
        assert "Early and late ends are not known here" in told
        assert "one time in ten" not in told
        assert "hollow to the late" not in told
        assert "perhaps as late" not in told


def test_all_the_way_ahead_draws_every_step_with_a_day_and_opens_every_month(
    tansy: Horse, viewer: Client
) -> None:
    near = read(viewer, page("horse-months", tansy))
    far = read(viewer, f"{page('horse-months', tansy)}?far")
    assert near.count('<th scope="row">') < far.count('<th scope="row">')
    assert 'folded" open' in far
    assert 'folded" open' not in near


def test_a_horse_not_planned_yet_says_so_and_still_shows_what_is_written(
    yard: Yard, viewer: Client
) -> None:
    horse = make_horse(yard, name=LONG)
    make_measurement(horse)
    not_planned(yard)
    told = read(viewer, page("horse-months", horse))
    assert f"{LONG} is being planned" in told
    assert "<b>Measured</b>" in told


def test_a_grown_horse_has_months_and_no_steps(yard: Yard, viewer: Client) -> None:
    horse = make_horse(yard, name="Old Ash", grown=True, foaled="2011")
    make_measurement(horse)
    planned(yard)
    told = read(viewer, page("horse-months", horse))
    assert "Old Ash is grown: no steps lie ahead." in told
    assert "<b>Measured</b>" in told


def test_a_horse_with_nothing_written_has_this_month(
    yard: Yard, viewer: Client
) -> None:
    horse = make_horse(yard, foaled=today(yard).isoformat(), grown=True)
    planned(yard)
    told = listed(read(viewer, page("horse-months", horse)))
    assert "Nothing written or planned." in told


def test_what_moved_since_last_week_stands_between_the_drawing_and_the_months(
    tansy: Horse, viewer: Client
) -> None:
    assert "Moved since last week" not in read(viewer, page("horse-months", tansy))
    on = today(tansy.yard)
    LastTold.objects.all().delete()
    Moved.objects.all().delete()
    replan(tansy.yard, on - timedelta(days=1))
    Rest.objects.create(horse=tansy, start=on, end=on + timedelta(days=40))
    replan(tansy.yard, on)
    told = read(viewer, page("horse-months", tansy))
    drawn, moved = told.index("<figure"), told.index("Moved since last week")
    assert drawn < moved < told.index('id="months"')
    assert "Tansy's Bridle without a bit moves from" in told[moved:]


@pytest.mark.parametrize("name", ["steps", "plan", "body"])
def test_one_horse_is_reached_from(tansy: Horse, viewer: Client, name: str) -> None:
    addresses = {
        "steps": page("steps", tansy),
        "plan": of_yard(tansy.yard, "plan"),
        "body": tansy.get_absolute_url(),
    }
    assert page("horse-months", tansy) in read(viewer, addresses[name])


# the yard


def test_the_yard_shows_each_month_by_horse(tansy: Horse, viewer: Client) -> None:
    make_horse(tansy.yard, name="Old Ash", grown=True)
    planned(tansy.yard)
    told = read(viewer, of_yard(tansy.yard))
    months = told[told.index("month-of") :]
    assert "begun on" in months
    assert "from about" in months
    assert page("horse-months", tansy) in months
    assert "Old Ash" not in told
    assert of_yard(tansy.yard) in read(viewer, of_yard(tansy.yard, "plan"))


def test_the_yard_without_a_youngster_says_what_will_stand_there(
    yard: Yard, keeper: Client, viewer: Client
) -> None:
    planned(yard)
    add = reverse("fitting:add-horse", args=[yard.slug])
    assert "No youngster to plan for" in read(keeper, of_yard(yard))
    assert add in read(keeper, of_yard(yard))
    assert add not in read(viewer, of_yard(yard))


def test_thirty_horses_are_drawn_ten_at_a_time_and_a_month_begins_a_sheet(
    yard: Yard, viewer: Client
) -> None:
    for number in range(30):
        make_horse(yard, name=f"{LONG} {number}")
    not_planned(yard)
    told = read(viewer, of_yard(yard))
    assert told.count('class="chart wide"') == 3
    assert told.count("month-of") == 1
    assert "big-yard" in told
    assert told.count("no step in these months") == 30


def test_earlier_and_later_lead_six_months_on(tansy: Horse, viewer: Client) -> None:
    on = today(tansy.yard)
    first = on.replace(day=1)
    told = read(viewer, of_yard(tansy.yard))
    for months in (6, -6):
        other = f"?from={month_after(first, months):%Y-%m}"
        assert other in told
        assert f"{month_after(first, months):%B %Y} to" in read(
            viewer, of_yard(tansy.yard) + other
        )


@pytest.mark.parametrize("asked", ["", "2026", "x", "2026-13", "9999-12", "0001-01"])
def test_a_month_that_is_none_or_far_off_shows_what_there_is(
    tansy: Horse, viewer: Client, asked: str
) -> None:
    told = read(viewer, f"{of_yard(tansy.yard)}?from={asked}")
    assert "month-of" in told


def test_there_is_an_end_to_earlier_and_to_later(tansy: Horse, viewer: Client) -> None:
    far = read(viewer, f"{of_yard(tansy.yard)}?from=9999-12")
    old = read(viewer, f"{of_yard(tansy.yard)}?from=0001-01")
    assert ">Later</a>" not in far
    assert ">Earlier</a>" in far
    assert ">Earlier</a>" not in old
    assert ">Later</a>" in old


@pytest.mark.parametrize(
    ("name", "queries"),
    [("months", 10), ("horse-months", 11), ("moved", 15), ("horse-moved", 16)],
)
def test_each_page_takes_as_many_queries_as_it_says(
    tansy: Horse,
    viewer: Client,
    django_assert_num_queries: DjangoAssertNumQueries,
    name: str,
    queries: int,
) -> None:
    """One more of a horse's own pages: the horse itself."""
    whose = page(name, tansy) if name.startswith("horse") else of_yard(tansy.yard, name)
    viewer.get(whose)
    with django_assert_num_queries(SIGNED_IN + queries):
        viewer.get(whose)


def test_what_is_planned_on_another_day_moves_to_it(
    tansy: Horse, viewer: Client
) -> None:
    on = today(tansy.yard)
    before = read(viewer, page("horse-months", tansy))
    Rest.objects.create(horse=tansy, start=on, end=on + timedelta(days=120))
    replan(tansy.yard, on)
    assert listed(read(viewer, page("horse-months", tansy))) != listed(before)
