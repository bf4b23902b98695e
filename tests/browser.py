"""A real browser for the pages: Debian's Chromium, or a clear reason why not.

What is asked of a page is waited for, never timed: a slow machine is only slower.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic
from typing import Any, Final

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.contrib.auth.models import User
from django.test import Client
from playwright.sync_api import Browser, Page, Playwright, expect, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip

PATIENCE_MS: Final = 90_000  # only ever waited out by what will not come
KEPT: Final = """(value) => Object.keys(localStorage).some((key) =>
  JSON.parse(localStorage.getItem(key)).values.some((kept) =>
    JSON.stringify(kept) === JSON.stringify(value)))"""
expect.set_options(timeout=PATIENCE_MS)


def need_chromium() -> None:
    """Skip where there is no Chromium; never so on CI."""
    if not CHROMIUM.exists():
        assert os.environ.get("CI") != "true", "no Chromium to test the pages with"
        pytest.skip("no Chromium here: install Debian's package chromium")


def launch(playwright: Playwright) -> Browser:
    """Start the browser."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=list(ARGUMENTS))


def open_page(
    browser: Browser, width: int = 390, height: int = 844, **how: Any
) -> Page:
    """Open a page that is waited for as long as need be."""
    size = {"width": width, "height": height}
    page = browser.new_page(viewport=size, **how)  # type: ignore[arg-type]
    page.set_default_timeout(PATIENCE_MS)
    return page


@contextmanager
def phone_of(user: User, url: str) -> Iterator[Page]:
    """Open a phone on which somebody is signed in."""
    need_chromium()
    client = Client()
    client.force_login(user)
    with sync_playwright() as playwright:
        browser = launch(playwright)
        phone = open_page(browser, base_url=url)
        name = settings.SESSION_COOKIE_NAME
        value = client.cookies[name].value
        phone.context.add_cookies([{"name": name, "value": value, "url": url}])
        yield phone
        browser.close()


def wait_for(page: Page, asked: str, arg: object = None) -> Any:
    """Ask the page until it says something; its policy forbids Playwright's own way."""
    until = monotonic() + PATIENCE_MS / 1000
    while not (said := page.evaluate(asked, arg)):
        assert monotonic() < until, asked
        page.wait_for_timeout(50)
    return said


@contextmanager
def next_page(page: Page) -> Iterator[None]:
    """Do what leads to another page; wait until it is whole, with its scripts run."""
    page.evaluate("document.documentElement.dataset.left = 'yes'")
    yield
    expect(page.locator("html[data-left]")).to_have_count(0)
    page.wait_for_load_state()


def lose_signal(page: Page, *, lost: bool = True) -> None:
    """Take the signal away or give it back, and wait until the page knows."""
    page.context.set_offline(lost)
    wait_for(page, "lost => navigator.onLine !== lost", lost)


def wait_until_kept(page: Page, name: str, value: object) -> None:
    """Wait until what was typed last is kept on the phone: it is so a moment later."""
    wait_for(page, KEPT, [name, value])


def whole(phone: Page) -> None:
    """Assert that nothing runs off the screen and axe finds nothing."""
    phone.wait_for_load_state()
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    assert Axe().run(phone).response["violations"] == []
