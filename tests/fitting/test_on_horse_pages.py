"""One item or set on one horse: picture, list beside it, the same in figures."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Part, SetPart, Tack, TackSet, TryOn, Yard
from fitting.pictured import TOO_YOUNG
from fitting.writes.touch import touch
from starting.writes.replan import ensure_planned
from tests.fitting.making_tried import brown_bridle
from tests.make import make_bit, make_horse, make_measurement, make_yard


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    row = make_horse(yard, name="Tansy")
    make_measurement(row, "head_length", value=960.0, method="tape")
    make_measurement(row, "brow", value=350.0, method="tape")
    return row


@pytest.fixture
def bridle(yard: Yard) -> Tack:
    row = brown_bridle(yard)
    Part.objects.create(tack=row, part="browband", length_mm=300)
    return row


@pytest.fixture
def made_up(yard: Yard, bridle: Tack) -> TackSet:
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    slots = dict.fromkeys(("headpiece", "cheekpieces", "browband"), bridle)
    for slot, item in {**slots, "bit": make_bit(yard, name="Eggbutt")}.items():
        SetPart.objects.create(made_up=row, slot=slot, tack=item)
    return row


def rug(yard: Yard, name: str = "Rain rug") -> Tack:
    row = Tack.objects.create(yard=yard, key="rug", name=name, kind="rug")
    Part.objects.create(tack=row, part="back_seam", length_mm=1600)
    return row


def page_of(client: Client, horse: Horse, thing: Tack | TackSet) -> str:
    ensure_planned(horse.yard)
    name = "set-on" if isinstance(thing, TackSet) else "item-on"
    args = [horse.yard.slug, horse.key, thing.key]
    answer = client.get(reverse(f"fitting:{name}", args=args))
    assert answer.status_code == 200
    return answer.content.decode()


def test_a_bridle_is_drawn_with_the_list_beside_it(
    keeper: Client, tansy: Horse, bridle: Tack
) -> None:
    page = page_of(keeper, tansy, bridle)
    assert '<title id="worn-t">Brown on Tansy, part by part</title>' in page
    assert "1 Cheekpieces: good, hole 3 of 7. 2 Browband: no." in page
    assert '<span class="hole">2</span>' in page
    assert "st-hole" in page


def test_the_same_stands_in_figures(keeper: Client, tansy: Horse, bridle: Tack) -> None:
    page = page_of(keeper, tansy, bridle)
    figures = page[page.index("The same in figures") :]
    assert "<td>11¾\u2009in</td>" in figures
    # good from 10 to 50 mm over a brow of 350 mm
    assert "<td>14⅛ to 15¾\u2009in</td>" in figures
    assert "<td>hole 3 of 7</td>" in figures


def test_a_set_is_drawn_with_its_bit(
    keeper: Client, tansy: Horse, made_up: TackSet
) -> None:
    page = page_of(keeper, tansy, made_up)
    assert "Best bridle on Tansy, part by part" in page
    assert "3 Mouthpiece: can&#x27;t say." in page
    assert "try-on/?set=best" in page


def test_a_rug_is_drawn_on_the_whole_horse_but_not_on_a_foal(
    keeper: Client, tansy: Horse
) -> None:
    cover = rug(tansy.yard)
    born = (timezone.localdate() - timedelta(days=60)).isoformat()
    foal = make_horse(tansy.yard, name="Pip", foaled=born)
    assert 'class="worn"' in page_of(keeper, tansy, cover)
    page = page_of(keeper, foal, cover)
    assert 'class="worn"' not in page
    assert TOO_YOUNG in page


def test_the_page_leads_to_the_same_thing_on_another_horse(
    keeper: Client, tansy: Horse, bridle: Tack
) -> None:
    other = make_horse(tansy.yard, name="Hob")
    page = page_of(keeper, tansy, bridle)
    args = [tansy.yard.slug, other.key, bridle.key]
    assert reverse("fitting:item-on", args=args) in page


def test_an_item_without_a_part_says_so_and_leads_on(
    keeper: Client, tansy: Horse
) -> None:
    bare = Tack.objects.create(yard=tansy.yard, key="bare", name="Bare", kind="roller")
    page = page_of(keeper, tansy, bare)
    assert "Nothing to say yet" in page
    assert reverse("fitting:horse-tack", args=[tansy.yard.slug, tansy.key]) in page


def test_what_hangs_in_another_yard_is_not_found(keeper: Client, tansy: Horse) -> None:
    theirs = rug(make_yard())
    args = [tansy.yard.slug, tansy.key, theirs.key]
    assert keeper.get(reverse("fitting:item-on", args=args)).status_code == 404


def test_a_viewer_sees_it_and_is_asked_nothing(
    viewer: Client, tansy: Horse, bridle: Tack
) -> None:
    page = page_of(viewer, tansy, bridle)
    assert "Brown on Tansy, part by part" in page
    assert "Try it on" not in page


def shown_title(client: Client, horse: Horse) -> str:
    ensure_planned(horse.yard)
    address = reverse("fitting:horse-tack", args=[horse.yard.slug, horse.key])
    page = client.get(address).content.decode()
    _, _, rest = page.partition('<title id="worn-t">')
    return rest.partition("</title>")[0]


def test_the_tack_page_draws_the_set_until_something_else_was_worn(
    keeper: Client, tansy: Horse, made_up: TackSet
) -> None:
    cover = rug(tansy.yard)
    assert shown_title(keeper, tansy) == "Best bridle on Tansy, part by part"
    on = timezone.localdate() - timedelta(days=2)
    TryOn.objects.create(horse=tansy, on=on, tack=cover, how="held")
    assert shown_title(keeper, tansy) == "Best bridle on Tansy, part by part"
    TryOn.objects.create(horse=tansy, on=on, tack=cover, how="worn")
    assert shown_title(keeper, tansy) == "Rain rug on Tansy, part by part"


def test_a_horse_with_bits_alone_has_no_picture(keeper: Client, tansy: Horse) -> None:
    make_bit(tansy.yard)
    assert shown_title(keeper, tansy) == ""


def test_no_bridle_is_shown_on_a_foal_that_never_wore_one(
    keeper: Client, yard: Yard, made_up: TackSet
) -> None:
    born = (timezone.localdate() - timedelta(days=100)).isoformat()
    foal = make_horse(yard, name="Pip", foaled=born)
    make_measurement(foal, "head_length", value=700.0, method="tape")
    make_measurement(foal, "nose_round", value=400.0, method="tape")
    assert shown_title(keeper, foal) == ""
    soft = Tack.objects.create(yard=yard, key="soft", name="Soft", kind="headcollar")
    Part.objects.create(tack=soft, part="nose", shortest_mm=400, longest_mm=480)
    touch(yard)
    assert shown_title(keeper, foal) == "Soft on Pip, part by part"


def test_what_was_never_worn_and_cannot_be_told_is_not_shown(
    keeper: Client, yard: Yard, made_up: TackSet
) -> None:
    assert shown_title(keeper, make_horse(yard, name="Hob")) == ""


def test_a_bit_by_itself_is_drawn_laid_flat_with_its_length(
    keeper: Client, tansy: Horse
) -> None:
    page = page_of(keeper, tansy, make_bit(tansy.yard, name="Eggbutt"))
    assert '<title id="bit-t">The bit laid flat</title>' in page
    assert "eggbutt, single-jointed. Between the cheeks: 4¾" in page
    assert "headfig" in page
