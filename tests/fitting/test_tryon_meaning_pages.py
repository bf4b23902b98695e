"""A try-on for two people: gap, stop sign, photo; what it taught; struck out; worn."""

from __future__ import annotations

import re
from datetime import date, timedelta
from html import unescape
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import FirstWorn, Horse, Part, SetPart, Tack, TackSet, TryOn, Yard
from fitting.reads.growth import tryons_of
from starting.models import Session, SessionWorn
from starting.writes import replan
from tests.make import make_bit, make_horse, make_measurement, make_picture


def today() -> date:
    return timezone.localdate()


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse, "mouth_width", value=112, method="dowel")
    make_measurement(horse, "head_length", value=930, method="tape")
    return horse


@pytest.fixture
def bit(yard: Yard) -> Tack:
    return make_bit(yard, name="Small eggbutt", length_mm=118)


@pytest.fixture
def made_up(yard: Yard, bit: Tack) -> TackSet:
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    Part.objects.create(
        tack=bridle, part="headpiece", length_mm=540, holes=7, spacing_mm=16
    )
    Part.objects.create(tack=bridle, part="cheekpieces", length_mm=200, holes=7)
    Part.objects.create(tack=bridle, part="noseband", holes=14)
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    for slot in ("noseband", "headpiece", "cheekpieces"):
        SetPart.objects.create(made_up=row, slot=slot, tack=bridle)
    SetPart.objects.create(made_up=row, slot="bit", tack=bit)
    return row


def plan(yard: Yard) -> None:
    replan(yard, today())


def at(name: str, horse: Horse, *args: Any, query: str = "") -> str:
    address = reverse(f"fitting:{name}", args=[horse.yard.slug, horse.key, *args])
    return f"{address}?{query}" if query else address


