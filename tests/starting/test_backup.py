"""A backup holds all that is written, and a restore brings back just that."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from django.conf import LazySettings
from django.contrib.auth.models import User
from django.core.management import call_command

from fitting.models import Horse, Photo, Yard
from starting.backup import read_manifest, row_file
from starting.management.plain import Error
from starting.models import LastTold, Moved, StoredFeed, StoredOutlook
from starting.writes import ensure_planned
from starting.writes.links import make_link
from starting.yardfile import dump_yard, load_yard
from tests.make import make_member, make_photo
from tests.starting.making_commands import ON, run, said
from tests.starting.rich_yard import rich


@pytest.fixture
def fallow(transactional_db: None, settings: LazySettings, tmp_path: Path) -> Yard:
    """A yard with a bit of everything, planned, with a member, a link and a photo."""
    settings.MEDIA_ROOT = tmp_path / "media"
    yard = load_yard(json.dumps(rich()).encode(), ON)
    make_member(yard)
    make_link(yard, label="Phone", options={})
    ensure_planned(yard)
    horse = yard.horses.all()[0]
    make_photo(horse, note="¾ on, “left” side")
    Moved.objects.create(horse=horse, on=ON, kind="step", subject="feet", content=b"{}")
    return yard


def empty(media: Path) -> None:
    call_command("flush", interactive=False, verbosity=0)
    shutil.rmtree(media)


# all there and back


def test_all_that_was_written_comes_back(
    fallow: Yard, settings: LazySettings, tmp_path: Path
) -> None:
    media, kept, again = Path(settings.MEDIA_ROOT), tmp_path / "a", tmp_path / "b"
    photo, dump = Photo.objects.get(), dump_yard(fallow)
    picture = Path(photo.image.path).read_bytes()
    feed = bytes(StoredFeed.objects.get().body)
    looked = {look.horse_id: look.content for look in StoredOutlook.objects.all()}
    told = {one.horse_id: one.content for one in LastTold.objects.all()}
    assert len(looked) == len(told) > 1
    password = User.objects.get().password
    assert "Read back: equal." in said("backup", str(kept))
    empty(media)
    assert not Horse.objects.exists()
    assert "Database and backup: equal." in said("restore", str(kept))
    back = Photo.objects.get()
    assert (back.note, back.pk) == (photo.note, photo.pk)
    assert Path(back.image.path).read_bytes() == picture
    assert dump_yard(Yard.objects.get()) == dump
    assert bytes(StoredFeed.objects.get().body) == feed
    assert {o.horse_id: o.content for o in StoredOutlook.objects.all()} == looked
    assert {one.horse_id: one.content for one in LastTold.objects.all()} == told
    assert Moved.objects.get().content == b"{}"
    assert User.objects.get().password == password
    said("backup", str(again))
    assert read_manifest(again).tables == read_manifest(kept).tables
    assert read_manifest(again).photos == read_manifest(kept).photos


def test_a_backup_goes_over_to_another_database(
    fallow: Yard, settings: LazySettings, tmp_path: Path
) -> None:
    """On PostgreSQL: over to SQLite, and from there back to PostgreSQL."""
    kept, over, there = tmp_path / "a", tmp_path / "b", tmp_path / "other.sqlite3"
    said("backup", str(kept))
    done = run(there, "restore", str(kept))
    assert (done.returncode, done.stderr) == (0, "")
    done = run(there, "backup", str(over))
    assert done.returncode == 0
    assert "Named by the yard but not in" in done.stderr  # its photos lie elsewhere
    assert read_manifest(over).tables == read_manifest(kept).tables
    empty(Path(settings.MEDIA_ROOT))
    said("restore", str(over))
    said("backup", str(tmp_path / "c"))
    assert read_manifest(tmp_path / "c").tables == read_manifest(kept).tables


def test_the_next_row_gets_a_key_of_its_own(
    fallow: Yard, settings: LazySettings, tmp_path: Path
) -> None:
    said("backup", str(tmp_path / "a"))
    empty(Path(settings.MEDIA_ROOT))
    said("restore", str(tmp_path / "a"))
    before = set(Horse.objects.values_list("pk", flat=True))
    horse = Horse.objects.create(
        yard=Yard.objects.get(), key="new", name="New", sex="filly",
        foaled="2024", horse_type="pony",
    )  # fmt: skip
    assert horse.pk > max(before)


def test_nobody_is_signed_in_by_a_backup(fallow: Yard, tmp_path: Path) -> None:
    said("backup", str(tmp_path / "a"))
    names = {table.name for table in read_manifest(tmp_path / "a").tables}
    assert "sessions.session" not in names
    assert {"fitting.horse", "auth.user", "starting.calendarkey"} <= names
    assert (tmp_path / "a").stat().st_mode & 0o077 == 0
    assert row_file(tmp_path / "a", "auth.user").stat().st_mode & 0o077 == 0


# refused in one line, with nothing changed


def test_a_folder_with_something_in_it_is_left_alone(
    fallow: Yard, tmp_path: Path
) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "mine.txt").write_text("mine")
    with pytest.raises(Error, match="is not empty"):
        said("backup", str(tmp_path / "a"))
    assert [p.name for p in (tmp_path / "a").iterdir()] == ["mine.txt"]


def test_a_yard_is_never_written_over(fallow: Yard, tmp_path: Path) -> None:
    said("backup", str(tmp_path / "a"))
    with pytest.raises(Error, match="The database is not empty"):
        said("restore", str(tmp_path / "a"))


def damage_a_row(kept: Path) -> None:
    path = row_file(kept, "fitting.yard")
    path.write_text(path.read_text("utf-8").replace("Bottom", "Button"), "utf-8")


def lose_a_row(kept: Path) -> None:
    path = row_file(kept, "fitting.tack")
    path.write_text("".join(path.read_text("utf-8").splitlines(True)[1:]), "utf-8")


def lose_a_table(kept: Path) -> None:
    row_file(kept, "fitting.tack").unlink()


def damage_a_photo(kept: Path) -> None:
    next((kept / "photos").rglob("*.jpg")).write_bytes(b"torn")


def change_the_list(kept: Path, **fields: Any) -> None:
    path = kept / "backup.json"
    path.write_text(json.dumps({**json.loads(path.read_text("utf-8")), **fields}))


def lose_the_list(kept: Path) -> None:
    (kept / "backup.json").unlink()


def tear_the_list(kept: Path) -> None:
    (kept / "backup.json").write_text("{")


def come_from_later(kept: Path) -> None:
    told = json.loads((kept / "backup.json").read_text("utf-8"))["migrations"]
    change_the_list(kept, migrations=[*told, ["fitting", "9999_later"]])


def reach_outside(kept: Path) -> None:
    photo = {"path": "../../outside.jpg", "size": 1, "sha256": "0"}
    change_the_list(kept, photos=[photo])


def be_another_kind(kept: Path) -> None:
    change_the_list(kept, version=2)


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        (damage_a_row, "fitting.yard.jsonl is damaged"),
        (lose_a_row, "fitting.tack.jsonl is damaged"),
        (lose_a_table, "fitting.tack.jsonl is missing or damaged"),
        (damage_a_photo, "is missing or damaged"),
        (lose_the_list, "holds no backup: backup.json is not there"),
        (tear_the_list, "is no list of a backup"),
        (come_from_later, "made by a newer version of the site: fitting.9999_later"),
        (reach_outside, "lies outside the folder"),
        (be_another_kind, "of a kind this site does not read"),
    ],
)
def test_a_damaged_backup_changes_nothing(
    fallow: Yard, settings: LazySettings, tmp_path: Path, harm: Any, words: str
) -> None:
    kept = tmp_path / "a"
    said("backup", str(kept))
    empty(Path(settings.MEDIA_ROOT))
    harm(kept)
    with pytest.raises(Error, match=words) as told:
        said("restore", str(kept))
    assert "\n" not in str(told.value)
    assert not Yard.objects.exists()
    assert not Path(settings.MEDIA_ROOT).exists()


def test_another_photo_of_that_name_is_not_written_over(
    fallow: Yard, settings: LazySettings, tmp_path: Path
) -> None:
    said("backup", str(tmp_path / "a"))
    here = Path(Photo.objects.get().image.path)
    call_command("flush", interactive=False, verbosity=0)
    here.write_bytes(b"another")
    with pytest.raises(Error, match="is there already, and another photo"):
        said("restore", str(tmp_path / "a"))
    assert here.read_bytes() == b"another"


def test_a_restore_that_does_not_read_back_equal_is_undone(
    fallow: Yard,
    settings: LazySettings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    said("backup", str(tmp_path / "a"))
    empty(Path(settings.MEDIA_ROOT))
    monkeypatch.setattr("starting.management.database.put_in", lambda model, rows: None)
    with pytest.raises(Error, match="does not read back equal; nothing was restored"):
        said("restore", str(tmp_path / "a"))
    assert not list(Path(settings.MEDIA_ROOT).rglob("*.jpg"))


def test_a_database_without_tables_holds_nothing_to_keep(tmp_path: Path) -> None:
    done = run(tmp_path / "new.sqlite3", "backup", str(tmp_path / "a"))
    assert done.returncode == 1
    assert done.stderr == "Error: The database has no tables yet: nothing to keep.\n"
    assert not (tmp_path / "a").exists()
