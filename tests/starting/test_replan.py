"""When a yard is planned again, by whom, and what serves meanwhile."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta
from importlib import import_module

import pytest
from django.db import transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Yard
from fitting.writes.touch import touch
from starting.models import CalendarKey, CareVisit, StoredOutlook
from starting.outlook import Outlook, YardFacts, look_at_yard
from starting.reads.outlook import outlooks
from starting.writes import ensure_planned, replan, today_in
from starting.writes.links import make_link
from starting.writes.publish import published
from starting.writes.replan import CLAIM_LASTS, TRIES
from tests.make import make_horse, make_measurement

ON = date(2026, 11, 25)
# By name: the package has a function of that name before the module.
PLANNING = import_module("starting.writes.replan")
Look = Callable[[YardFacts, date], tuple[Outlook, ...]]


@pytest.fixture
def tansy(yard: Yard) -> Yard:
    """Return a yard with one filly, measured once."""
    make_measurement(make_horse(yard, name="Tansy"), on=ON - timedelta(days=5))
    return yard


def during(monkeypatch: pytest.MonkeyPatch, then: Callable[[], object]) -> list[date]:
    """Do something in the middle of each planning; return the days planned."""
    days: list[date] = []

    def look(facts: YardFacts, on: date) -> tuple[Outlook, ...]:
        days.append(on)
        then()
        return look_at_yard(facts, on)

    monkeypatch.setattr(PLANNING, "look_at_yard", look)
    return days


def again(yard: Yard) -> Yard:
    """Return the yard as another process reads it."""
    return Yard.objects.get(pk=yard.pk)


def claim(yard: Yard, since: datetime | None) -> None:
    Yard.objects.filter(pk=yard.pk).update(planning_since=since)


def break_planning(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_facts: YardFacts, _on: date) -> tuple[Outlook, ...]:
        raise ZeroDivisionError

    monkeypatch.setattr(PLANNING, "look_at_yard", broken)


def test_a_yard_is_planned_for_its_version_and_day(tansy: Yard) -> None:
    assert replan(tansy, ON)
    stored = StoredOutlook.objects.get()
    now = again(tansy)
    assert (now.planned_version, now.planned_on) == (now.version, ON)
    assert (stored.version, stored.on) == (now.version, ON)
    assert now.planning_since is None


def test_a_yard_planned_for_today_is_not_planned_again(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    days = during(monkeypatch, lambda: None)
    ensure_planned(tansy)
    ensure_planned(again(tansy))
    assert days == [today_in(tansy)]


def test_only_one_plans_a_yard_at_a_time(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    others: list[bool] = []
    during(monkeypatch, lambda: others.append(replan(again(tansy), ON)))
    assert replan(tansy, ON)
    assert others == [False]


@pytest.mark.parametrize(("ago", "taken"), [(1, False), (-1, True)])
def test_what_a_crash_left_claimed_is_taken_over_after_a_while(
    tansy: Yard, ago: int, *, taken: bool
) -> None:
    claim(tansy, timezone.now() - CLAIM_LASTS + timedelta(seconds=30 * ago))
    assert replan(tansy, ON) is taken
    assert StoredOutlook.objects.exists() is taken


def test_who_was_overtaken_stores_nothing_and_leaves_the_claim(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = timezone.now() + timedelta(minutes=3)
    days = during(monkeypatch, lambda: claim(tansy, other))
    replan(tansy, ON)
    now = again(tansy)
    assert days == [ON]
    assert now.planning_since == other
    assert now.planned_on is None
    assert not StoredOutlook.objects.exists()
    assert not tansy.diary.exists()


def test_a_write_while_it_is_planned_is_planned_too(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    writes = [tansy]
    days = during(monkeypatch, lambda: touch(writes.pop()) if writes else None)
    replan(tansy, ON)
    now = again(tansy)
    assert days == [ON, ON]
    assert now.planned_version == now.version


def test_a_yard_that_never_stands_still_is_left_for_the_next_read(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    days = during(monkeypatch, lambda: touch(tansy))
    replan(tansy, ON)
    now = again(tansy)
    assert len(days) == TRIES
    assert now.planned_version == now.version - 1
    assert now.planning_since is None


def test_a_fault_is_logged_and_the_old_outlooks_and_calendar_serve_on(
    tansy: Yard,
    client: Client,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
) -> None:
    ensure_planned(tansy)
    _, secret = make_link(tansy, label="Phone", options={})
    address = reverse("calendar", args=[secret])
    before, body = outlooks(tansy), client.get(address).content
    past = timezone.now() - timedelta(minutes=1)
    CalendarKey.objects.update(valid_until=past)  # a new day has begun
    touch(tansy)
    break_planning(monkeypatch)
    ensure_planned(again(tansy))
    answer = client.get(address)
    assert caplog.text.count("Planning yard") == 2  # once more at the poll
    assert (answer.status_code, answer.content) == (200, body)
    assert outlooks(tansy) == before
    assert again(tansy).planning_since is None


def test_a_write_that_nobody_could_plan_is_planned_at_the_next_poll(
    tansy: Yard, client: Client
) -> None:
    ensure_planned(tansy)
    _, secret = make_link(tansy, label="Phone", options={})
    address = reverse("calendar", args=[secret])
    before = client.get(address)["ETag"]
    make_measurement(tansy.horses.get(), on=today_in(tansy), value=1300.0)
    touch(tansy)
    claim(tansy, timezone.now())  # another is at it, and past its last look
    ensure_planned(again(tansy))
    claim(tansy, None)
    assert client.get(address)["ETag"] != before
    assert again(tansy).planned_version == again(tansy).version


def test_a_fault_while_publishing_stores_no_half(
    tansy: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    replan(tansy, ON)
    before = outlooks(tansy)

    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(PLANNING, "publish", broken)
    with pytest.raises(ZeroDivisionError):
        replan(tansy, ON + timedelta(days=1))
    assert outlooks(tansy) == before
    assert again(tansy).planned_on == ON


@pytest.mark.django_db(transaction=True)
def test_a_write_is_planned_once_it_is_committed_and_not_before(
    monkeypatch: pytest.MonkeyPatch, yard: Yard
) -> None:
    days = during(monkeypatch, lambda: None)
    with transaction.atomic():
        make_horse(yard, name="Tansy")
        touch(yard)
        touch(yard)
        assert days == []
    assert days == [today_in(yard)]
    assert set(outlooks(yard)) == {"tansy"}


@pytest.mark.django_db(transaction=True)
def test_a_write_taken_back_plans_nothing(
    monkeypatch: pytest.MonkeyPatch, yard: Yard
) -> None:
    days = during(monkeypatch, lambda: None)

    def write_and_fail() -> None:
        with transaction.atomic():
            touch(yard)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        write_and_fail()
    assert days == []


def revisions(yard: Yard, kind: str) -> dict[str, tuple[str, int]]:
    return {
        r.entry.key: (r.uid, r.sequence)
        for r in published(yard)
        if r.entry.kind == kind
    }


def test_a_measurement_written_in_ends_its_entry_and_the_next_has_its_own(
    tansy: Yard,
) -> None:
    replan(tansy, ON)
    before = revisions(tansy, "measure")
    for measure in ("heart_girth", "head_length"):
        make_measurement(tansy.horses.get(), measure, on=ON, value=1500, method="tape")
    make_measurement(
        tansy.horses.get(), "mouth_width", on=ON, value=105, method="dowel"
    )
    make_measurement(
        tansy.horses.get(), "weight", on=ON, value=250, method="weigh_tape"
    )
    replan(tansy, ON)
    after = revisions(tansy, "measure")
    assert "tansy/measure/head_length-1" in before
    assert "tansy/measure/head_length-1" not in after
    assert "tansy/measure/heart_girth-2" in after
    assert all(r.entry.on > ON for r in published(tansy) if r.entry.kind == "measure")


def test_a_visit_written_in_ends_its_entry_and_names_the_next(tansy: Yard) -> None:
    horse = tansy.horses.get()
    last, due = ON - timedelta(days=30), ON + timedelta(days=12)
    CareVisit.objects.create(horse=horse, kind="farrier", on=last, next_due=due)
    replan(tansy, ON)
    assert "tansy/care/farrier-2" in revisions(tansy, "care")
    CareVisit.objects.create(
        horse=horse, kind="farrier", on=due, next_due=due + timedelta(days=42)
    )
    replan(tansy, due)
    visits = revisions(tansy, "care")
    assert "tansy/care/farrier-3" in visits
    assert "tansy/care/farrier-2" not in visits


def test_an_entry_keeps_its_uid_and_never_counts_back(tansy: Yard) -> None:
    seen: dict[str, tuple[str, int]] = {}
    for ahead in range(14):
        replan(tansy, ON + timedelta(days=ahead))
        for kind in ("measure", "stage_starts"):
            for key, (uid, sequence) in revisions(tansy, kind).items():
                was = seen.get(key, (uid, 0))
                assert (uid, sequence) >= was
                seen[key] = uid, sequence
    assert seen
