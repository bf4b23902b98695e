"""Does it fit: a horse, then an item, and what the answer rests on."""

from __future__ import annotations

from datetime import timedelta

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Loan, Tack, Yard
from starting.models import StoredOutlook
from starting.writes.replan import ensure_planned
from tests.fitting.making_fits import fit, fitted
from tests.make import make_bit, make_horse


# Does it fit?
def test_a_horse_then_an_item_are_two_touches(keeper: Client, yard: Yard) -> None:
    horse = fitted(yard, "Tansy")
    bit = make_bit(yard, name="Eggbutt", length_mm=117.0)
    ensure_planned(yard)
    assert f'href="?horse={horse.key}"' in fit(keeper, yard)
    item = fit(keeper, yard, horse=horse.key)
    assert f'href="?horse={horse.key}&amp;item={bit.key}"' in item
    assert reverse("fitting:horse-tack", args=[yard.slug, horse.key]) in item
    answer = fit(keeper, yard, horse=horse.key, item=bit.key)
    assert "Does Eggbutt fit Tansy?" in answer
    assert "good</span>" in answer
    assert "The chance of a no" in answer
    assert "Mouth width" in answer
    assert 'class="reach wide"' in answer
    # the other way round: from the item
    assert f'href="?horse={horse.key}&item={bit.key}"' in fit(
        keeper, yard, item=bit.key
    ).replace("&amp;", "&")


def test_others_that_are_good_are_named_with_whose_they_are(
    keeper: Client, yard: Yard
) -> None:
    horse, other = fitted(yard, "Tansy"), fitted(yard, "Bramling")
    bit = make_bit(yard, name="Narrow", length_mm=90.0)
    good = make_bit(yard, name="Old Fennel's", length_mm=117.0)
    Tack.objects.filter(pk=good.pk).update(belongs_to="Jo at the mill")
    back = timezone.localdate() + timedelta(days=20)
    Loan.objects.create(tack=good, to=other, back_by=back)
    make_bit(yard, name="Huge", length_mm=160.0)
    gone = make_bit(yard, name="Gone", length_mm=117.0)
    Tack.objects.filter(pk=gone.pk).update(gone=timezone.localdate())
    ensure_planned(yard)
    page = fit(keeper, yard, horse=horse.key, item=bit.key)
    lenders = page.partition('id="lenders"')[2]
    assert "Old Fennel&#x27;s" in lenders
    assert "Belongs to Jo at the mill." in lenders
    assert f"Lent to Bramling, back by {back.day} {back:%b %Y}." in lenders
    assert "Gone" not in lenders
    assert "Narrow" not in lenders
    assert "Huge" not in lenders


def test_what_is_not_known_asks_to_measure_and_draws_nothing(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard, name="Tansy")
    bit = make_bit(yard, name="Eggbutt")
    ensure_planned(yard)
    page = fit(keeper, yard, horse=horse.key, item=bit.key)
    assert "can't say" in page.replace("&#x27;", "'")
    assert "Measure mouth width" in page
    assert '<svg class="reach' not in page
    assert "The chance of a no" not in page


def test_the_day_until_which_it_is_good_comes_with_its_chance(
    keeper: Client, yard: Yard
) -> None:
    horse = fitted(yard, "Tansy", months=14)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    ensure_planned(yard)
    page = fit(keeper, yard, horse=horse.key, item=bit.key)
    until = page.partition("Good until ")[2].partition(",")[0].partition(".")[0]
    assert until
    assert "The chance of a no on that day: " in page
    stored = StoredOutlook.objects.get(horse=horse)
    year = str(timezone.localdate().year)[:2]
    assert year in until
    assert stored.fits
