"""A yard written over: what stays, what goes, what counts on."""

from __future__ import annotations

import pytest

from fitting.models import Measurement, Photo, Yard
from starting.diary import Entry
from starting.feed import Revised
from starting.models import CalendarKey, DiaryEntry, RetiredEntry
from starting.writes.publish import published
from starting.writes.replan import replan
from starting.yardfile import YardThereError
from tests.make import make_member
from tests.starting.rich_yard import ON, every_row, load, rich, small


def test_a_yard_that_is_there_is_not_written_over_unasked(db: None) -> None:
    load(small())
    before = every_row()
    with pytest.raises(YardThereError, match="Fallow Bottom is there already"):
        load(rich())
    assert every_row() == before


def test_replacing_keeps_members_links_and_photos(db: None) -> None:
    yard = load(small())
    user = make_member(yard, "helper")
    key = CalendarKey.objects.create(
        yard=yard, key_hash="a" * 64, label="Phone", horses=["sorrel"]
    )
    horse = yard.horses.get()
    photo = Photo.objects.create(horse=horse, on=ON, image="horses/2026/one.jpg")
    changed = small()
    changed["horses"][0] |= {"name": "Sorrel Two", "id": "sorrel", "sex": "mare"}
    again = load(changed, replace=True)
    assert (again.pk, again.slug) == (yard.pk, yard.slug)
    assert again.memberships.get().user == user
    assert again.calendar_keys.get() == key
    photo.refresh_from_db()
    assert photo.horse.name == "Sorrel Two"
    assert photo.horse.sex == "mare"


def test_replacing_takes_out_what_is_not_in_the_file(db: None) -> None:
    load(rich())
    yard = load(small(), replace=True)
    assert [h.name for h in yard.horses.all()] == ["Sorrel"]
    for rows in (yard.tack, yard.sets, yard.people, yard.programmes):
        assert not rows.exists()
    assert not Measurement.objects.exists()


def test_two_horses_may_change_names(db: None) -> None:
    horse = small()["horses"][0]
    one, two = {**horse, "id": "one"}, {**horse, "id": "two"}
    load(small(horses=[{**one, "name": "Ash"}, {**two, "name": "Elm"}]))
    yard = load(
        small(horses=[{**one, "name": "Elm"}, {**two, "name": "Ash"}]), replace=True
    )
    keys = dict(yard.horses.values_list("key", "name"))
    assert keys == {"one": "Elm", "two": "Ash"}


def entries(yard: Yard) -> dict[str, Revised]:
    return {revised.entry.key: revised for revised in published(yard)}


def test_replacing_keeps_uids_and_counts_sequences_on(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    before = entries(yard)
    yard = load(rich(), replace=True)
    replan(yard, ON)
    assert before
    assert entries(yard) == before  # the same file: not one byte of the feed moves
    moved = rich()
    moved["horses"][0]["care"][0]["next"] = "+50d"
    yard = load(moved, replace=True)
    replan(yard, ON)
    after = entries(yard)
    key = next(k for k in before if k.startswith("sorrel/care/teeth"))
    assert after[key].uid == before[key].uid
    assert after[key].sequence == before[key].sequence + 1


def test_a_horse_that_leaves_and_returns_counts_its_entries_on(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    before = entries(yard)
    without = rich()
    del without["horses"][0], without["bought"][0], without["tack"][0]["loans"]
    yard = load(without, replace=True)
    replan(yard, ON)
    gone = {k for k in before if k.startswith("sorrel/")}
    assert gone
    assert not gone & entries(yard).keys()
    retired = set(RetiredEntry.objects.values_list("uid", flat=True))
    assert {before[k].uid for k in gone} <= retired
    yard = load(rich(), replace=True)
    replan(yard, ON)
    after = entries(yard)
    assert all(after[k].sequence == before[k].sequence + 1 for k in gone)


def test_entries_keep_their_horse_when_a_yard_is_replaced(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    yard = load(rich(), replace=True)
    replan(yard, ON)
    rows = DiaryEntry.objects.filter(yard=yard)
    assert {row.horse.key for row in rows if row.horse} == {
        row.key.partition("/")[0] for row in rows
    }


def test_entry_type_is_what_the_diary_keeps(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    assert all(isinstance(r.entry, Entry) for r in published(yard))
