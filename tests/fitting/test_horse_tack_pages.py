"""Does it fit? all tack on one horse, as its page tells it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import FirstWorn, Horse, Tack, TackSet, TryOn, Yard
from starting.writes.replan import ensure_planned, replan
from tests.fitting.making_tried import fits_page, today, try_on
from tests.make import make_bit, make_horse, make_measurement


def test_a_horse_without_tack_is_told_the_first_act(
    keeper: Client, yard: Yard, tansy: Horse
) -> None:
    Yard.objects.filter(pk=yard.pk).update(planning_since=timezone.now())
    assert "Not reckoned yet" in fits_page(keeper, tansy)  # others are at it
    Yard.objects.filter(pk=yard.pk).update(planning_since=None)
    page = fits_page(keeper, tansy)
    assert "No tack on the pegs" in page
    assert "Put up an item" in page
    assert "Nothing written of what she has worn." in page


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
