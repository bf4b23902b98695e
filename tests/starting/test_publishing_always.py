"""Whatever is planned again in whatever order, calendars that follow it stay right."""

from __future__ import annotations

import gzip
import re
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from unittest import mock

import pytest
from django.test import override_settings
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)

from fitting.models import Horse, Yard
from starting.diary import Entry, EntryKind
from starting.feed import KIND_WORDS, render_all, rendering
from starting.models import CalendarKey
from starting.writes import calendar_files
from starting.writes.calendar_files import feed_head, options_of
from starting.writes.links import change_link, make_link
from starting.writes.publish import publish, published
from tests.make import make_yard
from tests.starting.line_checker import faults_of

START = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
TASKS = ("care/teeth-2", "stage_starts/roller", "measure/brow-1", "get/bit")
KINDS: tuple[EntryKind, ...] = ("care", "stage_starts", "measure", "get")
tasks = st.sampled_from([f"{h}/{task}" for h in ("tansy", "bryony") for task in TASKS])
OPTIONS: tuple[tuple[str, object], ...] = (
    *((name, on) for on in (True, False) for name in ("as_tasks", "plain_titles")),
    *(("alarm", alarm) for alarm in ("day", "eve", "")),
)
BEGINS = re.compile(rb"BEGIN:V(?:EVENT|TODO)")
REVISION = re.compile(rb"\r\n(?:DTSTAMP|LAST-MODIFIED|SEQUENCE):[^\r]*")


@dataclass(frozen=True)
class Kept:
    """What a calendar program kept of one event."""

    said: bytes  # all but its revision
    sequence: int
    changed: str
    created: str


@dataclass(frozen=True)
class File:
    """What it kept of the whole file."""

    body: bytes
    etag: str
    changed_at: datetime


def of_event(event: bytes) -> tuple[str, Kept]:
    def value(name: str) -> str:
        (found,) = re.findall(rf"\r\n{name}:([^\r]*)\r\n", event.decode())
        return str(found)

    kept = Kept(
        said=REVISION.sub(b"", event),
        sequence=int(value("SEQUENCE")),
        changed=value("LAST-MODIFIED"),
        created=value("CREATED"),
    )
    return value("UID"), kept


