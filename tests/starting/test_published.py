"""The diary as it is kept between two publishings comes back as it was."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from pytest_django import DjangoAssertNumQueries

from fitting.models import Yard
from starting.diary import Entry
from starting.models import DiaryEntry, RetiredEntry
from starting.writes.publish import publish, published, retired_of, uid_at
from tests.starting.making_feed import make_entry

TODAY = date(2025, 12, 1)
MICROSECOND = timedelta(microseconds=1)


@pytest.fixture
def entries(yard: Yard) -> list[Entry]:
    """Return three published entries, the last one first, and published first."""
    diary = [
        make_entry(key=f"pennyroyal/care/{name}", on=TODAY + timedelta(days=days))
        for name, days in (("vet", 9), ("teeth", 9), ("farrier", 4))
    ]
    publish(yard, diary[:1], TODAY)
    publish(yard, diary, TODAY)
    return diary


@pytest.mark.parametrize("more", [timedelta(0), MICROSECOND, 999_999 * MICROSECOND])
def test_times_come_back_as_they_are_kept(
    yard: Yard, entries: list[Entry], more: timedelta
) -> None:
    made = datetime(2024, 3, 31, 0, 59, 59, tzinfo=UTC) + more
    yard.diary.update(created=made, changed=made + timedelta(days=200))
    rows = {row.uid: (row.created, row.changed) for row in yard.diary.all()}
    back = {one.uid: (one.created, one.changed) for one in published(yard)}
    assert back == rows
    assert len(back) == len(entries)
    assert {moment.tzinfo for pair in back.values() for moment in pair} == {UTC}


def test_the_diary_comes_back_by_day_and_key(yard: Yard, entries: list[Entry]) -> None:
    keys = [one.entry.key.rpartition("/")[2] for one in published(yard)]
    assert keys == ["farrier", "teeth", "vet"]
    assert {one.entry for one in published(yard)} == {*entries}


def test_a_row_that_was_mended_by_hand_is_read_anew(
    yard: Yard, entries: list[Entry]
) -> None:
    published(yard)
    DiaryEntry.objects.filter(yard=yard).update(sequence=7)
    assert [one.sequence for one in published(yard)] == [7] * len(entries)


def test_what_left_is_asked_for_only_where_it_may_be_back(
    yard: Yard,
    entries: list[Entry],
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    publish(yard, entries[1:], TODAY)
    publish(yard, entries[2:], TODAY)
    before = published(yard)
    with django_assert_num_queries(0):
        assert retired_of(yard, before, entries[2:]) == {}
    with django_assert_num_queries(1):
        back = retired_of(yard, before, entries[1:])
    assert back.keys() == {uid_at(yard, entries[1].key)}


def test_an_entry_that_left_twice_is_kept_once_and_counts_on(
    yard: Yard, entries: list[Entry]
) -> None:
    gone, *others = entries
    for sequence in (1, 2):
        publish(yard, others, TODAY)
        assert yard.retired_entries.get().sequence == sequence - 1
        publish(yard, entries, TODAY)
        assert yard.diary.get(key=gone.key).sequence == sequence
        assert not yard.retired_entries.exists()


def test_a_row_left_over_stops_no_publishing(yard: Yard, entries: list[Entry]) -> None:
    uid = uid_at(yard, entries[0].key)
    RetiredEntry.objects.create(yard=yard, uid=uid, sequence=9)
    publish(yard, entries[1:], TODAY)
    assert yard.retired_entries.get().sequence == 0
