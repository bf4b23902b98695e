"""Putting an item up, and correcting it."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Part, Tack, Yard
from tests.fitting.making_tack import BIT, BRIDLE, add, make_bridle, make_set


def edit(item: Tack) -> str:
    return reverse("fitting:edit-tack", args=[item.yard.slug, item.key])


def test_every_kind_may_be_put_up_and_is_chosen_first(
    keeper: Client, yard: Yard
) -> None:
    address = reverse("fitting:add-tack", args=[yard.slug])
    page = keeper.get(address).content.decode()
    for kind in Tack.Kind.values:
        assert f'href="?kind={kind}"' in page
        form = keeper.get(f"{address}?kind={kind}")
        assert form.status_code == 200
        done = keeper.post(f"{address}?kind={kind}", {"name": f"New {kind}"})
        assert done.status_code == 302, kind
    assert set(yard.tack.values_list("kind", flat=True)) == set(Tack.Kind.values)


def test_a_bit_is_put_up_with_the_texts_that_were_typed(
    keeper: Client, yard: Yard
) -> None:
    done = keeper.post(add(yard, "bit"), BIT)
    bit = Tack.objects.get()
    part = bit.parts.get()
    assert done.headers["Location"] == bit.get_absolute_url()
    assert part.length_mm == pytest.approx(120.65)
    assert part.written == {"length": "4 3/4", "thickness": "14 mm", "ring": "65 mm"}
    assert (part.cheek, part.mouthpiece) == ("eggbutt", "single_jointed")
    yard.refresh_from_db()
    assert yard.version == 2


def test_a_bridle_keeps_the_parts_it_has_and_no_others(
    keeper: Client, yard: Yard
) -> None:
    keeper.post(add(yard, "bridle"), BRIDLE)
    bridle = Tack.objects.get()
    parts = {part.part: part for part in bridle.parts.all()}
    assert list(parts) == ["headpiece", "cheekpieces", "noseband"]
    assert parts["headpiece"].holes == 7
    assert parts["noseband"].longest_mm is None


def test_a_retry_on_poor_signal_puts_up_once(keeper: Client, yard: Yard) -> None:
    first = keeper.post(add(yard, "bit"), BIT)
    again = keeper.post(add(yard, "bit"), BIT)
    assert again.headers["Location"] == first.headers["Location"]
    assert Tack.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("name", "", "This field is required"),
        ("mouthpiece-length", "4.9 hands", "cannot be read"),
        ("mouthpiece-length", "-4 in", "mouthpiece-length_error"),
        ("mouthpiece-length", "nan", "mouthpiece-length_error"),
        ("mouthpiece-length", "60 in", "Write the unit with it"),
        ("mouthpiece-thickness", "14", "Write the unit with it"),
        ("mouthpiece-cheek", "a spoon", "Select a valid choice"),
        ("bought", "2999-01-01", "That day is still to come."),
        ("bought", "0026-09-19", "The year reads 26: write it in four figures."),
        ("label_size", "x" * 31, "at most 30 characters"),
    ],
)
def test_a_refusal_stands_by_its_field_and_nothing_is_lost(
    keeper: Client, yard: Yard, field: str, typed: str, said: str
) -> None:
    page = keeper.post(add(yard, "bit"), {**BIT, field: typed})
    body = page.content.decode()
    assert page.status_code == 422
    assert said in body
    assert 'value="65 mm"' in body
    assert f'value="{typed}"' in body or field == "mouthpiece-cheek" or not typed
    assert f'id="id_{field}_error"' in body
    assert not Tack.objects.exists()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"noseband-shortest": "27 in", "noseband-longest": "22 in"}, "no longer than"),
        ({"whole-holes": "5", "whole-hole": "6"}, "It has 5 holes"),
        ({"headpiece-holes": "0"}, "Holes are counted from 1."),
        ({"headpiece-holes": "seven"}, "Holes are counted: a whole number"),
        ({"headpiece-holes": "400"}, "At most 40."),
    ],
)
def test_a_part_that_contradicts_itself_is_refused(
    keeper: Client, yard: Yard, typed: dict[str, str], said: str
) -> None:
    page = keeper.post(add(yard, "bridle"), {**BRIDLE, **typed})
    assert page.status_code == 422
    assert said in page.content.decode()
    assert not Tack.objects.exists()


def test_a_name_is_borne_once_by_items_and_sets_alike(
    keeper: Client, yard: Yard
) -> None:
    bridle = make_bridle(yard)
    make_set(yard, bridle)
    taken = keeper.post(add(yard, "bit"), {**BIT, "name": " Brown  bridle "})
    assert taken.status_code == 422
    assert "An item of that name hangs here already." in taken.content.decode()
    taken = keeper.post(add(yard, "bit"), {**BIT, "name": "Best bridle"})
    assert "A made-up set bears that name" in taken.content.decode()
    assert yard.tack.count() == 1


def test_a_corrected_item_keeps_its_address_and_what_was_not_touched(
    keeper: Client, yard: Yard
) -> None:
    keeper.post(add(yard, "bridle"), BRIDLE)
    bridle = Tack.objects.get()
    shown = keeper.get(edit(bridle)).content.decode()
    assert 'value="20 cm"' in shown
    changed = {**BRIDLE, "name": "Havana bridle", "token": "twice"}
    changed |= {"headpiece-length": "22 in", "noseband-there": ""}
    assert keeper.post(edit(bridle), changed).status_code == 302
    bridle.refresh_from_db()
    assert (bridle.name, bridle.key) == ("Havana bridle", "brown-bridle")
    assert bridle.parts.get(part="headpiece").length_mm == pytest.approx(558.8)
    assert bridle.parts.get(part="cheekpieces").revision == 1
    assert not bridle.parts.filter(part="noseband").exists()
    assert bridle.parts.get(part="headpiece").history.count() == 2


def test_a_part_of_another_kind_is_shown_and_kept(keeper: Client, yard: Yard) -> None:
    bridle = make_bridle(yard)
    Part.objects.create(tack=bridle, part="jowl", length_mm=300, strap_width_mm=20)
    page = keeper.get(edit(bridle)).content.decode()
    assert 'name="jowl-length"' in page
    assert 'name="jowl-strap_width"' in page


def test_two_people_correcting_lose_nothing(keeper: Client, yard: Yard) -> None:
    keeper.post(add(yard, "bit"), BIT)
    bit = Tack.objects.get()
    seen = {**BIT, "seen_revision": str(bit.revision)}
    keeper.post(edit(bit), {**seen, "mouthpiece-length": "5", "token": "one"})
    late = {**seen, "mouthpiece-length": "4 1/2", "token": "two"}
    page = keeper.post(edit(bit), late)
    assert page.status_code == 422
    assert "Somebody changed this meanwhile" in page.content.decode()
    assert "It says now: 5." in page.content.decode()
    assert 'value="4 1/2"' in page.content.decode()
    assert bit.parts.get().length_mm == pytest.approx(127.0)
