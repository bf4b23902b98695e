"""Calendar links: made and shown once, changed, made new, ended."""

from __future__ import annotations

import html
import re
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.diary import Entry
from starting.feed import KIND_WORDS
from starting.models import CalendarKey
from starting.models.calendar import ENTRY_KINDS
from starting.writes import ensure_planned, today_in
from starting.writes.links import key_hash, make_link
from starting.writes.publish import publish
from tests.make import make_horse

OPTIONS = {"label": "Sam's phone", "kinds": ["care", "get"], "alarm": "eve"}
SECRET = re.compile(r"https?://testserver/calendar/([\w-]+)\.ics")


def at(name: str, yard: Yard, *args: Any) -> str:
    return reverse(f"starting:{name}", args=[yard.slug, *args])


def made(keeper: Client, yard: Yard, **fields: Any) -> str:
    """Make a link through its form; return the page that shows it once."""
    page = keeper.post(at("add-link", yard), {**OPTIONS, **fields})
    assert page.status_code == 200
    return page.content.decode()


def secret_on(page: str) -> str:
    (secret,) = set(SECRET.findall(html.unescape(page)))
    return str(secret)


def titles(client: Client, secret: str) -> list[str]:
    body = client.get(reverse("calendar", args=[secret])).content.decode()
    return re.findall(r"\r\nSUMMARY:([^\r]*)", body.replace("\r\n ", ""))


@pytest.fixture
def diary(yard: Yard) -> Yard:
    """Return a yard with an entry of each kind for each of two horses."""
    entries = [
        Entry(
            key=f"{name.lower()}/{kind}/x",
            horse=name,
            on=today_in(yard) + timedelta(days=9),
            kind=kind,
            title=f"{words} of {name}",
            text=f"{name} waits.",
            forecast=True,
        )
        for name in ("Tansy", "Bryony")
        for kind, words in KIND_WORDS.items()
    ]
    for name in ("Tansy", "Bryony"):
        make_horse(yard, name=name, plan=False, grown=True)
    ensure_planned(yard)
    publish(yard, entries, today_in(yard))
    return yard


def test_a_secret_has_256_bits_and_only_its_hash_is_kept(
    keeper: Client, yard: Yard
) -> None:
    secret = secret_on(made(keeper, yard))
    assert re.fullmatch(r"[\w-]{43}", secret)  # 43 digits of 6 bits hold 256
    row = CalendarKey.objects.values().get()
    assert row["key_hash"] == key_hash(secret)
    assert not any(secret in str(value) for value in row.values())


def test_a_link_is_shown_once_in_three_ways_and_then_no_more(
    keeper: Client, yard: Yard
) -> None:
    page = made(keeper, yard)
    secret = secret_on(page)
    assert f'href="webcal://testserver/calendar/{secret}.ics"' in page
    assert f'<code id="address">http://testserver/calendar/{secret}.ics' in page
    assert 'data-copy="#address"' in page
    assert re.search(r'<svg viewBox="0 0 \d+ \d+" class="qr">', page)
    assert "style=" not in page
    for name in ("calendar-links", "edit-link", "end-link"):
        args = [] if name == "calendar-links" else [CalendarKey.objects.get().pk]
        assert secret not in keeper.get(at(name, yard, *args)).content.decode()


def test_the_page_that_shows_a_link_is_kept_nowhere(keeper: Client, yard: Yard) -> None:
    page = keeper.post(at("add-link", yard), OPTIONS)
    assert page["Cache-Control"] == "no-store"


def test_the_list_says_what_each_link_shows_and_when_it_was_asked_for(
    keeper: Client, client: Client, diary: Yard
) -> None:
    secret = secret_on(made(keeper, diary, horses=["tansy"], as_tasks="on"))
    before = keeper.get(at("calendar-links", diary)).content.decode()
    client.get(reverse("calendar", args=[secret]))
    after = keeper.get(at("calendar-links", diary)).content.decode()
    assert "Shows care, tack to get, of Tansy, at six the evening before" in after
    assert "as tasks" in after
    assert "Not asked for yet" in before
    assert "Last asked for" in after


def test_every_kind_of_entry_may_be_chosen() -> None:
    assert [kind for kind, _ in ENTRY_KINDS] == [*KIND_WORDS]


@pytest.mark.parametrize("kind", [*KIND_WORDS])
def test_a_link_shows_the_kinds_and_horses_it_was_made_for(
    keeper: Client, client: Client, diary: Yard, kind: str
) -> None:
    page = made(keeper, diary, kinds=[kind], horses=["bryony"])
    assert titles(client, secret_on(page))[:1] == [f"{KIND_WORDS[kind]} of Bryony"]  # type: ignore[index]


def test_a_changed_link_keeps_its_address_and_counts_its_entries_up(
    keeper: Client, client: Client, diary: Yard
) -> None:
    secret = secret_on(made(keeper, diary, kinds=[], alarm=""))
    address = reverse("calendar", args=[secret])
    before = client.get(address)
    key = CalendarKey.objects.get()
    sent = {"label": "Sam's phone", "alarm": "day", "plain_titles": "on"}
    done = keeper.post(at("edit-link", diary, key.pk), sent)
    after = client.get(address)
    assert done.status_code == 302
    assert set(re.findall(r"\r\nSEQUENCE:(\d+)", before.content.decode())) == {"0"}
    assert set(re.findall(r"\r\nSEQUENCE:(\d+)", after.content.decode())) == {"1"}
    assert after.content.count(b"BEGIN:VALARM") == 12
    assert b"Tansy" not in after.content
    assert before["ETag"] != after["ETag"]


