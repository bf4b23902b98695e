"""A try-on for two people: gap, stop sign, photo, and what it taught."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Tack, TackSet, TryOn, Yard
from tests.fitting.making_tried import (
    at,
    best_bridle,
    measured_filly,
    plan,
    post,
    read,
    sent,
    today,
)
from tests.make import make_measurement, make_picture


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return measured_filly(yard)


@pytest.fixture
def made_up(yard: Yard, bit: Tack) -> TackSet:
    return best_bridle(yard, bit)


# The form


def test_parts_stand_as_one_looks_and_holes_on_the_reckoned_one(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet
) -> None:
    plan(yard)
    page = read(helper, at("try-on", tansy, query="set=best"))
    places = [
        page.index(f'name="seen-{part}"')
        for part in ("mouthpiece", "cheekpieces", "headpiece", "noseband")
    ]
    assert places == sorted(places)
    (hole,) = re.findall(r"(\d) is the hole by arithmetic", page)
    (chosen,) = [
        one
        for one in re.findall(r'<input[^>]*name="hole-cheekpieces"[^>]*>', page)
        if "checked" in one
    ]
    assert f'value="{hole}"' in chosen


def test_the_reckoned_hole_alone_says_nothing_but_another_hole_asks(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet
) -> None:
    plan(yard)
    address = at("try-on", tansy, query="set=best")
    (hole,) = re.findall(r"(\d) is the hole by arithmetic", read(helper, address))
    said = sent(**{"hole-cheekpieces": hole, "seen-mouthpiece": "sits_right"})
    other = str(int(hole) + 1)
    page = post(helper, address, {**said, "hole-cheekpieces": other}, 422)
    assert f"What was seen on hole {other}?" in page
    post(helper, address, said)
    assert list(TryOn.objects.get().parts.values_list("part", flat=True)) == [
        "mouthpiece"
    ]


def test_a_gap_in_fingers_is_kept_as_said_and_a_tight_one_is_no(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet,
    django_capture_on_commit_callbacks: Any,
) -> None:  # fmt: skip
    make_measurement(tansy, "nose_round", value=560, method="tape")
    address = at("try-on", tansy, query="set=best")
    said = {"seen-noseband": "sits_right", "gap-noseband": "5 fingers"}
    assert "5 fingers are a hand" in post(helper, address, sent(**said), 422)
    said["gap-noseband"] = "1 finger"
    with django_capture_on_commit_callbacks(execute=True):
        post(helper, address, sent(**said))
    part = TryOn.objects.get().parts.get()
    assert (part.gap_mm, part.gap_written) == (10.0, "1 finger")
    page = read(helper, at("horse-tack", tansy))
    assert "1 finger, taken as 10 mm clear at the front" in page
    assert "under ⅝\u2009in (17 mm) it is too tight" in page
    only_gap = sent(**{"gap-noseband": "18 mm"}, token="two")
    assert "What was seen with 18 mm clear?" in post(helper, address, only_gap, 422)


def test_a_stop_sign_that_rings_the_vet_stands_first_and_leads_to_off_work(
    helper: Client, keeper: Client, tansy: Horse, bit: Tack
) -> None:
    address = at("try-on", tansy, query=f"item={bit.key}")
    page = post(helper, address, sent(stop_sign="Blood on the lip."), 422)
    assert "Say what the stop sign means." in page
    assert 'value="Blood on the lip."' in page
    page = post(helper, address, sent(stop_sign="Blood on the lip.", stop="ring_vet"))
    assert "Ring the vet: nothing is put on Tansy before the vet has said so" in page
    for client in (helper, keeper):
        page = read(client, at("horse-tack", tansy))
        assert "Stop sign: ring the vet" in page
        assert page.count("Blood on the lip.") == 2
        care = reverse("starting:care", args=[tansy.yard.slug, tansy.key])
        assert f'<a href="{care}">See off work</a>' in page
    TryOn.objects.update(on=today() - timedelta(days=9))
    assert read(keeper, at("horse-tack", tansy)).count("Blood on the lip.") == 1


def test_a_photo_stands_among_those_of_the_day_and_a_bad_one_loses_nothing(
    helper: Client, tansy: Horse, bit: Tack, settings: Any, tmp_path: Any
) -> None:
    settings.MEDIA_ROOT = tmp_path
    address = at("try-on", tansy, query=f"item={bit.key}")
    said = sent(answer="good", who="Jo at her head")
    bad = SimpleUploadedFile("p.jpg", b"no picture")
    page = post(helper, address, {**said, "photo": bad}, 422)
    assert 'value="Jo at her head"' in page
    assert not TryOn.objects.exists()
    good = SimpleUploadedFile("p.jpg", make_picture())
    page = post(helper, address, {**said, "who": "x" * 61, "photo": good}, 422)
    assert "choose the photo once more" in page
    assert not tansy.photos.exists()
    good = SimpleUploadedFile("p.jpg", make_picture())
    page = post(helper, address, {**said, "photo": good})
    photo = tansy.photos.get()
    assert (photo.on, photo.note) == (today(), "Small eggbutt, put on")
    anchor = f"{at('photos', tansy)}#d{today():%Y-%m-%d}"
    assert f'href="{anchor}"' in page
    assert f'id="d{today():%Y-%m-%d}"' in read(helper, at("photos", tansy))


# What it taught


@pytest.mark.django_db(transaction=True)
def test_after_writing_in_it_says_what_was_taught_and_what_stands(
    helper: Client, yard: Yard, tansy: Horse, bit: Tack
) -> None:
    tansy.measurements.filter(measure="mouth_width").delete()
    plan(yard)
    address = at("try-on", tansy, query=f"item={bit.key}")
    page = post(helper, address, sent(**{"seen-mouthpiece": "too_short"}))
    assert "So: mouth width at least 4½" in page  # 118 mm is good on 108 to 115 mm
    assert "Small eggbutt: no" in page
    assert "nothing could be said before" in page
    assert "does not agree with the tape" not in page
    make_measurement(tansy, "mouth_width", value=100, method="dowel", on=today())
    page = post(helper, address, sent(**{"seen-mouthpiece": "too_short"}, token="b"))
    assert "That does not agree with the tape. Measured that day." in page
