"""The sheet for others on paper: A4, what was chosen, and nothing to press."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from fitting.models import Horse, Yard
from tests.browser import whole
from tests.make import make_measurement
from tests.starting.making_log import make_youngster, page, planned

pytestmark = pytest.mark.django_db(transaction=True)

A4 = rb"/MediaBox \[0 0 59[45](?:\.\d+)? 84[12](?:\.\d+)?\]"


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    horse = make_youngster(yard)
    make_measurement(horse)
    planned(yard)
    return horse


def test_the_sheet_goes_on_two_sheets_of_a4_with_what_was_chosen(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(page("for-others", tansy))
    whole(phone)
    pdf = phone.pdf(prefer_css_page_size=True)
    assert 1 <= len(re.findall(rb"/Type /Page\b", pdf)) <= 2
    assert re.search(A4, pdf)
    for part in ("Incidents", "Off work"):
        phone.get_by_role("checkbox", name=part, exact=True).uncheck()
    phone.click("text=Show these parts")
    main = phone.locator("main")
    expect(main).to_contain_text(
        "Left out of this sheet by choice: Incidents; Off work"
    )
    phone.emulate_media(media="print")
    expect(main).to_contain_text("Not a vetting.")
    for hidden in ("Show these parts", "Print it"):
        expect(phone.get_by_text(hidden)).to_be_hidden()
    expect(phone.locator(".told-part")).to_have_count(5)
