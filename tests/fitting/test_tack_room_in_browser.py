"""The tack room on a phone: what is chosen is seen, and the rest is within reach."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from fitting.models import Yard
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement, make_yard
from tests.test_pages_in_browser import phone, sign_in

__all__ = ["phone"]


def make_hung_yard() -> Yard:
    yard = make_yard(name="Sallow End", slug="sallow-end")
    horse = make_horse(yard, name="Tansy")
    on = today_in(yard) - timedelta(days=3)
    make_measurement(horse, "mouth_width", on=on, value=112.0, method="dowel")
    for number in range(12):
        make_bit(yard, name=f"Eggbutt {number}", length_mm=117.0)
    for kind in (
        "bridle",
        "headcollar",
        "cavesson",
        "roller",
        "girth",
        "saddle",
        "rug",
    ):
        yard.tack.create(key=kind, name=f"The {kind}", kind=kind)
    replan(yard, today_in(yard))
    return yard


@pytest.mark.django_db(transaction=True)
def test_a_kind_that_is_chosen_stands_on_the_screen(
    phone: Page, live_server: LiveServer
) -> None:
    yard = make_hung_yard()
    sign_in(phone, yard, live_server.url)
    phone.goto(live_server.url + reverse("fitting:tack-room", args=[yard.slug]))
    phone.get_by_role("link", name="Rugs 1").click()
    phone.wait_for_url(lambda url: "#" in url)
    link = phone.get_by_role("link", name="The rug", exact=True)
    expect(link).to_be_in_viewport()
    rug = link.bounding_box()
    assert rug is not None
    assert 0 < rug["y"] < 700  # above the rail at the foot of the screen
    for seldom in ("Make up a set", "Put two beside each other"):
        assert phone.get_by_role("link", name=seldom).is_visible()
