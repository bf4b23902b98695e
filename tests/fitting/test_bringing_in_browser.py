"""A list of 200 lines, ten of them bad, looked through on a phone."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Measurement
from tests.browser import launch, need_chromium, next_page, open_page
from tests.fitting.making_looked import at
from tests.make import make_horse, make_yard
from tests.test_pages_in_browser import faults, sign_in

LINES = 200
BAD = 10


@pytest.fixture
def phone() -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser)
        browser.close()


def long_list() -> str:
    """Return a list with ten lines that cannot be read, and one to be looked at."""
    first = date(2025, 1, 1)
    lines = [
        f"Pennyroyal;{first + timedelta(days=3 * number)};118,5;stick;"
        for number in range(LINES)
    ]
    for number in range(BAD):
        lines[19 * number] = lines[19 * number].replace("Penny", f"{number}enny")
    lines[5] = lines[5].replace("118,5", "190")
    lines[6] = f"{lines[6]}{'windy' * 50}"
    return "\n".join(["Horse;Day;Withers (cm);Method;Remarks", *lines])


def ready(page: Page, live_server: LiveServer) -> None:
    """Sign in to a yard with a filly in it, and open the page of bringing in."""
    yard = make_yard(name="Sallow End", slug="sallow-end")
    make_horse(yard, name="Pennyroyal")
    sign_in(page, yard, live_server.url)
    page.goto(live_server.url + at("bring-in"))


@pytest.mark.django_db(transaction=True)
def test_a_list_is_looked_through_written_in_and_taken_back(
    phone: Page, live_server: LiveServer
) -> None:
    ready(phone, live_server)
    axe, found = Axe(), list[str]()
    phone.set_input_files("[name=file]", {
        "name": "book.csv", "mimeType": "text/csv", "buffer": long_list().encode(),
    })  # fmt: skip
    with next_page(phone):
        phone.click("main .strap")
    found += faults(phone, axe)
    assert (
        phone.get_by_text("cannot be read and are left").inner_text().startswith("10")
    )
    phone.check("text=It is read rightly")
    with next_page(phone):
        phone.get_by_role("button", name="Look again").click()
    assert phone.is_checked("text=It is read rightly")
    with next_page(phone):
        phone.click("text=Write it in")
    found += faults(phone, axe)
    assert Measurement.objects.count() == LINES - BAD
    with next_page(phone):
        phone.click("main >> text=Take it back")
    found += faults(phone, axe)
    with next_page(phone):
        phone.click("main .plainb")
    assert phone.get_by_text("book.csv is taken back.").is_visible()
    assert not Measurement.objects.exists()
    assert not found, "\n".join(found)
