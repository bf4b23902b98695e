"""The main job in a real browser, on a phone: from a reading to a calendar entry."""

from __future__ import annotations

import re
import urllib.request
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone
from icalendar import Calendar
from playwright.sync_api import Page, expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from tests.browser import launch, need_chromium, next_page, open_page
from tests.make import PASSWORD, make_user


@pytest.fixture
def phone() -> Iterator[Page]:
    need_chromium()
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield open_page(browser)
        browser.close()


def choose(page: Page, name: str, value: str) -> None:
    """Choose one of the framed labels, as a thumb would: by its label."""
    page.locator(f"label:has(input[name='{name}'][value='{value}'])").first.click()


def write_it_in(page: Page) -> None:
    with next_page(page):
        page.get_by_role("button", name="Write it in").click()


@pytest.mark.django_db(transaction=True)
def test_a_keeper_goes_from_the_stick_to_the_calendar(
    phone: Page, live_server: LiveServer
) -> None:
    make_user("marjoram")
    faults: list[str] = []
    phone.on("pageerror", lambda error: faults.append(str(error)))
    sign_in(phone, live_server.url)
    first_visit(phone)
    measure(phone)
    add_a_bit(phone)
    see_whether_it_fits(phone)
    log_a_session(phone)
    address = make_a_link(phone)
    titles = titles_on_days(address)
    assert any(
        title.startswith("Sorrel: measure ") and day >= timezone.localdate()
        for title, day in titles
    ), titles
    assert not faults


def sign_in(page: Page, url: str) -> None:
    page.goto(url)
    page.locator("input[name=username]").fill("marjoram")
    page.locator("input[name=password]").fill(PASSWORD)
    page.locator("main").get_by_role("button", name="Sign in").click()


def first_visit(page: Page) -> None:
    expect(page.get_by_role("heading", level=1)).to_have_text("A yard")
    page.locator("input[name=name]").fill("Larkmoor")
    write_it_in(page)
    foaled = timezone.localdate() - timedelta(days=940)  # 31 months
    page.locator("input[name=name]").fill("Sorrel")
    choose(page, "sex", "filly")
    page.locator("input[name=foaled]").fill(foaled.isoformat())
    choose(page, "horse_type", "pony")
    write_it_in(page)
    for box, reading in (("1", "12.2 1/2"), ("2", "12.2½")):
        field = page.locator(f"input[name=withers_height-{box}]")
        field.fill(reading)
        with page.expect_response(lambda one: one.request.method == "POST"):
            field.blur()  # it is read back as soon as it is left
    write_it_in(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Sorrel")
    expect(page.locator("body")).to_contain_text("12.2½")


def measure(page: Page) -> None:
    with next_page(page):
        page.get_by_role("link", name=re.compile("^Measure what is due")).click()
    folded = page.locator("details:not([open]) > summary")
    while folded.count():
        folded.first.click()
    page.locator("input[name='mouth_width-1']").fill("4 1/8 in")
    choose(page, "mouth_width-method", "dowel")
    page.locator("input[name='head_length-1']").fill("35¾")
    write_it_in(page)
    expect(page.locator("body")).to_contain_text("Mouth width 4⅛ in (10.5 cm)")


def add_a_bit(page: Page) -> None:
    page.get_by_role("link", name="Tack room").click()
    page.get_by_role("link", name=re.compile("Put up")).first.click()
    page.get_by_role("link", name=re.compile("^bit", re.IGNORECASE)).first.click()
    page.locator("input[name=name]").fill("Small eggbutt")
    page.locator("input[name='mouthpiece-length']").fill('4½"')
    page.locator("input[name='mouthpiece-thickness']").fill("14 mm")
    page.locator("input[name='mouthpiece-ring']").fill("55 mm")
    choose(page, "mouthpiece-cheek", "eggbutt")
    choose(page, "mouthpiece-mouthpiece", "single_jointed")
    write_it_in(page)


def see_whether_it_fits(page: Page) -> None:
    expect(page.get_by_role("heading", level=1)).to_have_text("Small eggbutt")
    row = page.locator("tr", has_text="Sorrel").first  # then hole by hole
    expect(row).to_contain_text("good")
    expect(row).to_contain_text(re.compile(r"20\d\d"))  # how long it lasts


def log_a_session(page: Page) -> None:
    page.get_by_role("link", name="Yard", exact=True).click()
    with next_page(page):
        page.get_by_role("link", name="Write up a session").first.click()
    ticks = page.locator("input[type=radio][value=yes]")
    for tick in ticks.all():
        page.locator(f"label:has(input[id='{tick.get_attribute('id')}'])").click()
    write_it_in(page)
    expect(page.locator("body")).to_contain_text("Written in")


def make_a_link(page: Page) -> str:
    page.get_by_role("link", name="Larkmoor").click()
    page.get_by_role("link", name="Calendar links").click()
    page.get_by_role("link", name="Make a calendar link").click()
    page.locator("input[name=label]").fill("My phone")
    write_it_in(page)
    address = page.locator("#address").inner_text().strip()
    return (
        page.url.split("/larkmoor")[0] + "/calendar/" + address.split("/calendar/")[1]
    )


def titles_on_days(address: str) -> list[tuple[str, date]]:
    with urllib.request.urlopen(address) as answer:  # noqa: S310 - our own address
        events: list[Any] = Calendar.from_ical(answer.read()).walk("VEVENT")
    return [(str(event["summary"]), event["dtstart"].dt) for event in events]
