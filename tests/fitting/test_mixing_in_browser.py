"""A bridle made up on a phone and on a wide screen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import TackSet
from starting.writes import replan, today_in
from tests.browser import launch, need_chromium, next_page, open_page
from tests.fitting.making_mixing_pages import (
    make_bridle,
    make_filly,
    make_set,
    make_snaffle,
)
from tests.make import make_yard
from tests.test_pages_in_browser import faults, sign_in


@pytest.fixture(params=[390, 1280])
def page(request: pytest.FixtureRequest) -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser, request.param)
        browser.close()


@pytest.mark.django_db(transaction=True)
def test_the_best_bridle_is_found_and_made_up(
    page: Page, live_server: LiveServer
) -> None:
    yard = make_yard(name="Sallow End", slug="sallow-end")
    filly = make_filly(yard)
    make_bridle(yard, "Ash")
    beech = make_bridle(yard, "Beech", noseband={"longest_mm": None})
    make_set(yard, "Old set", browband=beech)
    make_snaffle(yard)
    replan(yard, today_in(yard))
    axe, found = Axe(), list[str]()
    sign_in(page, yard, live_server.url)
    page.goto(f"{live_server.url}{yard.get_absolute_url()}tack/")
    with next_page(page):
        page.click("text=Make up a bridle for a horse")
    found += faults(page, axe)
    page.select_option("[name=horse]", filly.key)
    with next_page(page):
        page.click("text=Look what fits")
    found += faults(page, axe)
    assert page.get_by_text("Hole 4", exact=True).first.is_visible()
    page.click("text=Why, part by part")
    with next_page(page):
        page.click("text=Make it up >> nth=0")
    assert page.get_by_role("heading", name="Bridle for Teasel").is_visible()
    found += faults(page, axe)
    with next_page(page):
        page.click("main >> text=Make up another like it")
    found += faults(page, axe)
    assert (
        page.locator("[name=headpiece] option:checked").inner_text().startswith("Ash")
    )
    assert TackSet.objects.count() == 2
    assert not found, "\n".join(found)
