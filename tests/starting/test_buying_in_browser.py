"""What to buy or borrow, on a phone and a wide screen: the list, a tick, the card."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.utils import timezone
from playwright.sync_api import Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse
from starting.models import Bought, StageRecord
from starting.writes import replan, today_in
from tests.browser import launch, need_chromium, next_page, open_page
from tests.make import make_horse, make_measurement, make_yard
from tests.starting.making_outlook import BEFORE_THE_BRIDLE
from tests.test_pages_in_browser import faults, sign_in

SIZES = {"mouth_width": 112, "head_length": 900, "nose_round": 540, "brow": 350}


@pytest.fixture(params=[390, 1280])
def page(request: pytest.FixtureRequest) -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser, request.param)
        browser.close()


def make_filly(today: date) -> Horse:
    """A pony measured this week, ready for its first bridle and bit; no tack hangs."""
    yard = make_yard(name="Sallow End", slug="sallow-end")
    born = today - timedelta(days=950)
    filly = make_horse(yard, name="Tansy", foaled=born.isoformat())
    for measure, mm in SIZES.items():
        method = "gauge" if measure == "mouth_width" else "tape"
        on = today - timedelta(days=3)
        make_measurement(filly, measure, on, mm, method=method)
    for key in BEFORE_THE_BRIDLE:
        StageRecord.objects.create(
            horse=filly, stage=key, state="established", on=today
        )
    return filly


def looked_at(page: Page, axe: Axe) -> list[str]:
    """Return what is wrong at this width, then on a phone; come back to this width."""
    here = page.viewport_size
    assert here is not None
    wide = page.evaluate("document.documentElement.scrollWidth")
    found = [f"{page.url} runs off at {here['width']}"] if wide > here["width"] else []
    found += [f"{page.url} {fault}" for fault in faults(page, axe)]
    page.set_viewport_size(here)
    return found


@pytest.mark.django_db(transaction=True)
def test_a_bit_is_looked_up_on_its_card_ticked_off_and_asked_for_again(
    page: Page, live_server: LiveServer
) -> None:
    filly = make_filly(timezone.localdate())  # the pages go by today
    replan(filly.yard, today_in(filly.yard))
    axe = Axe()
    sign_in(page, filly.yard, live_server.url)
    page.goto(f"{live_server.url}{filly.yard.get_absolute_url()}to-get/")
    found = looked_at(page, axe)
    with next_page(page):
        page.click("main >> text=Tansy >> nth=0")
    found += looked_at(page, axe)
    with next_page(page):
        page.click("text=Cards for the shop")
    card = page.locator(".card6", has_text="A bit for Tansy")
    assert "Length between the cheeks" in card.inner_text()
    found += looked_at(page, axe)
    with next_page(page):
        page.click("text=Back to the list")
    with next_page(page):
        page.click('[aria-label="Got it: A bit for Tansy"]')
    assert page.get_by_role("heading", name="Ticked off").is_visible()
    assert Bought.objects.get().kind == "bit"
    found += looked_at(page, axe)
    with next_page(page):
        page.click('[aria-label="Take the tick back: Bit for Tansy"]')
    assert page.locator('[aria-label="Got it: A bit for Tansy"]').is_visible()
    assert not Bought.objects.exists()
    assert not found, "\n".join(found)
