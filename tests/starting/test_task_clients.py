"""A program for tasks subscribes to a link on this machine, and keeps up with it."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import NamedTuple
from zoneinfo import ZoneInfo

import pytest
from pytest_django.live_server_helper import LiveServer

from starting.feed import KIND_WORDS
from starting.models import CareVisit
from starting.writes import today_in
from starting.writes.publish import published
from tests.make import make_plan
from tests.starting.subscribing import CLOCK, Link, Subscriber, make_subscribed

SHOWING = """
path = "{folder}/kept"
date_format = "%Y-%m-%d"
time_format = "%H:%M"
cache_path = "{folder}/shown.db"
"""


class Shown(NamedTuple):
    """A task as it is shown."""

    due: date
    text: str
    kinds: tuple[str, ...]
    done: bool


class TaskList(Subscriber):
    """A program for tasks on the machine that subscribes."""

    def shown(self) -> dict[str, Shown]:
        """Return the tasks as they are shown, by title."""
        config = str(self.folder / "showing.py")
        said = self.run("todo", "-c", config, "--porcelain", "list", "--status", "ANY")
        rows = json.loads(said)
        tasks = {
            row["summary"]: Shown(
                due=datetime.fromtimestamp(row["due"], ZoneInfo(CLOCK)).date(),
                text=row["description"],
                kinds=tuple(row["categories"]),
                done=row["completed"],
            )
            for row in rows
        }
        assert len(tasks) == len(rows), "two tasks of one title"
        return tasks

    def printed(self) -> str:
        """Return the list as a person sees it."""
        return self.run("todo", "-c", str(self.folder / "showing.py"), "list")


@pytest.fixture
def link(live_server: LiveServer) -> Link:
    return make_subscribed(live_server.url, as_tasks=True)


@pytest.fixture
def subscriber(link: Link, tmp_path: Path) -> TaskList:
    subscriber = TaskList(tmp_path)
    told = SHOWING.format(folder=tmp_path)
    (tmp_path / "showing.py").write_text(told, encoding="utf-8")
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
        title: (task.due, task.kinds, task.done) for title, task in shown.items()
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


def test_a_sync_with_nothing_new_changes_no_task(
    link: Link, subscriber: TaskList
) -> None:
    before, shown = subscriber.kept(), subscriber.shown()
    link.plan()
    assert len(before) == len(shown) == link.horse.yard.diary.count()
    assert subscriber.sync() == ""
    assert subscriber.kept() == before
    assert subscriber.shown() == shown


def test_a_task_that_moved_came_or_went_is_seen_at_the_next_sync(
    link: Link, subscriber: TaskList
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
    assert vet.due - before.pop("Tansy: vet").due == timedelta(days=7)
    assert other.due == today_in(link.horse.yard) + timedelta(days=33)
    assert before.pop("Tansy: vaccination")
    assert after == before
    assert "Tansy: worming" in after
    still = files.keys() & subscriber.kept().keys()
    assert len(still) == len(after)
    assert all(subscriber.kept()[name] == files[name] for name in still)
