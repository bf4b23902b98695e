"""Month by month in a real browser: phone, wide screen, paper, and a yard of thirty."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Page, ViewportSize, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Yard
from starting.models import Rest
from starting.writes import replan
from tests.browser import launch, need_chromium, next_page, open_page
from tests.make import make_member, make_yard
from tests.starting.making_log import make_session, make_youngster, page, today

LONG = "Marjoram of the Thistlethwaitesbottom Meadows"
PHONE: ViewportSize = {"width": 390, "height": 844}
WIDE: ViewportSize = {"width": 1280, "height": 900}
SIDEWAYS = "document.documentElement.scrollWidth > innerWidth"
COVERED = """(months) => [...document.querySelectorAll("svg.chart.wide text")]
  .map((each) => [each.textContent, each.getBBox()])
  .filter(([, box]) => box.x < 40 && box.x + box.width > months)
  .map(([said]) => said)"""
MONTHS_FROM = 296  # of the wide drawing of one horse; what is left of it is for words
YARD_FROM = 250


@pytest.fixture
def screen() -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser, **PHONE)
        browser.close()


def sign_in(screen: Page, yard: Yard, url: str) -> None:
    client = Client()
    client.force_login(make_member(yard))
    cookie = client.cookies[settings.SESSION_COOKIE_NAME].value
    screen.context.add_cookies(
        [{"name": settings.SESSION_COOKIE_NAME, "value": cookie, "url": url}]
    )


def make_filly() -> Horse:
    """Make a filly with a long name whose plan was moved by a rest today."""
    yard = make_yard(name="Sallow End", slug="sallow-end")
    horse = make_youngster(yard, name=LONG)
    make_session(horse, 2)
    on = today(yard)
    replan(yard, on - timedelta(days=1))
    Rest.objects.create(horse=horse, start=on, end=on + timedelta(days=60))
    replan(yard, on)
    return horse


@pytest.mark.django_db(transaction=True)
def test_the_way_from_the_plan_to_the_months_and_what_moved(
    screen: Page, live_server: LiveServer
) -> None:
    horse = make_filly()
    sign_in(screen, horse.yard, live_server.url)
    screen.goto(live_server.url + reverse("starting:plan", args=["sallow-end"]))
    assert screen.get_by_role("heading", name="Moved since last week").is_visible()
    with next_page(screen):
        screen.get_by_role("link", name=f"{LONG}, month by month").click()
    assert screen.locator("svg.chart.narrow").is_visible()
    assert not screen.locator("svg.chart.wide").is_visible()
    with next_page(screen):
        screen.get_by_role("link", name="All that moved").click()
    assert screen.get_by_text("Resting until").first.is_visible()
    assert not screen.evaluate(SIDEWAYS)
    screen.set_viewport_size(WIDE)
    screen.goto(live_server.url + page("horse-months", horse))
    assert screen.locator("svg.chart.wide").is_visible()
    assert screen.evaluate(COVERED, MONTHS_FROM) == []


@pytest.mark.django_db(transaction=True)
def test_the_months_go_on_paper_with_every_month_open(
    screen: Page, live_server: LiveServer
) -> None:
    horse = make_filly()
    sign_in(screen, horse.yard, live_server.url)
    screen.goto(f"{live_server.url}{page('horse-months', horse)}?far")
    screen.emulate_media(media="print")
    assert screen.locator("svg.chart.wide").is_visible()
    assert not screen.locator(".rail").is_visible()
    lead = screen.locator(".row-e.of-month a", has_text="Mouthing").first
    assert lead.is_visible()
    narrowest = screen.locator(".of-month .mi > span").evaluate_all(
        "all => Math.min(...all.map((each) => each.getBoundingClientRect().width))"
    )
    assert narrowest > 150
    for month in screen.locator("details.folded").all():
        assert month.get_attribute("open") is not None
    assert (
        screen.locator(".row-e.of-month").first.evaluate(
            "each => getComputedStyle(each).breakInside"
        )
        == "avoid"
    )


@pytest.mark.django_db(transaction=True)
def test_a_yard_of_thirty_fits_a_phone_and_the_slate_is_readable(
    screen: Page, live_server: LiveServer
) -> None:
    yard = make_yard(name="Sallow End", slug="sallow-end")
    for number in range(30):
        make_youngster(yard, name=f"{LONG[:40]} {number}")
    replan(yard, today(yard))
    sign_in(screen, yard, live_server.url)
    screen.goto(live_server.url + reverse("starting:months", args=["sallow-end"]))
    assert screen.locator("svg.chart.narrow").count() == 3
    assert not screen.evaluate(SIDEWAYS)
    screen.evaluate("document.documentElement.dataset.bsTheme = 'dark'")
    found = Axe().run(screen).response["violations"]
    assert not [each["id"] for each in found]
    screen.set_viewport_size(WIDE)
    assert screen.evaluate(COVERED, YARD_FROM) == []
