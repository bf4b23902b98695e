"""Programs on this machine that subscribed to a link, and keep up with it."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from pytest_django.live_server_helper import LiveServer

from starting.models import CareVisit
from starting.writes import today_in
from tests.starting.showing import Calendar, TaskList
from tests.starting.subscribing import Link, make_subscribed


@pytest.fixture(params=[Calendar, TaskList])
def program(request: pytest.FixtureRequest) -> type[Calendar] | type[TaskList]:
    found: type[Calendar] | type[TaskList] = request.param
    return found


@pytest.fixture
def link(live_server: LiveServer, program: type[Calendar] | type[TaskList]) -> Link:
    return make_subscribed(live_server.url, as_tasks=program is TaskList)


@pytest.fixture
def subscriber(
    link: Link, tmp_path: Path, program: type[Calendar] | type[TaskList]
) -> Calendar | TaskList:
    subscriber = program(tmp_path)
    subscriber.subscribe(link.address)
    return subscriber


def test_a_sync_with_nothing_new_changes_nothing(
    link: Link, subscriber: Calendar | TaskList
) -> None:
    before, shown = subscriber.kept(), subscriber.shown()
    link.plan()
    assert len(before) == len(shown) == link.horse.yard.diary.count()
    assert subscriber.sync() == ""
    assert subscriber.kept() == before
    assert subscriber.shown() == shown


def test_what_moved_came_or_went_is_seen_at_the_next_sync(
    link: Link, subscriber: Calendar | TaskList
) -> None:
    before, files = subscriber.shown(), subscriber.kept()
    link.visit("vet", 47)
    link.visit("other", 33)
    CareVisit.objects.filter(kind="vaccination").delete()
    link.plan()
    said = subscriber.sync()
    after = subscriber.shown()
    vet, other = after.pop("Tansy: vet"), after.pop("Tansy: visit")
    assert (said.count("Copying"), said.count("Deleting")) == (2, 2)
    assert vet.on - before.pop("Tansy: vet").on == timedelta(days=7)
    assert other.on == today_in(link.horse.yard) + timedelta(days=33)
    assert before.pop("Tansy: vaccination")
    assert after == before
    assert "Tansy: worming" in after
    still = files.keys() & subscriber.kept().keys()
    assert len(still) == len(after)
    assert all(subscriber.kept()[name] == files[name] for name in still)
