"""The diary in a real browser: a list on a phone, a grid of days on a wide screen."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse
from playwright.sync_api import Locator, Page, expect
from pytest_django.live_server_helper import LiveServer

from fitting.models import Yard
from fitting.writes.touch import touch
from starting.models import CareVisit, DiaryEntry
from starting.writes import replan, today_in
from tests.browser import next_page
from tests.make import make_horse, make_measurement, make_yard
from tests.test_pages_in_browser import SMALL, TARGET_PX, phone, sign_in

__all__ = ["phone"]

PHONE, WIDE = (390, 844), (1280, 900)
LONG = "Marjoram of the Thistlethwaitesbottom Meadows"
SIDEWAYS = "document.documentElement.scrollWidth"
IN_A_ROW = """() => new Set([...document.querySelectorAll(".month > li")]
  .filter((day) => day.checkVisibility())
  .map((day) => Math.round(day.getBoundingClientRect().left))).size"""


@pytest.fixture
def yard(db: None) -> Yard:
    """Return a yard with long names, much on one day, and something overdue."""
    yard = make_yard(name="Sallow End", slug="sallow-end")
    today = today_in(yard)
    for number in range(6):
        horse = make_horse(
            yard,
            name=f"{LONG} {number}",
            foaled=f"{today - timedelta(days=800 + 40 * number)}",
        )
        make_measurement(horse, on=today - timedelta(days=60))
    CareVisit.objects.create(
        horse=yard.horses.order_by("key")[0],
        kind="farrier",
        on=today - timedelta(days=40),
        next_due=today - timedelta(days=9),
    )
    replan(yard, today - timedelta(days=10))
    replan(yard, today)
    return yard


def faults(page: Page) -> Iterator[str]:
    """Return what is wrong with the page that is open, at both widths."""
    for width, height in (PHONE, WIDE):
        page.set_viewport_size({"width": width, "height": height})
        at = f"{page.url} at {width}"
        for found in Axe().run(page).response["violations"]:
            yield f"{at} {found['id']}: {found['nodes'][0]['html'][:120]}"
        if page.evaluate(SIDEWAYS) > width:
            yield f"{at} scrolls sideways"
        if width == PHONE[0]:
            yield from (f"{at} {small}" for small in page.evaluate(SMALL, TARGET_PX))


@pytest.mark.django_db(transaction=True)
def test_the_diary_is_whole_on_a_phone_and_on_a_wide_screen(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    whole = reverse("starting:diary", args=[yard.slug])
    following = (today_in(yard).replace(day=28) + timedelta(days=9)).strftime("%Y-%m")
    horse = DiaryEntry.objects.filter(yard=yard)[0].horse
    assert horse is not None
    pages = [
        whole,
        f"{whole}?as=month",
        f"{whole}?as=month&month={following}",
        f"{whole}?month=2020-01&kind=care",
        reverse("starting:horse-diary", args=[yard.slug, horse.key]) + "?as=month",
    ]
    for kind in ("measure", "care", "stage_starts", "stage_opens"):
        row = DiaryEntry.objects.filter(key__contains=f"/{kind}/")[0]
        number = row.uid.partition("@")[0]
        pages.append(reverse("starting:diary-entry", args=[yard.slug, number]))
    found: list[str] = []
    for address in pages:
        answer = phone.goto(live_server.url + address)
        assert answer is not None
        assert answer.status == 200, address
        found += faults(phone)
    assert not found, "\n".join(found)


@pytest.mark.django_db(transaction=True)
def test_a_month_is_a_list_of_days_on_a_phone_and_seven_in_a_row_when_wide(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    whole = live_server.url + reverse("starting:diary", args=[yard.slug])
    phone.goto(f"{whole}?as=month")
    assert phone.evaluate(IN_A_ROW) == 1
    today = today_in(yard)
    shown = phone.locator(".month > li:visible")
    filled = DiaryEntry.objects.filter(
        yard=yard, on__year=today.year, on__month=today.month
    )
    days = {*filled.values_list("on", flat=True), today}
    assert shown.count() == len(days), "days without entries take no room"
    phone.set_viewport_size({"width": WIDE[0], "height": WIDE[1]})
    assert phone.evaluate(IN_A_ROW) == 7
    assert phone.locator(".month > li.is-today").count() == 1


def entries_in(line: Locator) -> int:
    return line.locator("a").count()


@pytest.mark.django_db(transaction=True)
def test_what_many_horses_have_opens_into_its_entries(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    whole = live_server.url + reverse("starting:diary", args=[yard.slug])
    for query, many in (("?as=month", ".of-many"), ("", ".many")):
        found: list[str] = []
        phone.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
        phone.goto(f"{whole}{query}")
        for fold in phone.locator(".fold-month:not([open]) > summary").all()[::-1]:
            fold.click()
        together = phone.locator(many).first
        entries = together.locator("a[href*='/diary/']")
        assert entries.count() >= 3
        assert not any(entry.is_visible() for entry in entries.all())
        together.locator("summary").click()
        assert all(entry.is_visible() for entry in entries.all())
        found += faults(phone)
        assert not found, "\n".join(found)


@pytest.mark.django_db(transaction=True)
def test_what_does_not_fit_a_day_stands_one_press_away(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    following = (today_in(yard).replace(day=28) + timedelta(days=9)).replace(day=15)
    for number, horse in enumerate(yard.horses.order_by("key")):
        kinds = ("vet", "teeth", "vaccination", "worming", "back", "saddle_fitter")
        for kind in kinds[number:]:
            CareVisit.objects.create(
                horse=horse, kind=kind, on=today_in(yard), next_due=following
            )
    touch(yard)
    yard.refresh_from_db()
    replan(yard, today_in(yard))
    whole = live_server.url + reverse("starting:diary", args=[yard.slug])
    phone.set_viewport_size({"width": WIDE[0], "height": WIDE[1]})
    phone.goto(f"{whole}?as=month&month={following:%Y-%m}")
    day = phone.locator(f".month > li:has(time[datetime='{following}'])")
    lines = day.locator("ul > li")
    hidden = [line for line in lines.all() if not line.is_visible()]
    assert lines.count() - len(hidden) == 4
    more, left_out = day.locator(".more a"), sum(map(entries_in, hidden))
    assert left_out > len(hidden) > 0, "what many horses have counts as many"
    assert more.inner_text() == f"{left_out} more"
    with next_page(phone):
        more.click()
    assert phone.locator("h1").inner_text() == "The diary"
    assert phone.locator(f"#{phone.url.partition('#')[2]}").count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_folded_month_is_opened_by_a_jump_and_printed_whole(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    whole = live_server.url + reverse("starting:diary", args=[yard.slug])
    phone.goto(whole)
    last = phone.locator("details.fold-month").last
    inside = last.locator(".row-e").first
    expect(inside).to_be_hidden()
    phone.emulate_media(media="print")
    expect(last.locator("summary")).to_be_visible()
    expect(inside).to_be_visible()
    phone.emulate_media(media="screen")
    expect(inside).to_be_hidden()
    phone.get_by_text("Jump to a month").click()
    phone.locator(f".jump a[href='#{last.get_attribute('id')}']").click()
    expect(inside).to_be_visible()
    assert not (found := list(faults(phone))), "\n".join(found)
    day = last.locator("[id^='on-']").first.get_attribute("id")
    phone.goto("about:blank")
    phone.goto(f"{whole}#{day}")
    expect(inside).to_be_visible()


@pytest.mark.django_db(transaction=True)
def test_a_month_prints_on_sheets_of_a4_across(
    phone: Page, live_server: LiveServer, yard: Yard
) -> None:
    sign_in(phone, yard, live_server.url)
    whole = live_server.url + reverse("starting:diary", args=[yard.slug])
    phone.goto(f"{whole}?as=month")
    phone.emulate_media(media="print")
    assert phone.evaluate(IN_A_ROW) == 7
    kept_with_next = "getComputedStyle(document.querySelector('.month h3')).breakAfter"
    assert phone.evaluate(kept_with_next) == "auto", "or a full week moves the others"
    many = phone.locator(".of-many").first
    rows = many.locator("summary, a")
    assert rows.count() > 3
    assert all(row.is_visible() for row in rows.all()), "all is printed"
    pdf = phone.pdf(prefer_css_page_size=True)
    assert b"/MediaBox [0 0 841.9" in pdf or b"/MediaBox [0 0 842" in pdf
