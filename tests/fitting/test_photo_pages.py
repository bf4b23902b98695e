"""Photos of a horse: added, seen, corrected, deleted, and asked for again."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client

from fitting.forms.uploads import BoundedUpload
from fitting.models import Horse, WrittenOnce
from fitting.photos import MOST_BYTES
from fitting.reads.today import today_in
from tests.fitting.making_photos import all_files, at, files_of, sent, upload
from tests.make import SIGNED_IN, make_measurement, make_photo, make_picture


@pytest.mark.parametrize("role", ["keeper", "helper"])
def test_a_photo_is_written_in_and_stands_by_its_day(
    signed_in: Any, ash: Horse, role: str
) -> None:
    client = signed_in(role)
    answer = client.post(at("add-photo", ash), sent(ash), follow=True)
    photo = ash.photos.get()
    page = answer.content.decode()
    assert "Written in: a photo." in page
    assert at("small-photo", ash, photo.pk) in page
    assert f'alt="Ash, {photo.on.day} {photo.on:%b %Y}: Near side"' in page
    assert photo.on == today_in(ash.yard)


def test_a_photo_stands_beside_what_was_measured_that_day_alone(
    viewer: Client, ash: Horse
) -> None:
    on = date(2026, 3, 2)
    make_photo(ash, on=on)
    make_photo(ash, on=on - timedelta(days=9))
    make_measurement(ash, on=on, value=1320.8)
    make_measurement(ash, "mouth_width", on=on, value=104.0, struck="slipped")
    make_measurement(ash, "heart_girth", on=on - timedelta(days=1), value=1500.0)
    page = viewer.get(at("photos", ash)).content.decode()
    assert "13.0 hands" in page
    assert page.index("13.0 hands") < page.index("Nothing was measured that day.")
    assert "Mouth width" not in page
    assert "Heart girth" not in page


def test_the_page_without_photos_says_what_will_stand_there(
    keeper: Client, viewer: Client, ash: Horse
) -> None:
    add = at("add-photo", ash)
    assert add in keeper.get(at("photos", ash)).content.decode()
    page = viewer.get(at("photos", ash)).content.decode()
    assert "No photo yet" in page
    assert add not in page


def test_the_body_and_what_was_measured_lead_to_the_photos(
    viewer: Client, ash: Horse
) -> None:
    for name in ("horse", "measured"):
        assert at("photos", ash) in viewer.get(at(name, ash)).content.decode()


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (b"Only a letter", "cannot be read"),
        (make_picture((400, 300))[:-200], "not whole"),
        (b"\x00\x00\x00\x18ftypheic" + b"\x00" * 50, "HEIC"),
        (b"", "This file is empty"),
        (None, "Choose a photo"),
    ],
    ids=["text", "cut", "heic", "empty", "none"],
)
def test_a_refusal_stands_by_the_field_and_loses_nothing(
    keeper: Client, ash: Horse, given: bytes | None, said: str
) -> None:
    before = all_files()
    fields = sent(ash, on="2026-05-01", note="Off side, after rain")
    fields["photo"] = upload(given) if given is not None else ""
    answer = keeper.post(at("add-photo", ash), fields)
    assert answer.status_code == 422
    assert said in answer.context["form"].errors["photo"][0]
    page = answer.content.decode()
    assert 'id="id_photo_error"' in page
    assert "Off side, after rain" in page
    assert "2026-05-01" in page
    assert not ash.photos.exists()
    assert all_files() == before


def test_a_sound_photo_with_a_bad_day_is_asked_for_again(
    keeper: Client, ash: Horse
) -> None:
    before = all_files()
    to_come = today_in(ash.yard) + timedelta(days=3)
    answer = keeper.post(at("add-photo", ash), sent(ash, on=to_come))
    assert answer.status_code == 422
    assert "still to come" in answer.content.decode()
    assert "choose the photo once more" in answer.content.decode()
    assert all_files() == before
    too_early = keeper.post(at("add-photo", ash), sent(ash, on="2019-01-01"))
    assert "she was not foaled yet" in too_early.content.decode()


def test_of_a_file_without_end_no_more_is_taken_and_the_rest_of_the_page_arrives(
    keeper: Client, ash: Horse
) -> None:
    endless = upload(make_picture() + b"\x00" * (MOST_BYTES + 3_000_000))
    answer = keeper.post(at("add-photo", ash), sent(ash, photo=endless, note="Kept"))
    assert answer.status_code == 422
    assert "larger than 20 MB" in answer.content.decode()
    assert "Kept" in answer.content.decode()
    handler = BoundedUpload()
    handler.new_file("photo", "x.jpg", "image/jpeg", None)
    piece = b"\x00" * 65_536
    taken = [handler.receive_data_chunk(piece, 0) for _ in range(1000)]
    kept = sum(len(one) for one in taken if one)
    assert MOST_BYTES < kept <= MOST_BYTES + len(piece)


def test_a_retry_on_poor_signal_saves_one_photo(keeper: Client, ash: Horse) -> None:
    page = keeper.get(at("add-photo", ash))
    token = page.context["form"].fields["token"].initial
    for _ in range(2):
        answer = keeper.post(at("add-photo", ash), sent(ash, token=token))
        assert answer.status_code == 302
    assert ash.photos.count() == 1
    assert WrittenOnce.objects.filter(token=token).count() == 1


def test_the_day_and_the_note_are_corrected_and_the_picture_stays(
    helper: Client, ash: Horse
) -> None:
    photo = make_photo(ash)
    names = files_of(photo)
    page = helper.get(at("edit-photo", ash, photo.pk)).content.decode()
    assert 'type="file"' not in page
    assert at("delete-photo", ash, photo.pk) not in page  # the keeper's alone
    fields = {"on": "2026-05-01", "note": "The other side"}
    assert helper.post(at("edit-photo", ash, photo.pk), fields).status_code == 302
    photo.refresh_from_db()
    assert (photo.on, photo.note) == (date(2026, 5, 1), "The other side")
    assert files_of(photo) == names


def test_two_who_correct_one_photo_lose_nothing(keeper: Client, ash: Horse) -> None:
    photo = make_photo(ash, note="Square")
    address = at("edit-photo", ash, photo.pk)
    seen = keeper.get(address).context["form"].fields["seen_revision"].initial
    theirs = {"on": photo.on, "note": "Theirs", "seen_revision": seen}
    assert keeper.post(address, theirs).status_code == 302
    answer = keeper.post(address, {**theirs, "note": "Mine"})
    assert answer.status_code == 422
    assert "Theirs" in answer.content.decode()
    assert "Mine" in answer.content.decode()


def test_only_the_keeper_deletes_and_is_asked_first(
    keeper: Client, helper: Client, ash: Horse
) -> None:
    photo = make_photo(ash, note="Square")
    address = at("delete-photo", ash, photo.pk)
    assert helper.post(address).status_code == 403
    assert "cannot be taken back" in keeper.get(address).content.decode()
    assert ash.photos.exists()
    keeper.post(address)
    assert not ash.photos.exists()


@pytest.mark.parametrize("how_many", [1, 7])
def test_the_page_asks_as_often_for_one_photo_as_for_seven(
    keeper: Client, ash: Horse, how_many: int, django_assert_num_queries: Any
) -> None:
    for day in range(how_many):
        on = date(2026, 5, 1) + timedelta(days=day)
        make_photo(ash, on=on)
        make_measurement(ash, on=on)
    keeper.get(at("photos", ash))  # plans the yard
    with django_assert_num_queries(SIGNED_IN + 3):  # horse, photos, sizes
        keeper.get(at("photos", ash))
