"""The horses an item or a made-up set fits, drawn on what it covers, on its page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Tack, TackSet, Yard
from starting.writes.replan import ensure_planned
from tests.fitting.making_fits import asks, fit, fitted
from tests.make import make_bit, make_horse, make_measurement


def drawings(page: str) -> list[str]:
    """Return each drawing for a phone."""
    found = page.split('<svg class="reach narrow"')[1:]
    return [one.partition("</svg>")[0] for one in found]


def said(drawn: str) -> str:
    """Return what the first row of a drawing says of its answer and its hole."""
    row = drawn.partition(": ")[2].partition("</desc>")[0]
    return row.partition(": ")[2].partition(":")[0]


def headed(yard: Yard, name: str, head_mm: float = 900.0) -> Horse:
    horse = fitted(yard, name)
    on = timezone.localdate() - timedelta(days=3)
    make_measurement(horse, "head_length", on=on, value=head_mm, method="tape")
    return horse


def make_bridled(yard: Yard) -> TackSet:
    """Make up a bridle with seven holes and a bit."""
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    bridle.parts.create(part="headpiece", length_mm=560, holes=7, spacing_mm=16)
    bridle.parts.create(part="cheekpieces", length_mm=180)
    made = TackSet.objects.create(yard=yard, key="first", name="First bridle")
    bit = make_bit(yard, name="Eggbutt", length_mm=117.0)
    slots = {"headpiece": bridle, "cheekpieces": bridle, "bit": bit}
    for slot, item in slots.items():
        made.parts.create(slot=slot, tack=item)
    return made


def test_an_items_page_draws_the_horses_it_fits(keeper: Client, yard: Yard) -> None:
    fitted(yard, "Tansy")
    fitted(yard, "Giant", mouth_mm=160.0)
    bit = make_bit(yard, name="Eggbutt", length_mm=117.0)
    ensure_planned(yard)
    page = keeper.get(reverse("fitting:tack", args=[yard.slug, bit.key]))
    (drawn,) = drawings(page.content.decode())
    assert "Tansy: good" in drawn
    assert "Giant" not in drawn


def test_a_bridle_is_drawn_on_the_head_though_a_strap_of_it_cannot_be_judged(
    keeper: Client, yard: Yard
) -> None:
    headed(yard, "Tansy")
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    bridle.parts.create(part="headpiece", length_mm=560, holes=7, spacing_mm=16)
    bridle.parts.create(part="cheekpieces", length_mm=180)
    bridle.parts.create(part="throatlash", length_mm=600)  # throat never measured
    ensure_planned(yard)
    page = keeper.get(reverse("fitting:tack", args=[yard.slug, bridle.key]))
    (drawn,) = drawings(page.content.decode())
    assert "Tansy: good, hole" in drawn
    assert "Head length" in page.content.decode()


def test_a_sets_page_draws_the_horses_it_fits_by_its_holes(
    keeper: Client, yard: Yard
) -> None:
    horse = headed(yard, "Tansy")
    headed(yard, "Giant", 1500.0)
    made = make_bridled(yard)
    ensure_planned(yard)
    page = keeper.get(made.get_absolute_url()).content.decode()
    head, mouth = _by_measure(drawings(page))
    assert "Tansy: good, hole" in head
    assert head.count('class="f-leather" cx=') == 7  # a dot for each hole
    assert head.count('class="c-ink" cx=') == 1  # one is ringed
    assert "Tansy: good" in mouth
    assert "Giant" not in head + mouth
    assert "a hole: the size it sits best on" in page
    assert "The same in figures" in page
    asked = fit(keeper, yard, horse=horse.key, set=made.key)
    answer = said(head)
    assert answer.startswith("good, hole ")
    assert said(_by_measure(drawings(asked))[0]) == answer


def _by_measure(drawn: Sequence[str]) -> tuple[str, str]:
    """Return the drawing of the head, and that of the mouth; there are no others."""
    assert len(drawn) == 2
    head = next(one for one in drawn if "First bridle: head length" in one)
    mouth = next(one for one in drawn if "First bridle: mouth width" in one)
    return head, mouth


def test_a_set_whose_parts_were_taken_down_or_fit_nobody_draws_nothing(
    keeper: Client, yard: Yard
) -> None:
    headed(yard, "Tansy")
    made = make_bridled(yard)
    Tack.objects.filter(yard=yard).update(gone=timezone.localdate())
    ensure_planned(yard)
    assert drawings(keeper.get(made.get_absolute_url()).content.decode()) == []
    Tack.objects.filter(yard=yard).update(gone=None)
    TackSet.objects.filter(pk=made.pk).update(gone=timezone.localdate())
    assert drawings(keeper.get(made.get_absolute_url()).content.decode()) == []


def test_a_sets_page_asks_as_often_for_many_horses_as_for_one(
    keeper: Client, yard: Yard
) -> None:
    headed(yard, "Tansy")
    made = make_bridled(yard)
    ensure_planned(yard)
    once = asks(keeper, made.get_absolute_url())
    for number in range(4):
        headed(yard, f"Young {number}")
        make_horse(yard)
        make_bit(yard)
    Yard.objects.filter(pk=yard.pk).update(version=yard.version + 1)
    yard.refresh_from_db()
    ensure_planned(yard)
    assert asks(keeper, made.get_absolute_url()) == once
