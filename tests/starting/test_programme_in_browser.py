"""A programme copied, changed and given to a horse, on a phone's screen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Page, expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse
from starting.models import Plan
from starting.reads.facts import programme_of
from tests.browser import launch, need_chromium, open_page, whole
from tests.make import make_member
from tests.starting.making_log import make_youngster, page, planned

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def phone(live_server: LiveServer, tansy: Horse) -> Iterator[Page]:
    need_chromium()
    client = Client()
    client.force_login(make_member(tansy.yard, "keeper"))
    cookie = client.cookies[settings.SESSION_COOKIE_NAME].value
    with sync_playwright() as playwright:
        browser = launch(playwright)
        opened = open_page(browser, base_url=live_server.url)
        opened.context.add_cookies(
            [
                {
                    "name": settings.SESSION_COOKIE_NAME,
                    "value": cookie,
                    "url": live_server.url,
                }
            ]
        )
        yield opened
        browser.close()


@pytest.fixture
def tansy(yard: object) -> Horse:
    horse = make_youngster(yard)  # type: ignore[arg-type]
    planned(horse.yard)
    return horse


def test_a_step_is_changed_and_the_horse_moved_to_the_new_version(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(reverse("starting:plan", args=[tansy.yard.slug]))
    phone.get_by_role("link", name="Programmes").click()
    phone.get_by_role("link", name="Home-bred riding horse").click()
    phone.get_by_role("link", name="Make a copy of your own").click()
    phone.get_by_label("Name").fill("As we do it")
    phone.get_by_label("Why").fill("Wet springs.")
    phone.get_by_role("button", name="Write it in").click()
    expect(phone.get_by_role("heading", name="As we do it")).to_be_visible()

    phone.get_by_role("link", name="Change Bridle without a bit").click()
    whole(phone)
    phone.get_by_label("Not before, in months").fill("23")
    phone.get_by_text("change it", exact=False).click()
    phone.get_by_label("Long reins in the school").check()
    phone.get_by_label("Why").fill("Later here.")
    phone.get_by_role("button", name="Write it in").click()
    expect(phone.get_by_text("Not under 24 months")).to_be_visible()
    expect(phone.get_by_text("They would wait in a circle")).to_be_visible()
    whole(phone)

    phone.get_by_label("Not before, in months").fill("32")
    phone.get_by_label("Usually from, in months").fill("33")
    phone.get_by_label("Long reins in the school").uncheck()
    phone.get_by_role("button", name="Write it in").click()
    expect(phone.get_by_text("Horses stay on the version they have")).to_be_visible()
    whole(phone)
    phone.get_by_role("link", name="Its versions").click()
    expect(phone.get_by_text("Earliest: 32 months, was 30 months.")).to_be_visible()
    whole(phone)

    phone.goto(page("steps", tansy))
    phone.get_by_role("link", name="change it").click()
    whole(phone)
    phone.get_by_role("link", name="What would change by As we do it").click()
    expect(phone.get_by_text("Established, and stays so: 15 steps")).to_be_visible()
    whole(phone)
    phone.get_by_role("button", name="Move her").click()
    expect(phone.get_by_text("goes by As we do it")).to_be_visible()
    plan = Plan.objects.get(horse=tansy)
    assert programme_of(plan.programme).stage("bridle").earliest_months == 32
