"""A program for tasks subscribes to a link on this machine, and keeps up with it."""

from __future__ import annotations

from pathlib import Path

import pytest
from pytest_django.live_server_helper import LiveServer

from starting.feed import KIND_WORDS
from starting.writes.publish import published
from tests.make import make_plan
from tests.starting.showing import TaskList
from tests.starting.subscribing import Link, make_subscribed


@pytest.fixture
def link(live_server: LiveServer) -> Link:
    return make_subscribed(live_server.url, as_tasks=True)


@pytest.fixture
def subscriber(link: Link, tmp_path: Path) -> TaskList:
    subscriber = TaskList(tmp_path)
    subscriber.subscribe(link.address)
    return subscriber


def test_a_subscriber_sees_every_task_with_its_day(
    link: Link, subscriber: TaskList
) -> None:
    make_plan(link.horse)
    link.plan()
    subscriber.sync()
    entries = [revised.entry for revised in published(link.horse.yard)]
    shown = subscriber.shown()
    assert len(entries) > 30
    assert {
        title: (task.on, task.kinds, task.done) for title, task in shown.items()
    } == {
        entry.title: (entry.on, (KIND_WORDS[entry.kind],), False) for entry in entries
    }
    for entry in entries:
        assert shown[entry.title].text.startswith(entry.text)
        assert shown[entry.title].text.endswith(entry.path)


def test_a_person_reads_the_day_and_the_title(link: Link, subscriber: TaskList) -> None:
    said = subscriber.printed()
    for row in link.horse.yard.diary.all():
        (line,) = (line for line in said.splitlines() if row.on.isoformat() in line)
        assert "Tansy: " in line