def test_a_new_label_alone_changes_nothing_in_anybodys_calendar(
    keeper: Client, client: Client, diary: Yard
) -> None:
    secret = secret_on(made(keeper, diary))
    address = reverse("calendar", args=[secret])
    before = client.get(address)
    key = CalendarKey.objects.get()
    keeper.post(at("edit-link", diary, key.pk), {**OPTIONS, "label": "Old phone"})
    after = client.get(address)
    assert CalendarKey.objects.get().label == "Old phone"
    assert (before["ETag"], before["Last-Modified"]) == (
        after["ETag"],
        after["Last-Modified"],
    )


def test_events_become_tasks_and_back(
    keeper: Client, client: Client, diary: Yard
) -> None:
    secret = secret_on(made(keeper, diary, kinds=[]))
    address = reverse("calendar", args=[secret])
    key = CalendarKey.objects.get()
    for as_tasks, tasks, events in (("on", 12, 0), ("", 0, 12)):
        sent = {**OPTIONS, "kinds": [], "as_tasks": as_tasks}
        keeper.post(at("edit-link", diary, key.pk), sent)
        body = client.get(address).content
        assert body.count(b"BEGIN:VTODO") == tasks
        assert body.count(b"BEGIN:VEVENT") == events


def test_the_second_of_two_keepers_is_told_and_loses_nothing(
    keeper: Client, yard: Yard
) -> None:
    key, _ = make_link(yard, label="Phone", options={})
    address = at("edit-link", yard, key.pk)
    page = keeper.get(address).content.decode()
    (seen,) = re.findall(r'name="seen" value="(\w+)"', page)
    CalendarKey.objects.update(alarm="day")
    sent = {**OPTIONS, "label": "Mine", "seen": seen}
    refused = keeper.post(address, sent)
    said = refused.content.decode()
    assert refused.status_code == 422
    assert "Somebody changed this link meanwhile." in said
    assert 'value="Mine"' in said
    assert CalendarKey.objects.get().label == "Phone"
    (now,) = re.findall(r'name="seen" value="(\w+)"', said)
    assert keeper.post(address, {**sent, "seen": now}).status_code == 302
    assert CalendarKey.objects.get().label == "Mine"


def test_a_link_made_new_ends_the_old_and_goes_on_with_its_options(
    keeper: Client, client: Client, diary: Yard
) -> None:
    old = secret_on(made(keeper, diary))
    key = CalendarKey.objects.get()
    keeper.post(at("edit-link", diary, key.pk), {**OPTIONS, "alarm": "day"})
    page = keeper.post(at("end-link", diary, key.pk), {"renew": ""})
    new = secret_on(page.content.decode())
    live = CalendarKey.objects.get(revoked_at=None)
    assert client.get(reverse("calendar", args=[old])).status_code == 410
    body = client.get(reverse("calendar", args=[new])).content.decode()
    assert (live.label, live.kinds, live.alarm) == (
        "Sam's phone",
        OPTIONS["kinds"],
        "day",
    )
    assert set(re.findall(r"\r\nSEQUENCE:(\d+)", body)) == {"1"}  # never back to 0


def test_a_link_ended_twice_is_ended_once(keeper: Client, yard: Yard) -> None:
    key, _ = make_link(yard, label="Phone", options={})
    address = at("end-link", yard, key.pk)
    keeper.post(address, {"end": ""})
    when = CalendarKey.objects.get().revoked_at
    again = keeper.post(address, {"renew": ""}, follow=True)
    assert "The link for Phone had ended already." in again.content.decode()
    assert CalendarKey.objects.get().revoked_at == when
    assert keeper.get(at("edit-link", yard, key.pk)).status_code == 404


def test_one_link_ends_and_the_others_stay(
    keeper: Client, client: Client, yard: Yard
) -> None:
    links = [make_link(yard, label=name, options={}) for name in ("Phone", "Barn")]
    keeper.post(at("end-link", yard, links[0][0].pk), {"end": ""})
    answers = [
        client.get(reverse("calendar", args=[secret])).status_code
        for _, secret in links
    ]
    assert answers == [410, 200]


def test_a_form_sent_twice_makes_one_link(keeper: Client, yard: Yard) -> None:
    made(keeper, yard, token="once")
    again = keeper.post(at("add-link", yard), {**OPTIONS, "token": "once"})
    assert again.status_code == 302
    assert CalendarKey.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("label", " ", "This field is required"),
        ("kinds", ["party"], "party is not one of the available choices"),
        ("horses", ["gannet"], "gannet is not one of the available choices"),
        ("alarm", "noon", "noon is not one of the available choices"),
    ],
)
def test_what_cannot_be_asked_for_is_refused(
    keeper: Client, yard: Yard, field: str, typed: Any, said: str
) -> None:
    page = keeper.post(at("add-link", yard), {**OPTIONS, field: typed})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert not CalendarKey.objects.exists()
