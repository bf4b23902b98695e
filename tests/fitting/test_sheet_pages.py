"""The sheet to fill in by hand: what is on it, for whom, on how many pages."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Page, sync_playwright
from pytest_django import DjangoAssertNumQueries
from pytest_django.live_server_helper import LiveServer

from fitting.body import MEASURES
from fitting.models import Horse, Yard
from fitting.reads.sheet import sheet_of
from fitting.reads.today import today_in
from starting.writes import replan
from tests.browser import launch, need_chromium, open_page
from tests.fitting.making_measured import at, body_of, days_ago, pennyroyal
from tests.make import SIGNED_IN, make_horse, make_measurement, make_member


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return pennyroyal(yard)


def all_sheets() -> str:
    return reverse("fitting:measure-sheets", args=["sallow-end"])


def rows(page: str) -> int:
    return page.count('<th scope="row">')


def measured_lately(horse: Horse) -> None:
    make_measurement(horse, on=days_ago(horse, 5), value=1295.4)
    for measure, value in (("head_length", 900.0), ("heart_girth", 1500.0)):
        make_measurement(horse, measure, days_ago(horse, 5), value, method="tape")
    make_measurement(horse, "weight", days_ago(horse, 5), 250.0, method="weigh_tape")
    make_measurement(horse, "mouth_width", days_ago(horse, 120), 110, method="calliper")
    replan(horse.yard, today_in(horse.yard))


def test_the_sheet_has_what_is_due_with_the_last_value_and_three_boxes(
    viewer: Client, horse: Horse
) -> None:
    measured_lately(horse)
    page = body_of(viewer.get(at("measure-sheet")), 200)
    assert rows(page) == 1
    assert "Mouth width" in page
    assert "where the bit lies, lips loose" in page
    assert "last 4⅜\u2009in, calliper" in page
    assert page.count('<td class="blank wide-cell">') == 3
    assert page.count('<td class="blank note wide-cell">') == 1
    assert "measured by" in page
    assert "shod in front: yes / no" in page


def test_the_sheet_has_every_measure_if_asked(viewer: Client, horse: Horse) -> None:
    measured_lately(horse)
    page = body_of(viewer.get(f"{at('measure-sheet')}?all"), 200)
    assert rows(page) == len(MEASURES)
    assert page.count('<svg class="how"') == len(MEASURES)
    assert "last 12.3, stick, " in page


def test_a_measure_asked_for_in_the_address_stands_on_the_sheet(
    viewer: Client, horse: Horse
) -> None:
    measured_lately(horse)
    page = body_of(
        viewer.get(f"{at('measure-sheet')}?measure=rug_length&measure=x"), 200
    )
    assert rows(page) == 2
    assert "Rug length" in page


def test_with_nothing_due_the_usual_four_are_asked(
    viewer: Client, horse: Horse
) -> None:
    measured_lately(horse)
    make_measurement(horse, "mouth_width", days_ago(horse, 2), 110, method="calliper")
    replan(horse.yard, today_in(horse.yard))
    page = body_of(viewer.get(at("measure-sheet")), 200)
    assert rows(page) == 4
    assert "Nothing is due this week" in page


def test_a_horse_not_planned_yet_has_a_sheet(horse: Horse) -> None:
    found = sheet_of(horse, today_in(horse.yard), every=False)
    lasts = [row.last for stop in found.stops for row in stop.rows]
    assert lasts == ["never yet"] * 4
    assert not found.due


def test_the_sheet_says_how_a_bare_number_will_be_read(
    viewer: Client, horse: Horse
) -> None:
    assert "hands for a height, inches for a length, kg" in body_of(
        viewer.get(at("measure-sheet")), 200
    )
    horse.yard.height_unit, horse.yard.length_unit = "cm", "mm"
    horse.yard.weight_unit = "lb"
    horse.yard.save()
    assert "cm for a height, mm for a length, lb" in body_of(
        viewer.get(at("measure-sheet")), 200
    )


def test_the_sheet_is_reached_from_measuring_and_from_the_body(
    keeper: Client, horse: Horse
) -> None:
    link = f'href="{at("measure-sheet")}"'
    assert link in body_of(keeper.get(at("measure")), 200)
    assert link in body_of(keeper.get(at("horse")), 200)
    write = keeper.get(reverse("starting:write", args=["sallow-end"]))
    assert f'href="{all_sheets()}"' in body_of(write, 200)


def test_every_youngster_of_the_yard_has_a_sheet_and_no_grown_horse(
    viewer: Client, horse: Horse
) -> None:
    make_horse(horse.yard, name="Bryony")
    make_horse(horse.yard, name="Old Fennel", grown=True)
    page = body_of(viewer.get(all_sheets()), 200)
    names = re.findall(r"Measuring sheet: (\w+ ?\w*)</h1>", page)
    assert names == ["Bryony", "Pennyroyal"]
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))


def test_a_yard_without_youngsters_says_what_will_stand_there(
    viewer: Client, yard: Yard
) -> None:
    page = body_of(viewer.get(all_sheets()), 200)
    assert "No youngster to measure yet" in page


def test_a_stranger_finds_no_sheet(stranger: Client, horse: Horse) -> None:
    assert stranger.get(at("measure-sheet")).status_code == 404
    assert stranger.get(all_sheets()).status_code == 404


@pytest.mark.parametrize("more", [0, 12])
def test_the_sheets_ask_the_same_of_one_horse_and_of_many(
    viewer: Client,
    horse: Horse,
    more: int,
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    for _ in range(more):
        make_measurement(make_horse(horse.yard))
    replan(horse.yard, today_in(horse.yard))
    with django_assert_num_queries(SIGNED_IN + 2):  # outlooks, youngsters
        viewer.get(all_sheets())


@pytest.fixture
def page() -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser, 1280, 720)
        browser.close()


def leaves(page: Page, address: str) -> int:
    """Return how many sheets of paper an address prints on."""
    page.goto(address)
    printed = page.pdf(prefer_css_page_size=True)
    return len(re.findall(rb"/Type /Page\b", printed))


@pytest.mark.django_db(transaction=True)
def test_what_is_due_prints_on_one_leaf_and_all_twenty_on_two(
    page: Page, live_server: LiveServer, yard: Yard
) -> None:
    horse = pennyroyal(yard)
    measured_lately(horse)
    client = Client()
    client.force_login(make_member(yard, "viewer"))
    cookie = client.cookies[settings.SESSION_COOKIE_NAME].value
    page.context.add_cookies(
        [
            {
                "name": settings.SESSION_COOKIE_NAME,
                "value": cookie,
                "url": live_server.url,
            }
        ]
    )
    sheet = live_server.url + at("measure-sheet")
    eight = "&".join(f"measure={measure.key}" for measure in MEASURES[:8])
    assert leaves(page, f"{sheet}?{eight}") == 1
    assert leaves(page, f"{sheet}?all") == 2
    make_horse(yard, name="Bryony")
    assert leaves(page, live_server.url + all_sheets()) == 2
