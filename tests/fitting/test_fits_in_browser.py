"""Does it fit and who fits what in a real browser: on a phone, wide, and printed."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from fitting.models import Yard
from fitting.who_fits import MOST_NAMED
from starting.writes import replan, today_in
from tests.browser import next_page
from tests.make import make_bit, make_horse, make_measurement, make_yard
from tests.test_pages_in_browser import faults, phone, sign_in

__all__ = ["phone"]

DRAWN_TWICE = """new Promise(
  (done) => requestAnimationFrame(() => requestAnimationFrame(done)))"""


def make_fitted_yard() -> Yard:
    yard = make_yard(name="Sallow End", slug="sallow-end")
    on = today_in(yard) - timedelta(days=3)
    for name, mouth in (("Tansy", 112.0), ("Bramling", 98.0)):
        horse = make_horse(yard, name=name)
        make_measurement(horse, "mouth_width", on=on, value=mouth, method="dowel")
    make_horse(yard, name="Marjoram of the Thistlethwaitesbottom Meadows")
    for name, length in (("Eggbutt", 117.0), ("Narrow", 104.0), ("Wide", 150.0)):
        make_bit(yard, name=name, length_mm=length)
    replan(yard, today_in(yard))
    return yard


@pytest.mark.django_db(transaction=True)
def test_two_touches_lead_to_an_answer(phone: Page, live_server: LiveServer) -> None:
    yard = make_fitted_yard()
    sign_in(phone, yard, live_server.url)
    phone.goto(live_server.url + reverse("fitting:tack-room", args=[yard.slug]))
    phone.get_by_role("link", name="Does it fit?", exact=True).click()
    phone.get_by_role("link", name="Tansy", exact=True).click()
    with next_page(phone):
        phone.get_by_role("link", name="Eggbutt", exact=True).click()
    heading = phone.get_by_role("heading", level=1)
    assert heading.text_content() == "Does Eggbutt fit Tansy?"
    assert phone.locator("svg.reach.narrow").is_visible()
    assert not phone.locator("svg.reach.wide").is_visible()
    later = (today_in(yard) + timedelta(days=400)).isoformat()
    phone.get_by_label("On", exact=True).fill(later)
    with next_page(phone):
        phone.get_by_role("button", name="Show that day").click()
    assert "by all that is known today" in phone.inner_text("main")


@pytest.mark.django_db(transaction=True)
def test_the_rail_stays_away_from_under_a_slow_finger(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_fitted_yard()
    sign_in(phone, yard, live_server.url)
    horse, bit = yard.horses.get(name="Tansy"), yard.tack.get(name="Eggbutt")
    one = reverse("fitting:does-it-fit", args=[yard.slug])
    phone.goto(f"{live_server.url}{one}?horse={horse.key}&item={bit.key}")
    day, button, rail = (
        phone.get_by_label("On", exact=True),
        phone.get_by_role("button", name="Show that day"),
        phone.locator(".rail"),
    )
    phone.emulate_media(reduced_motion="reduce")
    day.focus()
    assert not rail.is_visible()
    button.evaluate(  # down to where the rail is
        "each => window.scrollBy({behavior: 'instant', "
        "top: each.getBoundingClientRect().bottom - window.innerHeight})"
    )
    place = button.bounding_box()
    assert place is not None
    assert place["y"] + place["height"] == pytest.approx(844, abs=1)
    with next_page(phone):
        phone.mouse.move(place["x"] + 20, place["y"] + 20)
        phone.mouse.down()
        phone.evaluate(DRAWN_TWICE)  # whatever the press brings up is up by now
        assert not rail.is_visible()
        phone.mouse.up()
    day.focus()
    button.focus()
    assert rail.is_visible()  # the keyboard moves on at once


@pytest.mark.django_db(transaction=True)
def test_the_pages_are_whole_at_every_width(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_fitted_yard()
    sign_in(phone, yard, live_server.url)
    horse, bit = yard.horses.get(name="Tansy"), yard.tack.get(name="Eggbutt")
    who, one = (
        reverse(name, args=[yard.slug])
        for name in ("fitting:who-fits", "fitting:does-it-fit")
    )
    later = (today_in(yard) + timedelta(days=400)).isoformat()
    found = []
    for address in (
        who, f"{who}?by=horse", f"{who}?by=until", f"{who}?by=item&day={later}",
        one, f"{one}?horse={horse.key}", f"{one}?item={bit.key}",
        f"{one}?horse={horse.key}&item={bit.key}", bit.get_absolute_url(),
    ):  # fmt: skip
        for width in (390, 1280):
            phone.set_viewport_size({"width": width, "height": 844})
            phone.goto(live_server.url + address)
            found += [f"{address} {width} {fault}" for fault in faults(phone, Axe())]
    assert not found, "\n".join(found)


@pytest.mark.django_db(transaction=True)
def test_of_many_horses_what_does_not_fit_is_folded_and_on_paper_whole(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_fitted_yard()
    for number in range(1, MOST_NAMED):
        make_horse(yard, name=f"Foal {number}")
    replan(yard, today_in(yard))
    sign_in(phone, yard, live_server.url)
    who = reverse("fitting:who-fits", args=[yard.slug])
    phone.goto(f"{live_server.url}{who}?by=horse")
    row = phone.locator("#of-tansy")
    narrow, eggbutt = (row.get_by_role("link", name=n) for n in ("Narrow", "Eggbutt"))
    expect(eggbutt).to_be_visible()
    expect(narrow).not_to_be_visible()
    phone.get_by_text("Go to one of 10 horses").click()
    phone.get_by_role("link", name="Tansy", exact=True).first.click()
    assert phone.url.endswith("#of-tansy")
    row.get_by_text("2 no", exact=True).click()
    expect(narrow).to_be_visible()
    assert list(faults(phone, Axe())) == []
    phone.goto(f"{live_server.url}{who}?by=horse")
    expect(narrow).not_to_be_visible()
    phone.emulate_media(media="print")
    expect(narrow).to_be_visible()
    expect(phone.get_by_text("Go to one of")).not_to_be_visible()


@pytest.mark.django_db(transaction=True)
def test_on_paper_the_form_is_gone_and_the_answers_stay(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_fitted_yard()
    sign_in(phone, yard, live_server.url)
    phone.goto(live_server.url + reverse("fitting:who-fits", args=[yard.slug]))
    phone.emulate_media(media="print")
    assert phone.get_by_role("heading", name="Eggbutt").is_visible()
    assert not phone.locator("main form").is_visible()
    assert sheets_of(phone) == 1  # its heading has no sheet to itself


@pytest.mark.django_db(transaction=True)
def test_an_answer_for_one_horse_prints_without_its_form_and_figures_twice(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_fitted_yard()
    sign_in(phone, yard, live_server.url)
    horse, bit = yard.horses.get(name="Tansy"), yard.tack.get(name="Eggbutt")
    one = reverse("fitting:does-it-fit", args=[yard.slug])
    phone.goto(f"{live_server.url}{one}?horse={horse.key}&item={bit.key}")
    phone.emulate_media(media="print")
    assert phone.locator("svg.reach.wide").is_visible()
    assert not phone.locator("main form").is_visible()
    assert not phone.locator("table.figures").is_visible()
    assert phone.locator(".note").first.is_visible()
    assert sheets_of(phone) <= 2


def sheets_of(phone: Page) -> int:
    printed = phone.pdf(format="A4", prefer_css_page_size=True)
    return len(re.findall(rb"/Type\s*/Page[^s]", printed))
