"""The hole of a strap in a try-on: tapped where its holes are known, else typed."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Tack, TryOn, Yard
from tests.make import make_horse


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy")


def bridle_with(yard: Yard, holes: int | None) -> Tack:
    row = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    row.parts.create(part="noseband", longest_mm=660, holes=holes)
    return row


def at(horse: Horse, item: Tack) -> str:
    page = reverse("fitting:try-on", args=[horse.yard.slug, horse.key])
    return f"{page}?item={item.key}"


def sent(hole: str) -> dict[str, str]:
    on = timezone.localdate().isoformat()
    seen = {"seen-noseband": "sits_right", "hole-noseband": hole}
    return {"how": "worn", "on": on, "token": f"once-{hole}", **seen}


def boxes(client: Client, address: str) -> list[str]:
    """Return the boxes of the noseband's hole."""
    page = unescape(client.get(address).content.decode())
    return re.findall(r'<(?:input|select)[^>]*name="hole-noseband"[^>]*>', page)


@pytest.mark.parametrize("holes", [1, 7, 12])
def test_a_few_known_holes_are_tapped(helper: Client, tansy: Horse, holes: int) -> None:
    found = boxes(helper, at(tansy, bridle_with(tansy.yard, holes)))
    assert len(found) == holes + 1  # and not noted
    assert all('type="radio"' in one for one in found)


@pytest.mark.parametrize(("holes", "most"), [(None, 40), (13, 13), (24, 24)])
def test_unknown_or_many_holes_are_a_number_to_type(
    helper: Client, tansy: Horse, holes: int | None, most: int
) -> None:
    item = bridle_with(tansy.yard, holes)
    (box,) = boxes(helper, at(tansy, item))
    assert 'type="number"' in box
    assert 'min="1"' in box
    assert f'max="{most}"' in box
    page = helper.get(at(tansy, item)).content.decode()
    assert "Counted from the tip: hole 1 is the longest." in page


@pytest.mark.parametrize(
    ("holes", "typed", "said"),
    [
        (None, "41", "At most hole 40."),
        (13, "14", "It has 13 holes."),
        (None, "0", "Holes are counted from 1."),
        (None, "third", "Holes are counted: a whole number"),
    ],
)
def test_a_hole_that_is_none_is_refused_and_nothing_is_lost(
    helper: Client, tansy: Horse, holes: int | None, typed: str, said: str
) -> None:
    page = helper.post(at(tansy, bridle_with(tansy.yard, holes)), sent(typed))
    assert page.status_code == 422
    assert said in page.content.decode()
    assert f'value="{typed}"' in page.content.decode()
    assert not TryOn.objects.exists()


def test_a_typed_hole_is_kept_and_stands_there_when_it_is_corrected(
    helper: Client, tansy: Horse
) -> None:
    helper.post(at(tansy, bridle_with(tansy.yard, None)), sent("5"))
    row = TryOn.objects.get()
    assert row.parts.get().hole == 5
    parts = [tansy.yard.slug, tansy.key, row.pk]
    edit = reverse("fitting:edit-tryon", args=parts)
    (box,) = boxes(helper, edit)
    assert 'value="5"' in box
    helper.post(edit, sent("") | {"seen_revision": str(row.revision)})
    assert row.parts.get().hole is None  # not noted


def test_a_hole_of_more_than_it_has_now_still_stands_when_it_is_corrected(
    helper: Client, tansy: Horse
) -> None:
    item = bridle_with(tansy.yard, 13)
    row = TryOn.objects.create(
        horse=tansy, tack=item, on=timezone.localdate(), how="worn"
    )
    row.parts.create(part="noseband", seen="sits_right", hole=15)
    edit = reverse("fitting:edit-tryon", args=[tansy.yard.slug, tansy.key, row.pk])
    said = sent("15") | {"seen_revision": str(row.revision)}
    assert helper.post(edit, said).status_code == 302
    assert row.parts.get().hole == 15
