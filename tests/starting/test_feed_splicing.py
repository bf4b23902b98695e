"""A file written anew takes from the last one what did not change, and no more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.diary import Entry, EntryKind
from starting.feed import (
    KIND_WORDS,
    FeedOptions,
    Revised,
    render_all,
    render_anew,
    rendering,
    revise,
)
from starting.feed.splicing import events_by_stamp
from tests.starting.making_feed import HEAD, NOW, PLAIN, a_yard, make_entry, uid_of


def changed(before: tuple[Revised, ...], *entries: Entry) -> tuple[Revised, ...]:
    later = NOW + timedelta(hours=1)
    return revise(before, entries, uid_of=uid_of, now=later)


@pytest.fixture
def written(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return the keys of the events that are written, not taken over."""
    keys: list[str] = []
    write = rendering.try_event

    def watched(*given: object) -> bytes | None:
        keys.append(given[0].entry.key)  # type: ignore[attr-defined]
        return write(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(rendering, "try_event", watched)
    return keys


@pytest.mark.parametrize("as_tasks", [False, True])
def test_only_what_changed_is_written(written: list[str], *, as_tasks: bool) -> None:
    before, options = a_yard(), FeedOptions(as_tasks=as_tasks, alarm="day")
    body = render_all(HEAD, before, options).body
    first, *others = [revised.entry for revised in before]
    moved = replace(first, on=first.on + timedelta(days=4))
    after = changed(before, moved, *others)
    written.clear()
    anew = render_anew(HEAD, after, options, body)
    assert written == [moved.key]
    assert anew == render_all(HEAD, after, options)


def test_a_long_name_is_taken_over_too(written: list[str]) -> None:
    first = [make_entry(key=f"{n}/care/teeth") for n in range(3)]
    before = revise((), first, uid_of=lambda key: key * 9, now=NOW)
    body = render_all(HEAD, before, PLAIN).body
    written.clear()
    assert render_anew(HEAD, before, PLAIN, body).body == body
    assert not written


def test_a_file_that_is_not_there_is_written_whole(written: list[str]) -> None:
    entries = a_yard()
    anew = render_anew(HEAD, entries, PLAIN, b"")
    assert len(written) == len(entries)
    assert anew == render_all(HEAD, entries, PLAIN)


@pytest.mark.parametrize(
    "options",
    [
        FeedOptions(alarm="eve", revision=1),
        FeedOptions(plain_titles=True, changed=NOW + timedelta(days=1)),
    ],
)
def test_other_options_take_nothing_over(options: FeedOptions) -> None:
    body = render_all(HEAD, a_yard(), PLAIN).body
    anew = render_anew(HEAD, a_yard(), options, body)
    assert anew == render_all(HEAD, a_yard(), options)


def test_a_site_that_moved_takes_nothing_over() -> None:
    body = render_all(HEAD, a_yard(), PLAIN).body
    there = replace(HEAD, site_url="https://elsewhere.example")
    anew = render_anew(there, a_yard(), PLAIN, body, doubted=True)
    assert anew.body == render_all(there, a_yard(), PLAIN).body
    assert anew.otherwise, "said, as no revision says so"
    assert not render_anew(there, a_yard(), PLAIN, anew.body, doubted=True).otherwise


@pytest.mark.parametrize("kind", KIND_WORDS)
def test_a_program_that_writes_one_kind_otherwise_takes_nothing_over(
    kind: EntryKind, monkeypatch: pytest.MonkeyPatch
) -> None:
    entries = [entry for entry in a_yard() if entry.entry.horse != "Gannet"]
    body = render_all(HEAD, entries, PLAIN).body
    assert not render_anew(HEAD, entries, PLAIN, body, doubted=True).otherwise
    monkeypatch.setattr(rendering, "KIND_WORDS", {**KIND_WORDS, kind: "Otherwise"})
    rendering.render_event.cache_clear()
    anew = render_anew(HEAD, entries, PLAIN, body, doubted=True)
    rendering.render_event.cache_clear()
    assert anew.otherwise
    assert anew.body.count(b"CATEGORIES:Otherwise") >= 1


def test_an_event_is_found_by_a_name_too_long_for_one_line() -> None:
    (one,) = revise((), [make_entry()], uid_of=lambda key: key * 9, now=NOW)
    body = render_all(HEAD, [one], PLAIN).body
    (stamp,) = events_by_stamp(body)
    said = stamp.replace(b"\r\n ", b"").decode().split("\r\n")
    assert said == ["", "DTSTAMP:20251201T063000Z", f"UID:{one.uid}", "SEQUENCE:0"]


entries = st.builds(
    make_entry,
    key=st.sampled_from(["p/care/teeth", "p/care/vet", "g/get/girth", "g/care/vet"]),
    on=st.dates(date(2025, 12, 1), date(2025, 12, 5)),
    title=st.sampled_from(["Teeth", "\nUID:x\nSEQUENCE:9\n", "END:VEVENT\r\n"]),
    text=st.sampled_from(["", "BEGIN:VEVENT\r\nUID:x\r\nEND:VEVENT\r\n" * 3]),
)


@given(
    diaries=st.lists(st.lists(entries, max_size=5), max_size=4),
    alarm=st.sampled_from(["", "day"]),
)
def test_taking_over_never_shows_in_the_bytes(
    diaries: list[list[Entry]], alarm: str
) -> None:
    options = FeedOptions(alarm=alarm)
    before: tuple[Revised, ...] = ()
    body = b""
    for diary in diaries:
        before = changed(before, *diary)
        body = render_anew(HEAD, before, options, body).body
        assert body == render_all(HEAD, before, options).body
