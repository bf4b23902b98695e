"""What is another edition of the program, and what of a calendar file then changes."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from django.utils import timezone

from fitting.models import Yard
from starting.edition import EDITION, edition_of
from starting.feed import KIND_WORDS, rendering
from starting.models import CalendarKey, StoredFeed
from starting.writes import calendar_files
from starting.writes.links import make_link, store_again
from starting.writes.publish import publish
from tests.starting.making_feed import make_entry


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Return where a very small program lies."""
    for name in ("fitting/age.py", "starting/feed/wire.py", "starting/way.toml"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    return tmp_path


@pytest.mark.parametrize(
    "name", ["fitting/age.py", "starting/feed/wire.py", "starting/way.toml"]
)
def test_other_source_is_another_edition(home: Path, name: str) -> None:
    before = edition_of(home)
    (home / name).write_text("otherwise")
    assert edition_of(home) != before


def test_a_file_more_a_new_name_or_another_library_is_one_too(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    names = {edition_of(home)}
    (home / "starting/feed/more.py").touch()
    names.add(edition_of(home))
    (home / "starting/feed/more.py").rename(home / "starting/feed/most.py")
    names.add(edition_of(home))
    monkeypatch.setattr("starting.edition.version", lambda name: f"{name} 99")
    names.add(edition_of(home))
    assert len(names) == 4


def test_what_lies_about_is_none(home: Path) -> None:
    before = edition_of(home)
    (home / "starting/feed/wire.pyc").write_text("compiled")
    (home / "starting/notes.txt").write_text("a note")
    (home / "elsewhere.py").write_text("elsewhere")
    assert edition_of(home) == before


def test_this_program_has_a_name_of_32_digits() -> None:
    assert len(bytes.fromhex(EDITION)) == 16


@pytest.fixture
def link(yard: Yard) -> CalendarKey:
    """Return a link of a yard with an entry of every kind, "get" the last of them."""
    today = timezone.localdate()
    kinds = sorted(KIND_WORDS, key=lambda kind: kind == "get")
    entries = [
        make_entry(key=f"tansy/{kind}/x", kind=kind, on=today + timedelta(days=n))
        for n, kind in enumerate(kinds, start=9)
    ]
    publish(yard, entries, today)
    key, _ = make_link(yard, label="Phone", options={})
    return key


def stored_again(key: CalendarKey) -> tuple[CalendarKey, StoredFeed]:
    store_again(key.pk)
    now = CalendarKey.objects.select_related("stored").get(pk=key.pk)
    return now, now.stored


def test_an_update_that_writes_only_the_last_kind_otherwise_revises_the_file(
    link: CalendarKey, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = CalendarKey.objects.get(pk=link.pk)
    monkeypatch.setattr(rendering, "KIND_WORDS", {**KIND_WORDS, "get": "Fetch"})
    monkeypatch.setattr(calendar_files, "EDITION", "another")
    rendering.render_event.cache_clear()
    now, file = stored_again(link)
    rendering.render_event.cache_clear()
    assert b"CATEGORIES:Fetch" in file.body
    assert now.revision == before.revision + 1
    assert now.options_changed_at is not None
    assert before.changed_at is not None
    assert now.changed_at is not None
    assert now.changed_at > before.changed_at
    assert now.etag != before.etag


def test_an_update_that_writes_all_as_before_changes_nothing_and_is_noted(
    link: CalendarKey, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = CalendarKey.objects.get(pk=link.pk)
    body = bytes(before.stored.body)
    monkeypatch.setattr(calendar_files, "EDITION", "another")
    now, file = stored_again(link)
    assert bytes(file.body) == body
    assert (now.etag, now.changed_at) == (before.etag, before.changed_at)
    assert now.revision == before.revision
    written: list[object] = []
    monkeypatch.setattr(rendering, "try_event", written.append)
    stored_again(link)
    assert not written, "all is compared once"
