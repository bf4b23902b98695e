"""A try-on and the tape that disagree, on three pages; a try-on struck out."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Part, Tack, TackSet, TryOn, Yard
from fitting.reads.growth import tryons_of
from tests.fitting.making_tried import at, measured_filly, plan, post, read, today
from tests.make import make_measurement


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return measured_filly(yard)


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
