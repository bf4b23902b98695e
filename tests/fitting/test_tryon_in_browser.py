"""A try-on in a real browser as wide as a phone: two parts, one refused, none lost."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Page, expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Part, Tack, TryOn, Yard
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
from tests.make import make_horse, make_measurement, make_member

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def horse(yard: Yard) -> Horse:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse, "nose_round", value=560, method="tape")
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    Part.objects.create(tack=bridle, part="cheekpieces", length_mm=200, holes=7)
    Part.objects.create(tack=bridle, part="noseband", holes=7)
    replan(yard, today_in(yard))
    return horse


@pytest.fixture
def phone(live_server: LiveServer, horse: Horse) -> Iterator[Page]:
    need_chromium()
    client = Client()
    client.force_login(make_member(horse.yard, "helper"))
    cookie = {
        "name": settings.SESSION_COOKIE_NAME,
        "value": client.cookies[settings.SESSION_COOKIE_NAME].value,
        "url": live_server.url,
    }
    address = reverse("fitting:try-on", args=[horse.yard.slug, horse.key])
    with sync_playwright() as playwright:
        browser = launch(playwright)
        page = open_page(browser)
        page.context.add_cookies([cookie])  # type: ignore[list-item]
        page.goto(f"{live_server.url}{address}?item=brown")
        yield page
        browser.close()


def tap(page: Page, name: str, value: str) -> None:
    page.click(f'label:has([name="{name}"][value="{value}"])')


def is_on(page: Page, name: str, value: str) -> bool:
    return page.is_checked(f'[name="{name}"][value="{value}"]')


def look_at_two_parts(page: Page) -> None:
    tap(page, "how", "worn")
    tap(page, "seen-cheekpieces", "sits_right")
    tap(page, "hole-cheekpieces", "3")
    tap(page, "seen-noseband", "too_short")
    page.fill("[name=gap-noseband]", "a thumb")
    page.fill("[name=who]", "Jo at her head")
    wait_until_kept(page, "who", "Jo at her head")


def kept(page: Page) -> bool:
    return (
        is_on(page, "how", "worn")
        and is_on(page, "seen-cheekpieces", "sits_right")
        and is_on(page, "hole-cheekpieces", "3")
        and is_on(page, "seen-noseband", "too_short")
        and page.input_value("[name=who]") == "Jo at her head"
    )


def test_one_part_refused_keeps_the_other_and_all_is_written_once_mended(
    phone: Page,
) -> None:
    look_at_two_parts(phone)
    with next_page(phone):
        phone.click("text=Write it in")
    expect(phone.locator(".refused")).to_contain_text("2 fingers")
    assert kept(phone)
    assert phone.input_value("[name=gap-noseband]") == "a thumb"
    assert not TryOn.objects.exists()
    phone.fill("[name=gap-noseband]", "2 fingers")
    with next_page(phone):
        phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("cheekpieces sits right")
    rows = TryOn.objects.get().parts.values_list("part", "seen", "hole", "gap_mm")
    assert set(rows) == {
        ("cheekpieces", "sits_right", 3, None),
        ("noseband", "too_short", None, 20.0),
    }
    assert phone.evaluate("Object.keys(localStorage)") == []


def test_without_signal_and_after_a_reload_all_is_there(phone: Page) -> None:
    look_at_two_parts(phone)
    lose_signal(phone)
    phone.click("text=Write it in")
    expect(phone.locator(".kept")).to_contain_text("No signal. Kept on this phone")
    lose_signal(phone, lost=False)
    phone.reload()
    expect(phone.locator(".kept")).to_contain_text("Kept on this phone since")
    assert kept(phone)


def test_holes_are_a_finger_wide_and_nothing_runs_off_the_screen(phone: Page) -> None:
    boxes = phone.locator(".holes label").all()
    assert len(boxes) == 16
    for box in boxes:
        size = box.bounding_box()
        assert size is not None
        assert min(size["width"], size["height"]) >= 44
    for width in (1280, 390):
        phone.set_viewport_size({"width": width, "height": 844})
        assert phone.evaluate("document.documentElement.scrollWidth") <= width
        assert Axe().run(phone).response["violations"] == []
