"""The calendar file behind a link, asked for as calendar programs do."""

from __future__ import annotations

import gzip
from datetime import UTC, date, datetime, timedelta
from typing import Any, Final

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from icalendar import Calendar

from fitting.models import Yard
from fitting.writes import touch
from starting.models import CalendarKey, StoredFeed
from starting.writes import replan, today_in
from starting.writes.calendar_files import next_midnight
from starting.writes.links import end_link, make_link
from tests.make import make_horse, make_measurement


@pytest.fixture
def link(yard: Yard) -> tuple[CalendarKey, str]:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse)
    replan(yard, today_in(yard))
    key, secret = make_link(yard, label="Phone", options={})
    return key, reverse("calendar", args=[secret])


def test_the_file_holds_the_measuring_day(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    answer = client.get(link[1])
    titles = [
        str(event["summary"]) for event in Calendar.from_ical(answer.content).events
    ]
    assert answer.status_code == 200
    assert any(title.startswith("Tansy: measure ") for title in titles)


def test_it_says_what_it_is_and_asks_to_be_kept_private(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    answer = client.get(link[1])
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert answer["Content-Disposition"] == 'inline; filename="yard.ics"'
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert not answer.cookies


PRIVATE: Final = {
    "Cache-Control": "private, no-cache",
    "Vary": "Accept-Encoding",
    "X-Robots-Tag": "noindex, nofollow, noarchive",
    "Referrer-Policy": "no-referrer",
}


def test_every_answer_asks_to_be_kept_private(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    whole = client.get(link[1])
    same = client.get(link[1], headers={"if-none-match": whole["ETag"]})
    head = client.head(link[1])
    unknown = client.get(reverse("calendar", args=["x" * 43]))
    end_link(link[0])
    ended = client.get(link[1])
    answers = {200: whole, 304: same, 404: unknown, 410: ended}
    for status, answer in (*answers.items(), (200, head)):
        assert answer.status_code == status
        assert {name: answer.get(name) for name in PRIVATE} == PRIVATE, status
    assert "Content-Type" not in same.headers
    for name in ("ETag", "Last-Modified"):
        assert same[name] == whole[name] == head[name]


def test_an_unchanged_file_is_not_sent_again(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    first = client.get(link[1])
    by_tag = client.get(link[1], headers={"if-none-match": first["ETag"]})
    by_day = client.get(link[1], headers={"if-modified-since": first["Last-Modified"]})
    other = client.get(link[1], headers={"if-none-match": 'W/"another"'})
    assert first["ETag"].startswith('W/"')
    assert (by_tag.status_code, by_day.status_code) == (304, 304)
    assert by_tag["Cache-Control"] == "private, no-cache"
    assert other.status_code == 200


def test_it_is_packed_for_those_who_take_it_and_never_for_those_who_choke(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    plain = client.get(link[1])
    packed = client.get(link[1], headers={"accept-encoding": "gzip"})
    choking = client.get(
        link[1],
        headers={"accept-encoding": "gzip", "user-agent": "Microsoft Office/16.0"},
    )
    assert packed["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.content) == plain.content
    assert packed["ETag"] == plain["ETag"]
    assert "Content-Encoding" not in choking.headers


def test_an_ended_link_has_gone_and_an_unknown_one_was_never_there(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    end_link(link[0])
    assert client.get(link[1]).status_code == 410
    unknown = client.get(reverse("calendar", args=["x" * 43]))
    assert unknown.status_code == 404
    assert unknown.content == client.get(link[1]).content


def test_only_reading_is_allowed(client: Client, link: tuple[CalendarKey, str]) -> None:
    head = client.head(link[1])
    assert (head.status_code, head.content) == (200, b"")
    assert client.post(link[1]).status_code == 405


def test_an_unchanged_poll_costs_one_query(
    client: Client,
    link: tuple[CalendarKey, str],
    django_assert_num_queries: Any,
) -> None:
    tag = client.get(link[1])["ETag"]  # that it was fetched is noted now and then
    with django_assert_num_queries(1):
        client.get(link[1], headers={"if-none-match": tag})


@pytest.mark.parametrize("packed", ["", "gzip"])
def test_the_whole_file_costs_one_query_too(
    client: Client,
    link: tuple[CalendarKey, str],
    packed: str,
    django_assert_num_queries: Any,
) -> None:
    client.get(link[1])
    with django_assert_num_queries(1):
        answer = client.get(link[1], headers={"accept-encoding": packed})
    assert answer["Content-Length"] == str(len(answer.content))


def test_a_file_that_changed_is_sent_to_who_asks_whether_it_did(
    client: Client, link: tuple[CalendarKey, str]
) -> None:
    plain = client.get(link[1])
    other = client.get(link[1], headers={"if-none-match": 'W/"another"'})
    assert other.content == plain.content


@pytest.mark.parametrize("tag", [{}, {"if-none-match": 'W/"another"'}])
def test_a_file_that_is_missing_is_written_again(
    client: Client, link: tuple[CalendarKey, str], tag: dict[str, str]
) -> None:
    before = client.get(link[1])
    StoredFeed.objects.all().delete()
    after = client.get(link[1], headers=tag)
    assert after.status_code == 200
    assert (after.content, after["ETag"]) == (before.content, before["ETag"])


def test_a_poll_reads_no_session_and_signs_nobody_in(
    keeper: Client, link: tuple[CalendarKey, str], django_assert_num_queries: Any
) -> None:
    keeper.get(link[1])
    with django_assert_num_queries(1):  # the session's and the user's would be two more
        answer = keeper.get(link[1])
    assert not answer.cookies


def test_a_host_that_is_not_ours_gets_no_file(
    client: Client, link: tuple[CalendarKey, str], settings: Any
) -> None:
    settings.ALLOWED_HOSTS = ["yard.example"]
    asked = [{"host": "other.example"}, {"host": "yard.example"}]
    answers = [client.get(link[1], headers=one).status_code for one in asked]
    assert answers == [400, 200]


@pytest.mark.parametrize(
    ("takes", "packed"),
    [
        ("gzip", True),
        ("deflate, GZIP;q=0.5, br", True),
        ("x-gzip", True),
        ("gzip;q=1.0", True),
        ("", False),
        ("identity", False),
        ("gzip;q=0", False),
        ("gzip; q=0.000, identity", False),
        ("br, gzip ;q=0,*;q=0.1", False),
    ],
)
def test_it_is_packed_only_for_who_says_so(
    client: Client, link: tuple[CalendarKey, str], takes: str, *, packed: bool
) -> None:
    answer = client.get(link[1], headers={"accept-encoding": takes})
    assert ("Content-Encoding" in answer.headers) is packed


def test_a_new_reading_moves_the_file(
    client: Client,
    link: tuple[CalendarKey, str],
    yard: Yard,
    django_capture_on_commit_callbacks: Any,
) -> None:
    before = client.get(link[1])
    make_measurement(yard.horses.get(), on=today_in(yard), value=1300.0)
    with django_capture_on_commit_callbacks(execute=True):
        touch(yard)
    after = client.get(link[1])
    assert before["ETag"] != after["ETag"]
    assert before.content != after.content


def test_a_new_day_is_planned_at_the_first_poll(
    client: Client, link: tuple[CalendarKey, str], yard: Yard
) -> None:
    Yard.objects.filter(pk=yard.pk).update(planned_on=date(2020, 1, 1))
    past = timezone.now() - timedelta(minutes=1)
    CalendarKey.objects.filter(pk=link[0].pk).update(valid_until=past)
    client.get(link[1])
    yard.refresh_from_db()
    assert yard.planned_on == today_in(yard)


@pytest.mark.parametrize(
    ("zone", "until"),
    [
        ("Europe/London", "2026-03-29T00:00+00:00"),  # the clocks go on that night
        ("Pacific/Kiritimati", "2026-03-29T10:00+00:00"),
        ("Pacific/Pago_Pago", "2026-03-29T11:00+00:00"),
        ("America/Santiago", "2026-03-29T03:00+00:00"),
        ("Asia/Beirut", "2026-03-28T22:00+00:00"),  # that midnight strikes one
    ],
)
def test_a_file_stands_until_the_next_midnight_of_the_yard(
    yard: Yard, zone: str, until: str
) -> None:
    yard.timezone = zone
    day = datetime.fromisoformat(until) - timedelta(hours=23)
    for now in (day, day + timedelta(hours=22, minutes=59)):
        midnight = next_midnight(yard, now).astimezone(UTC)  # as a row keeps it
        assert midnight == datetime.fromisoformat(until)


def test_what_a_link_is_polled_for_says_how_long_it_stands(
    link: tuple[CalendarKey, str], yard: Yard
) -> None:
    link[0].refresh_from_db()
    assert link[0].valid_until == next_midnight(yard, timezone.now())
