"""The picture of a link: what another program reads is the address, and no other."""

from __future__ import annotations

import base64
import http.client
from itertools import product
from pathlib import Path
from typing import Final, Literal
from urllib.parse import urlsplit

import numpy as np
import pytest
from django.conf import LazySettings
from django.urls import reverse
from hypothesis import example, given
from hypothesis import strategies as st
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

from fitting.models import Yard
from starting.qr import QUIET, qr_svg
from tests.browser import next_page, wait_for
from tests.starting.reading_qr import modules_of, pictured, read, read_file
from tests.test_pages_in_browser import phone, sign_in

__all__ = ["phone"]

ADDRESS = f"webcal://yard.example/calendar/{'Aa0_-' * 8}Zz9.ics"
LABELS = st.from_regex(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?", fullmatch=True)
HOSTS = st.lists(LABELS, min_size=1, max_size=4).map(".".join)
SECRETS = st.binary(min_size=32, max_size=32).map(
    lambda drawn: base64.urlsafe_b64encode(drawn).rstrip(b"=").decode()
)
MEDIA: Final[tuple[Literal["screen", "print"], ...]] = ("screen", "print")
WIDTHS: Final = (390, 794, 1280)  # a phone; A4 at 96 px an inch; a wide screen
LONGEST_HOST = ".".join(["x" * 63] * 3 + ["y" * 61])  # 253, as names may be


@given(host=HOSTS, secret=SECRETS, port=st.sampled_from(["", ":80", ":65535"]))
@example(host=LONGEST_HOST, secret="-" * 43, port=":65535")
@example(host="a", secret="_" * 43, port="")
def test_the_picture_reads_back_as_the_very_address(
    host: str, secret: str, port: str
) -> None:
    address = f"webcal://{host}{port}/calendar/{secret}.ics"
    modules = modules_of(qr_svg(address))
    assert read(pictured(modules)) == [address]


def test_the_picture_brings_its_light_border_along() -> None:
    modules = modules_of(qr_svg(ADDRESS))
    edges = [modules[:QUIET], modules[-QUIET:], modules[:, :QUIET], modules[:, -QUIET:]]
    assert all((edge == 255).all() for edge in edges)
    without = modules[QUIET:-QUIET, QUIET:-QUIET]
    assert read(pictured(without)) == [], "then nothing parts it from a dark page"


def test_a_spot_is_forgiven_up_to_one_module_too_many() -> None:
    modules = modules_of(qr_svg(ADDRESS))
    rows, columns = np.indices(modules.shape) - len(modules) // 2
    outwards = np.argsort(np.hypot(rows, columns), axis=None, kind="stable")
    flipped, count = modules.copy(), 0
    while read(pictured(flipped)) == [ADDRESS]:
        flipped.flat[outwards[count]] ^= 255
        count += 1
    assert read(pictured(flipped)) == [], "what is past mending is not read wrongly"
    assert count > 60  # of 1,369: a drop of rain on a screen
    flipped.flat[outwards[count - 1]] ^= 255
    assert read(pictured(flipped)) == [ADDRESS]


def made_link(page: Page, yard: Yard, url: str) -> str:
    """Make a link as a keeper does; return the address to tap, on its page."""
    sign_in(page, yard, url)
    page.goto(url + reverse("starting:add-link", args=[yard.slug]))
    page.get_by_label("For", exact=True).fill("Sam's phone")
    with next_page(page):
        page.get_by_role("button", name="Write it in").click()
    tapped = page.get_by_role("link", name="Put it in my calendar")
    return tapped.get_attribute("href") or ""


def copied(page: Page) -> str:
    """Press the button that copies; return what is to be pasted then."""
    page.emulate_media(media="screen")
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("[data-copy]").click()
    return str(wait_for(page, "navigator.clipboard.readText()"))


@pytest.mark.django_db(transaction=True)
def test_a_camera_reads_the_link_off_the_page_and_off_its_print(
    phone: Page,
    live_server: LiveServer,
    settings: LazySettings,
    yard: Yard,
    tmp_path: Path,
) -> None:
    settings.SITE_URL = live_server.url
    address = made_link(phone, yard, live_server.url)
    assert address.startswith("webcal://")
    for medium, theme, width in product(MEDIA, ("light", "dark"), WIDTHS):
        phone.set_viewport_size({"width": width, "height": 844})
        phone.emulate_media(media=medium)
        phone.evaluate("to => document.documentElement.dataset.bsTheme = to", theme)
        seen = tmp_path / f"{medium}-{theme}-{width}.png"
        phone.screenshot(path=seen, full_page=True)
        assert read_file(seen) == [address], seen.name
    assert copied(phone) == address.replace("webcal:", "http:")
    parts = urlsplit(address)
    wire = http.client.HTTPConnection(parts.netloc, timeout=600)
    wire.request("GET", parts.path)
    assert wire.getresponse().status == 200, "what a camera read is a live link"
    wire.close()
