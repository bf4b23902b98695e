"""Measuring in a real browser as wide as a phone: no signal, a bad value, read back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from playwright.sync_api import Page, Route, expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Measurement, Yard
from fitting.reads.today import today_in
from starting.writes import replan
from tests.browser import (
    launch,
    lose_signal,
    need_chromium,
    next_page,
    open_page,
    wait_until_kept,
)
from tests.fitting.making_measured import at, days_ago, pennyroyal
from tests.make import make_bit, make_measurement, make_member

pytestmark = pytest.mark.django_db(transaction=True)
EIGHT: Final = {
    "withers_height-1": "12.3",
    "withers_height-2": "12.3¼",
    "withers_height-3": "13.4",
    "heart_girth-1": "59",
    "heart_girth-2": "59½",
    "heart_girth-3": "59¼",
    "mouth_width-1": "4 3/8",
    "mouth_width-2": "4 3/8",
}
GOOD: Final = {**EIGHT, "withers_height-3": "12.3¼"}


@pytest.fixture
def horse(yard: Yard) -> Horse:
    horse = pennyroyal(yard)
    make_bit(yard, name="Small eggbutt", length_mm=118)
    make_measurement(horse, on=days_ago(horse, 90), value=1290.0)
    replan(yard, today_in(yard))
    return horse


@pytest.fixture
def phone(live_server: LiveServer, horse: Horse) -> Iterator[Page]:
    need_chromium()
    client = Client()
    client.force_login(make_member(horse.yard))
    cookie = {
        "name": settings.SESSION_COOKIE_NAME,
        "value": client.cookies[settings.SESSION_COOKIE_NAME].value,
        "url": live_server.url,
    }
    with sync_playwright() as playwright:
        browser = launch(playwright)
        page = open_page(browser)
        page.context.add_cookies([cookie])  # type: ignore[list-item]
        page.goto(live_server.url + at("measure"))
        yield page
        browser.close()


def type_in(page: Page, readings: dict[str, str]) -> None:
    for name, text in readings.items():
        page.fill(f"[name={name}]", text)
    wait_until_kept(page, *list(readings.items())[-1])


def typed(page: Page) -> dict[str, str]:
    return {name: page.input_value(f"[name={name}]") for name in EIGHT}


def write_it_in(page: Page) -> None:
    page.click("text=Write it in")


def test_without_signal_all_is_kept_and_goes_once_when_it_is_back(phone: Page) -> None:
    type_in(phone, GOOD)
    lose_signal(phone)
    write_it_in(phone)
    expect(phone.locator(".kept")).to_contain_text("No signal. Kept on this phone")
    assert typed(phone) == GOOD
    assert not Measurement.objects.filter(on=today_here()).exists()
    lose_signal(phone, lost=False)
    with next_page(phone):
        write_it_in(phone)
    expect(phone.locator(".messages")).to_contain_text("Withers height 12.3¼ hands")
    assert Measurement.objects.filter(on=today_here()).count() == 3
    assert phone.evaluate("Object.keys(localStorage)") == []


def lose_the_answer(page: Page) -> None:
    """Send the form, and lose what the site answers on its way back."""

    def lose(route: Route) -> None:
        route.fetch(max_redirects=0)
        route.abort()

    page.route("**/measure/", lose, times=1)
    with next_page(page):  # the browser's own, on what went wrong
        write_it_in(page)


def test_an_answer_lost_on_the_way_back_is_told_by_the_next_page(phone: Page) -> None:
    type_in(phone, GOOD)
    address = phone.url
    lose_the_answer(phone)
    assert Measurement.objects.filter(on=today_here()).count() == 3
    phone.goto(address)
    expect(phone.locator(".messages")).to_contain_text("Withers height 12.3¼ hands")
    assert set(typed(phone).values()) == {""}
    assert phone.evaluate("Object.keys(localStorage)") == []


def test_sending_again_after_a_lost_answer_saves_once(phone: Page) -> None:
    type_in(phone, GOOD)
    lose_the_answer(phone)
    with phone.expect_request(lambda one: one.method == "POST"):
        phone.reload()
    phone.wait_for_url(lambda url: not url.endswith("measure/"))
    assert Measurement.objects.filter(on=today_here()).count() == 3


def today_here() -> str:
    """Return the day of the yard."""
    return today_in(Yard.objects.get()).isoformat()


def test_one_bad_value_among_eight_loses_nothing(phone: Page) -> None:
    type_in(phone, EIGHT)
    with (
        next_page(phone),
        phone.expect_response(lambda one: one.request.method == "POST") as answer,
    ):
        write_it_in(phone)
    assert answer.value.status == 422
    assert typed(phone) == EIGHT
    bad = phone.locator("[name=withers_height-3]")
    assert bad.get_attribute("aria-invalid") == "true"
    error = phone.locator(f"#{bad.get_attribute('aria-describedby')}")
    expect(error).to_contain_text("13.4 cannot be read.")
    assert not Measurement.objects.filter(on=today_here()).exists()
    phone.check("text=13.3 hands")
    with next_page(phone):
        write_it_in(phone)
    assert phone.locator("[role=alert]").last.is_visible()


def test_reading_back_says_what_changes_without_leaving_the_page(phone: Page) -> None:
    type_in(phone, GOOD)
    with phone.expect_response(lambda one: one.request.method == "POST") as answer:
        phone.click("text=Read it back")
    assert answer.value.request.headers["hx-request"] == "true"
    back = phone.locator("#answer")
    expect(back).to_contain_text("Read back, not written in yet")
    expect(back).to_contain_text("Small eggbutt: good")
    expect(back).to_be_in_viewport()
    assert typed(phone) == GOOD
    expect(phone.locator(".keys").nth(3)).to_be_visible()  # given to it once more
    assert not Measurement.objects.filter(on=today_here()).exists()
    found = Axe().run(phone).response["violations"]
    assert [one["id"] for one in found] == []
    with next_page(phone):
        write_it_in(phone)
    expect(phone.locator(".messages")).to_contain_text("Small eggbutt: good")
    assert Measurement.objects.filter(on=today_here()).count() == 3


def test_reading_back_without_signal_says_so(phone: Page) -> None:
    type_in(phone, GOOD)
    lose_signal(phone)
    phone.click("text=Read it back")
    expect(phone.locator(".kept")).to_contain_text("No signal. Kept on this phone")
    assert typed(phone) == GOOD


def test_bar_and_fraction_keys_stand_in_one_row_on_a_phone(phone: Page) -> None:
    tops = "all => new Set(all.map((one) => one.getBoundingClientRect().top)).size"
    keys = phone.locator("#mouth_width .key")
    assert keys.count() == 7
    assert keys.evaluate_all(tops) == 1
    heights = phone.locator(".savebar > *").evaluate_all(
        "all => all.map((one) => one.getBoundingClientRect())"
        ".map((box) => Math.round((box.top + box.bottom) / 2))"
    )
    assert max(heights) - min(heights) <= 2
