"""Ready to back? in a real browser, as wide as a phone, and on paper."""

from __future__ import annotations

from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from fitting.models import Horse, Yard
from starting.models import CareVisit, Person
from tests.browser import whole
from tests.make import make_horse, make_measurement
from tests.starting.making_log import make_youngster, page, planned, today

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """Return a filly of four, weighed, with a rider named for her."""
    on = today(yard)
    horse = make_youngster(yard, foaled=(on - timedelta(days=1500)).isoformat())
    make_measurement(horse, "weight", on=on, value=430.0, method="weighbridge")
    rider = Person.objects.create(
        yard=yard, name="Sam", can=["ride"], weight_kg=52.0, has_backed_horses=True
    )
    horse.plan.rider, horse.plan.tack_weight_kg = rider, 10.0
    horse.plan.save()
    planned(yard)
    return horse


def test_every_fact_stands_on_a_phone_with_who_may_sit_and_what_each_needs(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(page("ready", tansy))
    main = phone.locator("main")
    expect(main).to_contain_text("things are not a yes")
    expect(main).to_contain_text("A date is never permission")
    expect(main).to_contain_text("Heavy, still within the limit")
    expect(main).to_contain_text("430")
    whole(phone)
    phone.set_viewport_size({"width": 320, "height": 844})
    assert phone.evaluate("document.documentElement.scrollWidth") <= 320


def test_a_visit_written_in_from_the_page_makes_one_thing_more_a_yes(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(page("ready", tansy))
    before = not_a_yes(phone)
    CareVisit.objects.create(horse=tansy, kind="vet", on=today(tansy.yard), clear=True)
    planned(tansy.yard)
    phone.reload()
    assert not_a_yes(phone) == before - 1


def not_a_yes(phone: Page) -> int:
    said = phone.locator("main").inner_text().partition("Not yet: ")[2]
    return int(said.split()[0])


def test_a_pony_no_rider_fits_is_told_so_at_the_top_and_in_the_row(
    phone: Page, tansy: Horse
) -> None:
    small = make_horse(
        tansy.yard, name="Pip", foaled="2021-04-19", horse_type="small_pony"
    )
    small.plan.tack_weight_kg = 8.0
    small.plan.save()
    planned(tansy.yard)
    phone.goto(page("ready", small))
    main = phone.locator("main")
    expect(main).to_contain_text("No rider of this yard is light enough for Pip")
    expect(main.locator(".ledger")).to_contain_text("Too heavy")
    expect(main.locator(".ledger")).not_to_contain_text("Can't say")
    whole(phone)
    phone.locator(".if-rider > summary").click()
    whole(phone)


def test_it_prints_with_every_fact_open_and_without_the_pegs(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(page("ready", tansy))
    phone.emulate_media(media="print")
    assert not phone.locator(".rail").is_visible()
    assert phone.get_by_role("heading", name="Ready to back?").is_visible()
    assert phone.pdf(prefer_css_page_size=True)
