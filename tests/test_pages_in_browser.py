"""Every page of a rich yard in a real browser, as narrow as a phone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Yard
from starting.writes import replan, today_in
from tests.browser import launch, need_chromium, open_page
from tests.make import make_horse, make_measurement, make_member, make_yard
from tests.starting.addresses import FILES, POST_ONLY, Rows, addresses, make_rows

PICTURES: Final = {"fitting:large-photo", "fitting:small-photo"}
NOT_PAGES: Final = POST_ONLY | PICTURES | FILES
WIDTHS: Final = (390, 320)
TARGET_PX: Final = 43.5  # 44, less what rounding takes
SMALL: Final = """least => [...document.querySelectorAll(
  "main a, main button, main summary, main select, main textarea, .rail a, .yardname,"
  + "main input:not([type=hidden])"
)].filter((each) => each.checkVisibility({ checkOpacity: true })).map((each) => [
  each, (each.matches("[type=checkbox], [type=radio]") && each.closest("label")) || each
]).filter(([, target]) => target.getBoundingClientRect().height < least)
  .map(([each]) => `small: ${(each.textContent || each.name).trim()}`)"""


@pytest.fixture
def phone() -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser, WIDTHS[0])
        browser.close()


def make_rich_yard() -> Rows:
    """Make a yard with a row of each kind, and a name too long for any column."""
    yard = make_yard(name="Sallow End and the Long Meadow", slug="sallow-end")
    rows = make_rows(yard)
    long = make_horse(yard, name="Marjoram of the Thistlethwaitesbottom Meadows")
    make_measurement(long)
    replan(yard, today_in(yard))
    return rows


def sign_in(page: Page, yard: Yard, url: str) -> None:
    client = Client()
    client.force_login(make_member(yard))
    cookie = client.cookies[settings.SESSION_COOKIE_NAME].value
    page.context.add_cookies(
        [{"name": settings.SESSION_COOKIE_NAME, "value": cookie, "url": url}]
    )


def faults(page: Page, axe: Axe) -> Iterator[str]:
    """Return what is wrong with the page that is open."""
    page.wait_for_load_state()
    for found in axe.run(page).response["violations"]:
        yield f"{found['id']}: {found['nodes'][0]['html'][:120]}"
    yield from page.evaluate(SMALL, TARGET_PX)
    for width in reversed(WIDTHS):  # the width of the next page comes last
        page.set_viewport_size({"width": width, "height": 844})
        wide = page.evaluate("document.documentElement.scrollWidth")
        if wide > width:
            yield f"scrolls sideways: {wide} px at {width}"


@pytest.mark.django_db(transaction=True)
def test_every_page_is_whole_on_a_phone(phone: Page, live_server: LiveServer) -> None:
    rows = make_rich_yard()
    sign_in(phone, rows.yard, live_server.url)
    found: list[str] = []
    axe = Axe()
    phone.on("pageerror", lambda error: found.append(f"{phone.url} {error}"))
    phone.on(
        "console",
        lambda said: (
            found.append(f"{phone.url} {said.text}")
            if said.type in {"error", "warning"}
            else None
        ),
    )
    pages = {name: to for name, to in addresses().items() if name not in NOT_PAGES}
    for name, parts in pages.items():
        address = reverse(name, kwargs=rows.parts(name, parts))
        answer = phone.goto(live_server.url + address)
        assert answer is not None
        assert answer.status == 200, address
        found += [f"{address} {fault}" for fault in faults(phone, axe)]
    assert not found, "\n".join(found)
