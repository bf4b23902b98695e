"""Who may see the file of a photo, and with what it goes."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.db import transaction
from django.test import Client

from fitting.models import Horse, Photo, WrittenOnce
from fitting.photos import read_photo
from fitting.writes import photos as writes
from tests.fitting.making_photos import all_files, at, files_of, sent, upload
from tests.make import make_horse, make_photo, make_picture, make_yard


@pytest.mark.parametrize("name", ["large-photo", "small-photo"])
def test_members_see_a_picture_that_nobody_else_may_keep(
    viewer: Client, ash: Horse, name: str
) -> None:
    photo = make_photo(ash)
    answer = viewer.get(at(name, ash, photo.pk))
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    said = answer.headers["Cache-Control"]
    assert "private" in said
    assert "public" not in said
    assert answer.content.startswith(b"\xff\xd8\xff")
    assert Path(photo.image.name or "").name not in str(answer.headers)


@pytest.mark.parametrize("name", ["large-photo", "small-photo", "edit-photo"])
def test_a_stranger_finds_no_picture(
    stranger: Client, keeper: Client, ash: Horse, name: str
) -> None:
    photo = make_photo(ash)
    assert stranger.get(at(name, ash, photo.pk)).status_code == 404
    assert Client().get(at(name, ash, photo.pk)).status_code == 302  # to sign in
    elsewhere = make_photo(make_horse(make_yard()))
    assert keeper.get(at(name, ash, elsewhere.pk)).status_code == 404
    other = make_photo(make_horse(ash.yard))
    assert keeper.get(at(name, ash, other.pk)).status_code == 404


def test_no_address_serves_the_folder_of_the_photos(keeper: Client, ash: Horse) -> None:
    photo = make_photo(ash)
    for start in ("/", "/static/", "/media/", "/photos/", f"/{ash.yard.slug}/"):
        assert keeper.get(f"{start}{photo.image.name}").status_code == 404


def test_the_name_of_a_file_tells_nothing_and_cannot_be_guessed(
    keeper: Client, ash: Horse
) -> None:
    for _ in range(2):
        given = upload(make_picture(), "../../ash.php")
        keeper.post(at("add-photo", ash), sent(ash, photo=given))
    first, second = ash.photos.all()
    assert first.image.name != second.image.name
    root = Path(settings.MEDIA_ROOT)
    for path in (*files_of(first), *files_of(second)):
        assert path.is_relative_to(root)
        assert path.suffix == ".jpg"
        assert len(path.stem.removesuffix("-small")) >= 32
        assert "ash" not in path.stem.lower() or len(path.stem) >= 32
        assert path.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("what", ["photo", "horse", "yard"])
def test_the_files_go_with_the_photo_the_horse_or_the_yard(
    ash: Horse, what: str, django_capture_on_commit_callbacks: Any
) -> None:
    photo, other = make_photo(ash), make_photo(make_horse(make_yard()))
    with django_capture_on_commit_callbacks(execute=True):
        {"photo": photo, "horse": ash, "yard": ash.yard}[what].delete()
        assert all(path.exists() for path in files_of(photo))  # not before the commit
    assert not any(path.exists() for path in files_of(photo))
    assert all(path.exists() for path in files_of(other))


@pytest.mark.django_db(transaction=True)
def test_a_deletion_that_is_undone_leaves_the_files() -> None:
    photo = make_photo(make_horse(make_yard(), plan=False))
    with transaction.atomic():
        writes.delete_photo(photo)
        transaction.set_rollback(True)
    assert Photo.objects.filter(image=photo.image.name).exists()
    assert all(path.exists() for path in files_of(photo))


def test_a_photo_that_is_not_saved_leaves_no_files(ash: Horse) -> None:
    before = all_files()
    WrittenOnce.objects.create(yard=ash.yard, token="twice")
    photo = Photo(horse=ash, on=date(2026, 5, 1))
    with pytest.raises(Exception, match=r"UNIQUE|unique"), transaction.atomic():
        writes.add_photo(photo, read_photo(make_picture()), "twice", "")
    assert all_files() == before


def test_a_photo_whose_file_is_lost_is_not_there(keeper: Client, ash: Horse) -> None:
    photo = make_photo(ash)
    for path in files_of(photo):
        path.unlink()
    assert keeper.get(at("large-photo", ash, photo.pk)).status_code == 404
    assert keeper.get(at("photos", ash)).status_code == 200