class Publishing(RuleBasedStateMachine):
    """A yard whose plan changes, and calendars on two links that see every step."""

    @initialize()
    def begin(self) -> None:
        self.now, self.today = START, START.date()
        self.site = override_settings(SITE_URL="http://testserver")
        self.site.enable()
        self.program, self.editions = ExitStack(), 0
        self.words: dict[EntryKind, str] = dict(KIND_WORDS)
        self.wanted: dict[str, Entry] = {}
        self.names = {"tansy": "Tansy", "bryony": "Bryony"}
        self.uids: dict[str, str] = {}
        self.events: dict[tuple[int, str], Kept] = {}
        self.files: dict[int, File] = {}
        number = Yard.objects.count()
        self.yard = make_yard(name=f"Yard {number}", slug=f"yard-{number}")
        for key, name in self.names.items():
            Horse.objects.create(
                yard=self.yard, key=key, name=name, foaled="2024-04-01"
            )
        with self.at_this_time():
            for options in ({}, {"alarm": "day", "kinds": ["care", "stage_starts"]}):
                make_link(self.yard, label="Phone", options=options)
        for key in (f"tansy/{TASKS[0]}", f"bryony/{TASKS[1]}"):
            self.want_it(key, 20, "Due.", forecast=True)

    @rule(
        key=tasks,
        in_days=st.integers(-9, 60),
        text=st.sampled_from(["Due.", "Ring; then go,\nor not. \\N é😀"]),
        forecast=st.booleans(),
    )
    def want(self, key: str, in_days: int, text: str, *, forecast: bool) -> None:
        self.want_it(key, in_days, text, forecast=forecast)

    def want_it(self, key: str, in_days: int, text: str, *, forecast: bool) -> None:
        horse, kind, task = key.split("/")
        name = self.names[horse]
        self.wanted[key] = Entry(
            key=key,
            horse=name,
            on=self.today + timedelta(days=in_days),
            kind=kind,  # type: ignore[arg-type]
            title=f"{name}: {task}",
            text=text,
            forecast=forecast,
            after=("tansy/care/teeth-2",) if kind == "stage_starts" else (),
        )
        self.publish()

    @rule(key=tasks, days=st.integers(-5, 5))
    def move(self, key: str, days: int) -> None:
        if key in self.wanted:
            on = self.wanted[key].on + timedelta(days=days)
            self.wanted[key] = replace(self.wanted[key], on=on)
        self.publish()

    @rule(key=tasks)
    def drop(self, key: str) -> None:
        self.wanted.pop(key, None)
        self.publish()

    @rule(horse=st.sampled_from(["tansy", "bryony"]), name=st.sampled_from("AB"))
    def rename(self, horse: str, name: str) -> None:
        self.names[horse] = f"{name} {horse}"  # no two horses of a yard share a name
        for key, entry in self.wanted.items():
            if key.startswith(horse):
                title = f"{self.names[horse]}:{entry.title.partition(':')[2]}"
                self.wanted[key] = replace(entry, horse=self.names[horse], title=title)
        self.publish()

    @rule(name=st.sampled_from(["Sallow End", "Low Fold"]))
    def rename_the_yard(self, name: str) -> None:
        self.yard.name = f"{name} {self.yard.pk}"
        self.yard.save(update_fields=["name"])
        self.publish()

    @rule(scheme=st.sampled_from(["http", "https"]))
    def move_the_site(self, scheme: str) -> None:
        self.site.disable()
        self.site = override_settings(SITE_URL=f"{scheme}://testserver")
        self.site.enable()
        self.publish()

    @rule(kind=st.sampled_from(KINDS), word=st.sampled_from(["Due", "Do", ""]))
    def update_the_program(self, kind: EntryKind, word: str) -> None:
        """Change how one kind of entry is written; with no word, change nothing."""
        self.editions += 1
        self.words = {**self.words, kind: word or self.words[kind]}
        self.program.close()
        self.program.enter_context(
            mock.patch.object(rendering, "KIND_WORDS", self.words)
        )
        name = f"edition {self.editions}"
        self.program.enter_context(mock.patch.object(calendar_files, "EDITION", name))
        rendering.render_event.cache_clear()
        self.publish()

    @rule(days=st.integers(1, 9))
    def wait(self, days: int) -> None:
        self.now += timedelta(days=days)
        self.today += timedelta(days=days)
        self.publish()

    @rule(seconds=st.integers(-7200, 5))
    def set_the_clock(self, seconds: int) -> None:
        self.now += timedelta(seconds=seconds)
        self.publish()

    @rule(option=st.sampled_from(OPTIONS))
    def change_a_link(self, option: tuple[str, object]) -> None:
        key = CalendarKey.objects.filter(yard=self.yard).order_by("pk").first()
        assert key is not None
        with self.at_this_time():
            change_link(key, label="Phone", options=dict([option]))

    @rule()
    def nothing_new(self) -> None:
        self.publish()

    @rule(horse=st.sampled_from(["tansy", "bryony"]))
    def horse_leaves_and_comes_back(self, horse: str) -> None:
        Horse.objects.filter(yard=self.yard, key=horse).delete()
        for key in [key for key in self.wanted if key.startswith(horse)]:
            del self.wanted[key]
        self.publish()
        Horse.objects.create(
            yard=self.yard, key=horse, name=self.names[horse], foaled="2024-04-01"
        )

    def publish(self) -> None:
        with self.at_this_time():
            publish(self.yard, list(self.wanted.values()), self.today)

    @contextmanager
    def at_this_time(self) -> Iterator[None]:
        now = mock.Mock(return_value=self.now)
        with (
            mock.patch("starting.writes.publish.timezone.now", now),
            mock.patch("starting.writes.links.timezone.now", now),
        ):
            yield

    def teardown(self) -> None:
        self.site.disable()
        self.program.close()
        rendering.render_event.cache_clear()

    @invariant()
    def nothing_is_lost_and_every_task_keeps_its_uid(self) -> None:
        diary = published(self.yard)
        assert {revised.entry.key for revised in diary} == self.wanted.keys()
        for revised in diary:
            uid = self.uids.setdefault(revised.entry.key, revised.uid)
            assert revised.uid == uid
        assert len(set(self.uids.values())) == len(self.uids)

    @invariant()
    def every_event_counts_up_when_it_changes_and_only_then(self) -> None:
        for link in self.links():
            body = bytes(link.stored.body).removesuffix(b"END:VCALENDAR\r\n")
            chosen = BEGINS.split(body)[1:]
            assert len(chosen) == body.count(b"\r\nUID:")
            for uid, now in map(of_event, chosen):
                before = self.events.get((link.pk, uid))
                assert before is None or follows(before, now)
                self.events[link.pk, uid] = now

    @invariant()
    def the_stamps_of_a_file_change_when_its_bytes_do_and_only_then(self) -> None:
        for link in self.links():
            assert link.changed_at is not None
            now = File(bytes(link.stored.body), link.etag, link.changed_at)
            before = self.files.get(link.pk)
            if before is not None and before.body == now.body:
                assert now == before
            elif before is not None:
                assert now.etag != before.etag
                assert now.changed_at >= before.changed_at + timedelta(seconds=1)
            self.files[link.pk] = now

    @invariant()
    def every_file_is_whole_and_as_if_written_at_once(self) -> None:
        head, diary = feed_head(self.yard), published(self.yard)
        for link in self.links():
            body = bytes(link.stored.body)
            assert body == render_all(head, diary, options_of(link)).body
            assert gzip.decompress(link.stored.gzipped) == body
            assert faults_of(body) == []

    def links(self) -> list[CalendarKey]:
        return list(self.yard.calendar_keys.select_related("stored"))


def follows(before: Kept, now: Kept) -> bool:
    """Whether a program that compares any one field of a revision sees each change."""
    if before.said == now.said and before.sequence == now.sequence:
        return before == now
    higher = now.sequence > before.sequence and now.changed > before.changed
    return higher and now.created == before.created


@pytest.mark.django_db
def test_calendars_that_follow_every_planning_stay_right() -> None:
    few = settings(max_examples=12, stateful_step_count=12, deadline=None)
    run_state_machine_as_test(Publishing, settings=few)