def read(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return unescape(answer.content.decode())


def sent(**said: Any) -> dict[str, Any]:
    return {"how": "worn", "on": today().isoformat(), "token": "once", **said}


def post(client: Client, address: str, said: dict[str, Any], status: int = 200) -> str:
    answer = client.post(address, said, follow=True)
    assert answer.status_code == status
    return unescape(answer.content.decode())


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
    assert "under 17 it is too tight" in page
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


@pytest.fixture
def apart(yard: Yard, tansy: Horse, bit: Tack) -> TryOn:
    """A bit that the tape says is right, and that somebody saw too short."""
    make_measurement(tansy, "mouth_width", value=100, method="dowel", on=today())
    row = TryOn.objects.create(horse=tansy, tack=bit, on=today(), how="worn")
    row.parts.create(part="mouthpiece", seen="too_short")
    plan(yard)
    return row


def test_a_contradiction_is_shown_with_three_answers_on_three_pages(
    helper: Client, viewer: Client, tansy: Horse, apart: TryOn
) -> None:
    first_page = reverse("starting:today", args=[tansy.yard.slug])
    again = at("try-on", tansy, query="again=Small%20eggbutt")
    for address in (at("horse-tack", tansy), at("horse", tansy), first_page):
        page = read(helper, address)
        assert "Try-on and tape do not agree: mouth width" in page
        assert "mouthpiece was too short" in page
        assert "By what was measured, mouth width was" in page
        assert f'href="{at("measure", tansy, query="measure=mouth_width")}"' in page
        assert f'href="{again}"' in page
        assert f'href="{at("strike-tryon", tansy, apart.pk)}"' in page
        told = read(viewer, address)
        assert "Try-on and tape do not agree" in told
        assert "strike/" not in told
    assert "Small eggbutt, on Tansy" in read(helper, again)


def test_a_contradiction_is_told_once_on_the_tack_page_in_the_yard_s_units(
    helper: Client, yard: Yard, tansy: Horse, bit: Tack, apart: TryOn
) -> None:
    made = TackSet.objects.create(yard=yard, key="made", name="First bridle")
    made.parts.create(slot="bit", tack=bit)
    plan(yard)
    page = read(helper, at("horse-tack", tansy))
    assert page.count("Try-on and tape do not agree:") == 1
    assert page.count("By what was measured, mouth width was") == 1
    assert "by what was measured (mouth width)" not in page
    assert page.count('href="#apart">Try-on and tape do not agree.') == 2
    on_bit = at("item-on", tansy, bit.key)
    assert "by what was measured (mouth width) it was not" in read(helper, on_bit)


def test_a_saddle_that_disagrees_by_its_own_rule_is_asked_as_well(
    helper: Client, yard: Yard, tansy: Horse
) -> None:
    saddle = Tack.objects.create(yard=yard, key="gp", name="Old saddle", kind="saddle")
    Part.objects.create(tack=saddle, part="panel", length_mm=460)
    make_measurement(tansy, "back_length", value=400, method="tape", on=today())
    row = TryOn.objects.create(horse=tansy, tack=saddle, on=today(), how="worn")
    row.parts.create(part="panel", seen="sits_right")
    plan(yard)
    page = read(helper, at("horse-tack", tansy))
    assert "Try-on and tape do not agree" in page
    assert f'href="{at("strike-tryon", tansy, row.pk)}"' in page
    assert f'href="{at("try-on", tansy, query="again=Old%20saddle")}"' in page


def test_what_is_struck_out_stays_and_counts_for_nothing_until_it_counts_again(
    helper: Client, tansy: Horse, apart: TryOn, django_capture_on_commit_callbacks: Any
) -> None:
    address = at("strike-tryon", tansy, apart.pk)
    said = {"struck": "", "token": "a", "seen_revision": str(apart.revision)}
    assert "Say in a few words why" in post(helper, address, said, 422)
    with django_capture_on_commit_callbacks(execute=True):
        helper.post(address, {**said, "struck": "It was the other bit."})
    page = read(helper, at("horse-tack", tansy))
    assert "Counts for nothing: It was the other bit." in page
    assert "do not agree" not in page
    assert "it was too short" not in page
    assert tryons_of(tansy) == ()
    apart.refresh_from_db()
    said = {"struck": "", "token": "b", "seen_revision": str(apart.revision)}
    with django_capture_on_commit_callbacks(execute=True):
        helper.post(address, said)
    assert "do not agree" in read(helper, at("horse-tack", tansy))
    assert len(tryons_of(tansy)) == 1


def test_two_people_striking_one_try_on_out_lose_nothing(
    helper: Client, tansy: Horse, apart: TryOn
) -> None:
    stale = str(apart.revision)
    apart.save()
    said = {"struck": "Mine", "token": "a", "seen_revision": stale}
    page = post(helper, at("strike-tryon", tansy, apart.pk), said, 422)
    assert "Somebody changed this meanwhile" in page
    assert 'value="Mine"' in page


# Sessions, and what was worn


@pytest.fixture
def session(tansy: Horse, made_up: TackSet) -> Session:
    on = today() - timedelta(days=3)
    row = Session.objects.create(horse=tansy, on=on, stage="bridle_no_bit", who="Maud")
    SessionWorn.objects.create(
        session=row, made_up=made_up, part="cheekpieces", seen="sits_right", hole=4
    )
    return row


def test_a_session_that_says_how_it_sat_stands_among_the_try_ons(
    helper: Client, tansy: Horse, made_up: TackSet, session: Session
) -> None:
    page = read(helper, at("horse-tack", tansy))
    assert "Cheekpieces: sits right, on hole 4." in page
    assert "Said in a session; it counts as a try-on." in page
    args = [tansy.yard.slug, tansy.key, session.pk]
    assert f'href="{reverse("starting:edit-session", args=args)}"' in page


def test_what_was_worn_and_when_counts_each_day_once_and_leads_to_its_record(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet, session: Session
) -> None:
    row = TryOn.objects.create(
        horse=tansy, made_up=made_up, on=session.on, how="worn", who="Jo"
    )
    row.parts.create(part="noseband", seen="rubs")
    TryOn.objects.create(horse=tansy, made_up=made_up, on=today(), how="held")
    struck = TryOn.objects.create(
        horse=tansy, made_up=made_up, on=today(), how="worn", struck="Not she"
    )
    page = read(helper, at("worn", tansy))
    assert page.count("Worn on that day only, by what is written down.") == 2
    assert "in a try-on. Noseband: rubs. With Jo." in page
    assert at("edit-tryon", tansy, struck.pk) not in page
    brown = Tack.objects.get(name="Brown")
    FirstWorn.objects.create(
        horse=tansy, kind="bridle", tack=brown, on=today(), how_it_went="Quiet."
    )
    page = read(helper, at("worn", tansy))
    assert "Worn on 2 days that are written down" in page
    assert "which is later." in page
    assert read(helper, at("horse-tack", tansy)).count(at("worn", tansy)) > 0


def test_what_a_session_wore_is_no_first_time_any_more(
    helper: Client, tansy: Horse, bit: Tack, session: Session
) -> None:
    address = at("try-on", tansy, query=f"item={bit.key}")
    assert "How the first" not in read(helper, address)
    post(helper, address, sent(answer="good"))
    assert not FirstWorn.objects.exists()
