"""A try-on corrected and deleted, what was first worn, and who may."""

from __future__ import annotations

from datetime import timedelta

from django.test import Client
from django.urls import reverse

from fitting.models import FirstWorn, Horse, Tack, TryOn, Yard
from tests.fitting.making_tried import fits_page, sent, today, try_on
from tests.make import make_bit, make_horse, make_yard


def edit(row: TryOn, name: str = "fitting:edit-tryon") -> str:
    return reverse(name, args=[row.horse.yard.slug, row.horse.key, row.pk])


def test_a_try_on_is_corrected(helper: Client, tansy: Horse, bridle: Tack) -> None:
    row = TryOn.objects.create(horse=tansy, tack=bridle, on=today(), how="worn")
    row.parts.create(part="cheekpieces", seen="too_short", hole=2)
    row.parts.create(part="jowl", seen="rubs")
    page = helper.get(edit(row)).content.decode()
    assert 'value="too_short"' in page
    assert 'name="seen-jowl"' in page  # looked at then, though not a part of it now
    said = {"seen-cheekpieces": "sits_right", "hole-cheekpieces": "3"}
    helper.post(edit(row), sent(**said, seen_revision=str(row.revision)))
    row.refresh_from_db()
    assert list(row.parts.values_list("part", "seen", "hole")) == [
        ("cheekpieces", "sits_right", 3)
    ]


def test_two_people_correcting_one_try_on_lose_nothing(
    keeper: Client, tansy: Horse, bit: Tack
) -> None:
    row = TryOn.objects.create(
        horse=tansy, tack=bit, on=today(), how="worn", answer="good", who="Sam"
    )
    stale = str(row.revision)
    row.save()
    said = sent(answer="no", who="Jo", seen_revision=stale)
    page = keeper.post(edit(row), said)
    assert page.status_code == 422
    assert "Who was there: Sam" in page.content.decode()
    row.refresh_from_db()
    assert row.answer == "good"


def test_a_try_on_is_deleted_after_asking_once(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    row = TryOn.objects.create(horse=tansy, tack=bit, on=today(), how="worn")
    address = edit(row, "fitting:delete-tryon")
    page = helper.get(address).content.decode()
    assert "What was seen goes with it" in page
    assert TryOn.objects.exists()
    helper.post(address)
    assert not TryOn.objects.exists()


def test_what_was_first_worn_is_written_down_corrected_and_deleted(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    slug = tansy.yard.slug
    address = reverse("fitting:add-first-worn", args=[slug, tansy.key])
    on = today() - timedelta(days=9)
    said = {"kind": "bit", "tack": bit.pk, "on": on.isoformat(), "token": "once"}
    for _ in range(2):
        assert helper.post(address, said).status_code == 302
    row = FirstWorn.objects.get()
    assert (row.kind, row.tack, row.on) == ("bit", bit, on)
    assert "Bit: Small eggbutt" in fits_page(helper, tansy)
    args = [slug, tansy.key, row.pk]
    change = reverse("fitting:edit-first-worn", args=args)
    assert f'value="{on.isoformat()}"' in helper.get(change).content.decode()
    helper.post(change, {**said, "token": "two", "how_it_went": "Chewed."})
    row.refresh_from_db()
    assert row.how_it_went == "Chewed."
    helper.post(reverse("fitting:delete-first-worn", args=args))
    assert not FirstWorn.objects.exists()


def test_a_second_first_time_and_an_item_of_another_kind_are_refused(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    FirstWorn.objects.create(horse=tansy, kind="bit", tack=bit, on=today())
    address = reverse("fitting:add-first-worn", args=[tansy.yard.slug, tansy.key])
    said = {"kind": "bit", "tack": bit.pk, "on": today().isoformat()}
    page = helper.post(address, said)
    assert page.status_code == 422
    assert "There is only one first time." in page.content.decode()
    page = helper.post(address, {**said, "kind": "rug"})
    assert "Small eggbutt is a bit." in page.content.decode()
    unnamed = {"kind": "rug", "tack": "", "on": today().isoformat()}
    assert helper.post(address, {**unnamed, "token": "a"}).status_code == 302
    assert helper.post(address, {**unnamed, "token": "b"}).status_code == 422


def test_a_helper_may_use_the_forms_and_a_viewer_not(
    helper: Client,
    viewer: Client,
    stranger: Client,
    client: Client,
    tansy: Horse,
    bit: Tack,
) -> None:
    row = TryOn.objects.create(horse=tansy, tack=bit, on=today(), how="held")
    worn = FirstWorn.objects.create(horse=tansy, kind="bit", tack=bit, on=today())
    of_worn = [tansy.yard.slug, tansy.key, worn.pk]
    addresses = [
        try_on(tansy),
        try_on(tansy, f"item={bit.key}"),
        edit(row),
        edit(row, "fitting:delete-tryon"),
        reverse("fitting:add-first-worn", args=of_worn[:2]),
        reverse("fitting:edit-first-worn", args=of_worn),
        reverse("fitting:delete-first-worn", args=of_worn),
    ]
    for address in addresses:
        assert helper.get(address).status_code == 200, address
        assert viewer.get(address).status_code == 403, address
        assert stranger.get(address).status_code == 404, address
        assert client.get(address).status_code == 302, address


def test_nothing_of_another_yard_or_another_horse_is_reached(
    keeper: Client, yard: Yard, tansy: Horse
) -> None:
    other = make_yard()
    theirs, bit = make_horse(other), make_bit(other)
    row = TryOn.objects.create(horse=theirs, tack=bit, on=today(), how="held")
    assert keeper.get(try_on(tansy, f"item={bit.key}")).status_code == 404
    assert keeper.get(try_on(tansy, "set=none")).status_code == 404
    crossed = reverse("fitting:edit-tryon", args=[yard.slug, tansy.key, row.pk])
    assert keeper.get(crossed).status_code == 404
    lost = reverse("fitting:horse-tack", args=[yard.slug, theirs.key])
    assert keeper.get(lost).status_code == 404
