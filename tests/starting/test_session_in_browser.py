"""A session written up in a real browser, as wide as a phone, and what comes after."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Part, SetPart, Tack, TackSet, Yard
from starting.models import OffWork, Person, Session, WentAhead
from starting.programme import shipped
from tests.browser import (
    lose_signal,
    next_page,
    phone_of,
    wait_until_kept,
    whole,
)
from tests.make import make_measurement, make_member
from tests.starting.making_log import make_session, make_youngster, page, planned

pytestmark = pytest.mark.django_db(transaction=True)
CHECKS = shipped().stage("bridle").checks


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """Return a filly whose bridle fits, with one session in it."""
    horse = make_youngster(yard)
    Person.objects.create(yard=yard, name="Jo")
    for measure, value in (("head_length", 880.0), ("nose_round", 560.0)):
        make_measurement(horse, measure, value=value, method="tape")
    make_measurement(horse, "brow", value=330.0, method="tape")
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    Part.objects.create(
        tack=bridle, part="whole", length_mm=900, holes=7, spacing_mm=20, hole=3
    )
    made_up = TackSet.objects.create(yard=yard, key="set", name="Her bridle")
    SetPart.objects.create(made_up=made_up, slot="whole", tack=bridle)
    make_session(horse, 3, minutes=6)
    planned(yard)
    return horse


@pytest.fixture
def phone(live_server: LiveServer, tansy: Horse) -> Iterator[Page]:
    with phone_of(make_member(tansy.yard, "keeper"), live_server.url) as opened:
        yield opened


def tap(phone: Page, name: str, value: str) -> None:
    phone.click(f'label:has([name="{name}"][value="{value}"])')


def open_form(phone: Page, horse: Horse, step: str = "bridle") -> None:
    phone.goto(f"{page('log-session', horse)}?step={step}")


def tick_all(phone: Page, answer: str = "yes") -> None:
    for check in CHECKS:
        tap(phone, f"check_{check.key}", answer)


COUNT_TAPS = """document.addEventListener("click", (event) => {
  if (event.isTrusted && event.detail)
    sessionStorage.setItem("taps", 1 + Number(sessionStorage.getItem("taps")));
}, true);"""
USUAL_TAPS = len(CHECKS) + 2  # to the form, each tick, and write it in


def test_from_the_first_page_a_usual_session_takes_its_ticks_and_two_taps(
    phone: Page, tansy: Horse
) -> None:
    phone.add_init_script(COUNT_TAPS)
    phone.goto(reverse("starting:today", args=[tansy.yard.slug]))
    phone.click("text=Write up a session")
    tick_all(phone)
    phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("2 good sessions of 3")
    assert int(phone.evaluate('sessionStorage.getItem("taps")')) == USUAL_TAPS
    session = Session.objects.get(minutes=7)
    assert [worn.made_up.name for worn in session.worn.all() if worn.made_up]


def test_a_good_session_is_ticks_and_one_press(phone: Page, tansy: Horse) -> None:
    open_form(phone, tansy)
    assert phone.input_value("[name=minutes]") == "7"  # of 5 to 10, one good so far
    assert not phone.is_visible("[name=stop_own]")
    whole(phone)
    tick_all(phone)
    with next_page(phone):
        phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("2 good sessions of 3")
    assert Session.objects.get(minutes=7).horse == tansy
    expect(phone.locator("main")).to_contain_text("Next session")
    whole(phone)
    assert phone.evaluate("Object.keys(localStorage)") == []


def test_a_lost_signal_keeps_all_and_sends_it_once_when_it_is_back(
    phone: Page, tansy: Horse
) -> None:
    open_form(phone, tansy)
    tick_all(phone, "nearly")
    phone.fill("[name=mood]", "keen")
    lose_signal(phone)
    for _ in range(2):
        phone.click("text=Write it in")
    expect(phone.locator(".kept")).to_contain_text("it is sent once")
    assert not Session.objects.filter(mood="keen").exists()
    phone.context.set_offline(False)
    expect(phone.locator(".messages")).to_contain_text("Written in")
    assert Session.objects.filter(mood="keen").count() == 1


def test_a_phone_that_slept_shows_what_was_ticked_and_saves_it_once(
    phone: Page, tansy: Horse
) -> None:
    open_form(phone, tansy)
    tick_all(phone)
    phone.fill("[name=mood]", "keen")
    wait_until_kept(phone, "mood", "keen")
    phone.reload()
    expect(phone.locator(".kept")).to_contain_text("Kept on this phone since")
    assert phone.is_checked(f"[name=check_{CHECKS[0].key}][value=yes]")
    phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("Written in")
    assert Session.objects.filter(mood="keen").count() == 1


def test_a_stop_sign_fills_in_what_it_asks_for(phone: Page, tansy: Horse) -> None:
    open_form(phone, tansy)
    level = phone.locator("[name=level]")
    tap(phone, "stop", "head_shy")
    expect(level).to_have_value("end_today")
    tap(phone, "stop", "own_words")
    expect(level).to_have_value("")
    phone.fill("[name=stop_own]", "Bucked at the gate")
    expect(level).to_have_value("go_back")
    phone.fill("[name=stop_own]", "Blood on her lip")
    expect(level).to_have_value("ring_vet")
    whole(phone)
    tap(phone, "stop", "")
    expect(level).to_have_value("")
    tick_all(phone)
    phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("Written in")
    assert not OffWork.objects.exists()


def test_a_sign_to_go_back_leads_to_the_step_before(phone: Page, tansy: Horse) -> None:
    open_form(phone, tansy)
    tick_all(phone, "nearly")
    tap(phone, "stop", "head_shy")
    phone.select_option("[name=level]", "go_back")
    phone.click("text=Write it in")
    expect(phone.locator(".messages")).to_contain_text("a sign asked for a step back")
    expect(phone.locator(".step-name")).to_contain_text("Manners in hand")
    whole(phone)


def test_a_caution_is_passed_with_a_reason_that_stays(
    phone: Page, tansy: Horse
) -> None:
    phone.goto(page("went-ahead", tansy, "bridle", "fresh:brow"))
    if "Go ahead" not in phone.title():  # it stands today: nothing to pass
        tansy.measurements.filter(measure="brow").update(on="2020-01-01")
        planned(tansy.yard)
        phone.goto(page("went-ahead", tansy, "bridle", "fresh:brow"))
    whole(phone)
    phone.fill("[name=reason]", "Tried on this morning")
    phone.click("text=Write it in")
    expect(phone.locator("main")).to_contain_text("Tried on this morning")
    assert WentAhead.objects.get().gate == "fresh:brow"
    whole(phone)


@pytest.mark.parametrize("step", ["bridle", "ready_check", "astride", "brought_back"])
def test_the_card_of_a_step_prints_on_one_sheet(
    phone: Page, tansy: Horse, step: str
) -> None:
    phone.goto(page("step-card", tansy, step))
    whole(phone)
    printed = phone.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type /Page\b", printed)) == 1
