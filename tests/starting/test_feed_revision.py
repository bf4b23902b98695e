from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.diary import Entry, entry_uid
from starting.feed import (
    FeedHead,
    FeedOptions,
    Gone,
    Revised,
    digest,
    render,
    retire,
    revise,
)

NOW = datetime(2025, 12, 1, 6, 30, tzinfo=UTC)
HEAD = FeedHead(name="Diary", description="", site_url="https://yard.example")


def uid_of(key: str) -> str:
    return entry_uid("Long Meadow", key, "yard.example")


def make_entry(**only_what_matters: object) -> Entry:
    entry = Entry(
        key="pennyroyal/care/teeth",
        horse="Pennyroyal",
        on=date(2025, 12, 12),
        kind="care",
        title="Pennyroyal: teeth",
        text="Next: book the visit.",
        forecast=False,
    )
    return replace(entry, **only_what_matters)  # type: ignore[arg-type]


def published(*entries: Entry, before: Sequence[Revised] = ()) -> tuple[Revised, ...]:
    return revise(before, entries, uid_of=uid_of, now=NOW)


def again(before: Sequence[Revised], *entries: Entry) -> tuple[Revised, ...]:
    later = NOW + timedelta(hours=1)
    return revise(before, entries, uid_of=uid_of, now=later)


def test_a_new_entry_begins_at_nought() -> None:
    (first,) = published(make_entry())
    assert (first.sequence, first.created, first.changed) == (0, NOW, NOW)
    assert first.uid == uid_of("pennyroyal/care/teeth")


def test_an_unchanged_entry_keeps_its_revision() -> None:
    before = published(make_entry())
    assert again(before, make_entry()) == before


@pytest.mark.parametrize(
    "change",
    [
        {"on": date(2025, 12, 15)},
        {"title": "Pennyroyal of Long Meadow: teeth"},
        {"text": "Next: ring."},
        {"forecast": True},
        {"path": "/horses/1/"},
        {"after": ("pennyroyal/care/vet",)},
        {"horse": "Penny"},
    ],
)
def test_a_changed_entry_counts_up_and_says_when(change: dict[str, object]) -> None:
    before = published(make_entry())
    (moved,) = again(before, make_entry(**change))
    assert moved.uid == before[0].uid
    assert moved.sequence == 1
    assert moved.created == NOW
    assert moved.changed == NOW + timedelta(hours=1)


def test_only_the_entry_that_changed_is_revised() -> None:
    teeth, vet = make_entry(), make_entry(key="pennyroyal/care/vet")
    before = published(teeth, vet)
    after = again(before, replace(teeth, title="Teeth"), vet)
    assert [revised.sequence for revised in after] == [1, 0]
    assert after[1] == before[1]


def test_since_when_it_is_due_is_no_change_by_itself() -> None:
    assert digest(make_entry()) == digest(make_entry(due_since=date(2025, 12, 12)))


def test_a_clock_that_stands_still_does_not_hide_a_change() -> None:
    before = published(make_entry())
    (moved,) = published(make_entry(title="Teeth"), before=before)
    assert moved.changed == NOW + timedelta(seconds=1)


def test_what_is_gone_is_dropped_and_counts_on_when_it_returns() -> None:
    first = published(make_entry())
    second = again(first, make_entry(title="Teeth"))
    gone = again(second)
    retired = retire({}, second, gone)
    assert gone == ()
    changed = NOW + timedelta(hours=1)
    stays = Gone(sequence=1, created=NOW, changed=changed)
    assert retired == {uid_of("pennyroyal/care/teeth"): stays}
    (back,) = revise(gone, [make_entry()], uid_of=uid_of, now=NOW, retired=retired)
    assert (back.sequence, back.created) == (2, NOW)
    assert back.changed == changed + timedelta(seconds=1)
    assert retire(retired, gone, (back,)) == {}


def test_what_older_versions_kept_of_gone_entries_still_counts_on() -> None:
    retired = {uid_of("pennyroyal/care/teeth"): Gone(sequence=4)}
    (back,) = revise((), [make_entry()], uid_of=uid_of, now=NOW, retired=retired)
    assert (back.sequence, back.created, back.changed) == (5, NOW, NOW)


def test_one_task_is_published_once() -> None:
    (only,) = published(make_entry(), make_entry(title="Again"))
    assert only.entry.title == "Pennyroyal: teeth"


def test_a_time_is_kept_in_whole_seconds_of_utc() -> None:
    zone = timezone(timedelta(hours=2))
    now = datetime(2025, 12, 1, 8, 30, 0, 900_000, tzinfo=zone)
    (first,) = revise((), [make_entry()], uid_of=uid_of, now=now)
    assert first.changed == NOW
    assert first.changed.tzinfo is UTC


def test_a_time_without_a_zone_is_refused() -> None:
    now = NOW.replace(tzinfo=None)
    with pytest.raises(ValueError, match="needs a time zone"):
        revise((), [make_entry()], uid_of=uid_of, now=now)


tasks = st.sampled_from(["p/care/teeth", "p/care/vet", "g/get/girth"])
diaries = st.lists(
    st.builds(
        make_entry,
        key=tasks,
        on=st.dates(date(2025, 12, 1), date(2025, 12, 4)),
        title=st.sampled_from(["Teeth", "Vet"]),
        after=st.lists(tasks, max_size=1).map(tuple),
    ),
    max_size=4,
)
clocks = st.integers(-5, 5).map(lambda hours: NOW + timedelta(hours=hours))


@given(steps=st.lists(st.tuples(diaries, clocks), max_size=6))
def test_a_sequence_never_goes_down_whatever_moves_goes_or_returns(
    steps: list[tuple[list[Entry], datetime]],
) -> None:
    before: tuple[Revised, ...] = ()
    retired: dict[str, Gone] = {}
    seen: dict[str, Revised] = {}
    for entries, now in steps:
        after = revise(before, entries, uid_of=uid_of, now=now, retired=retired)
        for new in after:
            old = seen.get(new.uid)
            assert old is None or _goes_on(old, new, here=old in before)
            assert old is None or old.created == new.created
            seen[new.uid] = new
        retired = retire(retired, before, after)
        before = after


def _goes_on(old: Revised, new: Revised, *, here: bool) -> bool:
    """Whether a revision follows its last: the same, or higher and later."""
    if here and old.digest == new.digest:
        return old == new
    return new.sequence == old.sequence + 1 and new.changed > old.changed


@given(entries=diaries, now=clocks)
def test_the_same_entries_are_the_same_bytes(
    entries: list[Entry], now: datetime
) -> None:
    first = revise((), entries, uid_of=uid_of, now=NOW)
    second = revise(first, entries, uid_of=uid_of, now=now)
    bytes_before = render(HEAD, first, FeedOptions())
    assert render(HEAD, second, FeedOptions()) == bytes_before
    assert render(HEAD, second[::-1], FeedOptions()) == bytes_before
