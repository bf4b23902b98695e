"""A real browser for the pages: Debian's Chromium, or a clear reason why not."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.contrib.auth.models import User
from django.test import Client
from playwright.sync_api import Browser, Page, Playwright, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


def need_chromium() -> None:
    """Skip where there is no Chromium; never so on CI."""
    if not CHROMIUM.exists():
        assert os.environ.get("CI") != "true", "no Chromium to test the pages with"
        pytest.skip("no Chromium here: install Debian's package chromium")


def launch(playwright: Playwright) -> Browser:
    """Start the browser."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=list(ARGUMENTS))


@contextmanager
def phone_of(user: User, url: str) -> Iterator[Page]:
    """Open a phone on which somebody is signed in."""
    need_chromium()
    client = Client()
    client.force_login(user)
    with sync_playwright() as playwright:
        browser = launch(playwright)
        phone = browser.new_page(viewport={"width": 390, "height": 844}, base_url=url)
        phone.set_default_timeout(30_000)
        name = settings.SESSION_COOKIE_NAME
        value = client.cookies[name].value
        phone.context.add_cookies([{"name": name, "value": value, "url": url}])
        yield phone
        browser.close()


def whole(phone: Page) -> None:
    """Assert that nothing runs off the screen and axe finds nothing."""
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    assert Axe().run(phone).response["violations"] == []
