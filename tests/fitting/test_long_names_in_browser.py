"""Names of forty letters without a space: no page of the tack room runs off a phone."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Loan, Part, SetPart, Tack, TackSet, Yard
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement, make_yard
from tests.test_pages_in_browser import phone, sign_in

__all__ = ["phone"]


def make_long_bridle(yard: Yard) -> Tack:
    bridle = Tack.objects.create(
        yard=yard,
        key="havana",
        kind="bridle",
        name="Havanabrown" * 3 + "bridles",
        belongs_to="Thistledo" * 4,
    )
    for part, length in (("headpiece", 560.0), ("cheekpieces", 200.0)):
        Part.objects.create(
            tack=bridle, part=part, length_mm=length, holes=7, spacing_mm=16.0
        )
    return bridle


def make_long_names() -> tuple[Yard, Horse, Tack, TackSet]:
    yard = make_yard(name="Sallow End", slug="sallow-end")
    today = today_in(yard)
    horse = make_horse(yard, name="Wilhelmina" * 4)
    sizes = (("mouth_width", 112.0, "dowel"), ("head_length", 900.0, "tape"))
    for measure, value, how in sizes:
        on = today - timedelta(days=3)
        make_measurement(horse, measure, on=on, value=value, method=how)
    bridle = make_long_bridle(yard)
    bit = make_bit(yard, name="Eggbutting" * 4)
    made_up = TackSet.objects.create(
        yard=yard, key="over-and-under", name="Overandunder" * 3 + "over"
    )
    for slot, item in (("headpiece", bridle), ("cheekpieces", bridle), ("bit", bit)):
        SetPart.objects.create(made_up=made_up, slot=slot, tack=item)
    Loan.objects.create(tack=bridle, to=horse, start=today, own_hole=2)
    replan(yard, today)
    return yard, horse, bridle, made_up


@pytest.mark.django_db(transaction=True)
def test_no_page_of_tack_runs_off_a_phone(phone: Page, live_server: LiveServer) -> None:
    yard, horse, bridle, made_up = make_long_names()
    sign_in(phone, yard, live_server.url)
    fits, who, mix, beside = (
        reverse(f"fitting:{name}", args=[yard.slug])
        for name in ("does-it-fit", "who-fits", "mix-bridle", "tack-beside")
    )
    of_horse, cards = (
        reverse(name, args=[yard.slug, horse.key])
        for name in ("fitting:horse-tack", "starting:shop-cards")
    )
    off = []
    for address in (
        reverse("fitting:tack-room", args=[yard.slug]),
        bridle.get_absolute_url(), made_up.get_absolute_url(), of_horse, cards,
        f"{fits}?horse={horse.key}", f"{fits}?horse={horse.key}&set={made_up.key}",
        who, f"{who}?by=horse", f"{who}?by=until",
        f"{mix}?horse={horse.key}&on={today_in(yard)}&bit=yes",
        f"{beside}?one={bridle.key}&other=set-{made_up.key}",
    ):  # fmt: skip
        phone.goto(live_server.url + address)
        wide = phone.evaluate("document.documentElement.scrollWidth")
        assert phone.locator("h1").first.is_visible()
        off += [f"{address}: {wide} px"] if wide > 390 else []
    assert not off, "\n".join(off)
