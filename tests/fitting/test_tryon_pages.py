"""Does it fit? and trying on: what a person sees, and what is kept of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import FirstWorn, Horse, Part, SetPart, Tack, TackSet, TryOn, Yard
from starting.writes.replan import ensure_planned, replan
from tests.make import make_bit, make_horse, make_measurement, make_yard


def today() -> date:
    return timezone.localdate()


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy")


@pytest.fixture
def bit(yard: Yard) -> Tack:
    return make_bit(yard, name="Small eggbutt", length_mm=118)


@pytest.fixture
def bridle(yard: Yard) -> Tack:
    row = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    Part.objects.create(
        tack=row, part="headpiece", length_mm=540, holes=7, spacing_mm=16
    )
    Part.objects.create(tack=row, part="cheekpieces", length_mm=200, holes=7)
    Part.objects.create(tack=row, part="browband", length_mm=380)
    return row


@pytest.fixture
def made_up(yard: Yard, bridle: Tack, bit: Tack) -> TackSet:
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    for slot, item in (
        ("headpiece", bridle),
        ("cheekpieces", bridle),
        ("browband", bridle),
        ("bit", bit),
    ):
        SetPart.objects.create(made_up=row, slot=slot, tack=item)
    return row


def fits_page(client: Client, horse: Horse) -> str:
    address = reverse("fitting:horse-tack", args=[horse.yard.slug, horse.key])
    answer = client.get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def try_on(horse: Horse, query: str = "") -> str:
    address = reverse("fitting:try-on", args=[horse.yard.slug, horse.key])
    return f"{address}?{query}" if query else address


def edit(row: TryOn, name: str = "fitting:edit-tryon") -> str:
    return reverse(name, args=[row.horse.yard.slug, row.horse.key, row.pk])


def sent(**said: Any) -> dict[str, Any]:
    return {"how": "worn", "on": today().isoformat(), "token": "once", **said}


# Does it fit?


def test_a_horse_without_tack_is_told_the_first_act(
    keeper: Client, yard: Yard, tansy: Horse
) -> None:
    Yard.objects.filter(pk=yard.pk).update(planning_since=timezone.now())
    assert "Not reckoned yet" in fits_page(keeper, tansy)  # others are at it
    Yard.objects.filter(pk=yard.pk).update(planning_since=None)
    page = fits_page(keeper, tansy)
    assert "No tack on the pegs" in page
    assert "Put up an item" in page
    assert "Nothing worn yet." in page


def test_sets_come_first_then_each_kind_with_answer_hole_and_reason(
    keeper: Client, yard: Yard, tansy: Horse, made_up: TackSet
) -> None:
    make_measurement(tansy, "mouth_width", value=112, method="dowel")
    make_measurement(tansy, "head_length", value=930, method="tape")
    ensure_planned(yard)
    page = fits_page(keeper, tansy)
    assert page.index("Made-up sets") < page.index(">Bits<") < page.index(">Bridles<")
    assert "right for an eggbutt" in page
    assert "to let down" in page
    assert '<span class="hole">' in page
    assert "Headpiece: " not in page  # its hole is told on the cheekpieces
    assert "Where the numbers come from" in page
    assert "Have the mouth looked at by a vet" in page


def test_what_cannot_be_said_leads_to_the_measure_or_the_try_on(
    keeper: Client, viewer: Client, yard: Yard, tansy: Horse, bit: Tack
) -> None:
    ensure_planned(yard)
    page = fits_page(keeper, tansy)
    measure = reverse("fitting:measure", args=[yard.slug, tansy.key])
    assert f'href="{measure}"' in page
    assert "Measure mouth width" in page
    assert f'href="{try_on(tansy, "item=" + bit.key)}"' in page
    assert "can&#x27;t say" in page or "can't say" in page
    assert measure not in fits_page(viewer, tansy)


def test_an_item_without_its_size_asks_to_have_it_written_down(
    keeper: Client, yard: Yard, tansy: Horse, bit: Tack
) -> None:
    bit.parts.update(length_mm=None)
    ensure_planned(yard)
    page = fits_page(keeper, tansy)
    assert "Write down length of the bit, cheek to cheek" in page


def test_does_it_fit_takes_as_many_queries_for_much_as_for_little(
    keeper: Client,
    yard: Yard,
    tansy: Horse,
    made_up: TackSet,
    django_assert_num_queries: Any,
) -> None:
    address = reverse("fitting:horse-tack", args=[yard.slug, tansy.key])
    grow(yard, tansy, horses=0, bits=1)
    with django_assert_num_queries(18):
        keeper.get(address)
    grow(yard, tansy, horses=5, bits=10)
    with django_assert_num_queries(18):
        keeper.get(address)


def grow(yard: Yard, horse: Horse, *, horses: int, bits: int) -> None:
    for _ in range(horses):
        make_horse(yard)
    for _ in range(bits):
        bit = make_bit(yard)
        row = TryOn.objects.create(horse=horse, tack=bit, on=today(), how="worn")
        row.parts.create(part="mouthpiece", seen="sits_right")
        FirstWorn.objects.create(horse=horse, kind="bit", tack=bit, on=today())
    Yard.objects.filter(pk=yard.pk).update(version=yard.version + 1)
    yard.refresh_from_db()
    ensure_planned(yard)


# Trying on


def test_what_is_tried_on_is_chosen_first(
    helper: Client, tansy: Horse, made_up: TackSet
) -> None:
    page = helper.get(try_on(tansy)).content.decode()
    assert 'href="?set=best"' in page
    assert 'href="?item=brown"' in page


def test_nothing_to_try_says_so(keeper: Client, tansy: Horse) -> None:
    assert "No tack on the pegs" in keeper.get(try_on(tansy)).content.decode()


def test_the_form_asks_part_by_part_and_for_the_holes_there_are(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet
) -> None:
    ensure_planned(yard)
    page = helper.get(try_on(tansy, "set=best")).content.decode()
    for part in ("headpiece", "cheekpieces", "browband", "mouthpiece"):
        assert f'name="seen-{part}"' in page
    assert page.count('name="hole-cheekpieces"') == 8  # seven, and not noted
    assert 'name="hole-browband"' not in page
    assert 'name="hole-headpiece"' not in page
    assert "not looked at" in page
    assert "Stop if she minds it" in page
    assert "Have the mouth looked at by a vet" in page
    assert f'value="{today().isoformat()}"' in page


def test_a_bit_that_sat_right_is_written_in_and_says_what_that_means(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right"}, who="Jo", note="Quiet.")
    done = helper.post(try_on(tansy, f"item={bit.key}"), said, follow=True)
    row = TryOn.objects.get()
    assert (row.tack, row.how, row.who, row.note) == (bit, "worn", "Jo", "Quiet.")
    assert list(row.parts.values_list("part", "seen")) == [("mouthpiece", "sits_right")]
    page = done.content.decode()
    assert (
        "Small eggbutt put on Tansy: sits right; good until growth passes it." in page
    )
    assert "Mouthpiece: sits right." in page


@pytest.mark.parametrize(
    ("said", "means"),
    [
        ({"seen-mouthpiece": "too_long"}, "too long. That outranks the arithmetic: no"),
        ({"seen-mouthpiece": "rubs"}, "rubs; only just, at best"),
        ({"answer": "no"}, "no on the whole. That outranks the arithmetic: no"),
        ({"answer": "watch"}, "only just on the whole; only just, at best"),
        (
            {"seen-mouthpiece": "sits_right", "how": "held"},
            "held against Tansy: sits right. A hint",
        ),
    ],
)
def test_each_kind_of_answer_says_what_it_means(
    helper: Client, tansy: Horse, bit: Tack, said: dict[str, str], means: str
) -> None:
    address = try_on(tansy, f"item={bit.key}")
    page = helper.post(address, {**sent(), **said}, follow=True).content.decode()
    assert means in page


def test_a_set_keeps_a_row_a_part_with_its_hole(
    helper: Client, tansy: Horse, made_up: TackSet
) -> None:
    said = {"seen-cheekpieces": "sits_right", "hole-cheekpieces": "4"}
    said |= {"seen-browband": "too_short"}
    done = helper.post(try_on(tansy, "set=best"), sent(**said), follow=True)
    row = TryOn.objects.get()
    assert (row.tack, row.made_up) == (None, made_up)
    assert list(row.parts.values_list("part", "seen", "hole")) == [
        ("cheekpieces", "sits_right", 4),
        ("browband", "too_short", None),
    ]
    assert "cheekpieces sits right, browband too short" in done.content.decode()


def test_a_try_on_put_on_changes_the_answer_at_once(
    helper: Client,
    yard: Yard,
    tansy: Horse,
    bit: Tack,
    django_capture_on_commit_callbacks: Any,
) -> None:
    make_measurement(tansy, "mouth_width", value=112, method="dowel")
    ensure_planned(yard)
    assert "right for an eggbutt" in fits_page(helper, tansy)
    with django_capture_on_commit_callbacks(execute=True):
        said = sent(**{"seen-mouthpiece": "too_short"})
        helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert "it was too short" in fits_page(helper, tansy)


def test_the_first_time_a_kind_is_put_on_is_noted_once(
    helper: Client, tansy: Horse, made_up: TackSet, bit: Tack
) -> None:
    assert "How the first" in helper.get(try_on(tansy, "set=best")).content.decode()
    said = {"seen-cheekpieces": "sits_right", "how_it_went": "Minded her ears."}
    helper.post(try_on(tansy, "set=best"), sent(**said))
    kinds = dict(tansy.first_worn.values_list("kind", "tack__name"))
    assert kinds == {"bridle": "Brown", "bit": "Small eggbutt"}
    assert tansy.first_worn.first().how_it_went == "Minded her ears."  # type: ignore[union-attr]
    page = helper.get(try_on(tansy, "set=best")).content.decode()
    assert "How the first" not in page
    later = sent(**{"seen-mouthpiece": "rubs"}, token="later")
    helper.post(try_on(tansy, f"item={bit.key}"), later)
    assert tansy.first_worn.count() == 2


def test_held_against_is_not_worn(helper: Client, tansy: Horse, bit: Tack) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right", "how": "held"})
    helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert TryOn.objects.count() == 1
    assert not FirstWorn.objects.exists()


def test_a_retry_on_poor_signal_tries_on_once(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right"})
    first = helper.post(try_on(tansy, f"item={bit.key}"), said)
    again = helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert again.headers["Location"] == first.headers["Location"]
    assert TryOn.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({}, "Nothing is said yet"),
        ({"how": "", "answer": "good"}, "This field is required"),
        ({"on": "2999-01-01", "answer": "good"}, "That day is still to come."),
        ({"on": "2001-01-01", "answer": "good"}, "On that day she was not foaled yet."),
        ({"seen-cheekpieces": "sits", "answer": "no"}, "Select a valid choice"),
        ({"hole-cheekpieces": "3"}, "What was seen on hole 3?"),
        (
            {"seen-cheekpieces": "sits_right", "hole-cheekpieces": "9"},
            "Select a valid choice",
        ),
        ({"answer": "good", "note": "x" * 301}, "at most 300 characters"),
    ],
)
def test_a_refused_try_on_keeps_what_was_said(
    helper: Client, tansy: Horse, bridle: Tack, said: dict[str, str], why: str
) -> None:
    address = try_on(tansy, f"item={bridle.key}")
    page = helper.post(address, {**sent(who="Jo at her head"), **said})
    assert page.status_code == 422
    assert why in page.content.decode()
    assert 'value="Jo at her head"' in page.content.decode()
    assert not TryOn.objects.exists()


def test_something_without_parts_is_answered_on_the_whole(
    helper: Client, yard: Yard, tansy: Horse
) -> None:
    rug = Tack.objects.create(yard=yard, key="rug", name="Rain rug", kind="rug")
    page = helper.get(try_on(tansy, "item=rug")).content.decode()
    assert "Length from chest to tail" in page
    helper.post(try_on(tansy, f"item={rug.key}"), sent(answer="good"))
    assert TryOn.objects.get().answer == "good"


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


# First worn


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


# Who may


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


def test_an_answer_by_a_size_measured_too_long_ago_says_so(
    keeper: Client, yard: Yard, tansy: Horse, bit: Tack
) -> None:
    said = "By a size measured 300 days ago, measure again"
    old = make_measurement(
        tansy, "mouth_width", today() - timedelta(days=300), 112, method="dowel"
    )
    ensure_planned(yard)
    assert said in fits_page(keeper, tansy)
    old.delete()
    make_measurement(tansy, "mouth_width", today(), 112, method="dowel")
    ensure_planned(yard)
    replan(yard, today())
    assert said not in fits_page(keeper, tansy)
