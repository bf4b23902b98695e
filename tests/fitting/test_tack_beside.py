"""Two items of tack beside each other: sizes, holes, and on whom each sits."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit.tack import Part, Tack
from fitting.models import Part as PartRow
from fitting.models import Tack as TackRow
from fitting.models import TackSet, Yard
from fitting.tack_beside import (
    OVER_ALL,
    SizeBeside,
    holes_beside,
    not_measured,
    parts_beside,
)
from starting.writes.replan import ensure_planned
from tests.fitting.making_fit import make_bit as bit_fact
from tests.fitting.making_fit import make_bridle as bridle_fact
from tests.fitting.making_tack import make_bridle
from tests.make import make_bit, make_horse, make_yard


def whole(length: float, hole: int, holes: int = 5, spacing: float = 15) -> Tack:
    part = Part(
        part="whole", length_mm=length, hole=hole, holes=holes, spacing_mm=spacing
    )
    return Tack(name="Show bridle", kind="bridle", parts=(part,))


def size_of(one: Tack, other: Tack, part: str, key: str = "length") -> SizeBeside:
    found = next(p for p in parts_beside(one, other) if p.part == part)
    return next(size for size in found.sizes if size.key == key)


# Part by part


def test_a_strap_that_is_one_hole_longer_says_so() -> None:
    one = bridle_fact(cheek_mm=200, head_mm=540, spacing_mm=16)
    other = bridle_fact(cheek_mm=216, head_mm=572, spacing_mm=16)
    assert size_of(one, other, "cheekpieces").holes == pytest.approx(1)
    assert size_of(one, other, "headpiece").holes == pytest.approx(1)
    assert size_of(one, other, "cheekpieces").more_mm == pytest.approx(16)
    # Over all: 16 a side of cheek, and 32 of headpiece: 64 in all, two holes.
    assert size_of(one, other, OVER_ALL, "longest").holes == pytest.approx(2)


def test_what_one_of_them_has_not_is_not_compared() -> None:
    band = Part(part="browband", length_mm=360)
    one, other = bridle_fact(more=(band,)), bridle_fact()
    (found,) = [p for p in parts_beside(one, other) if p.part == "browband"]
    assert found.missing == "other"
    assert found.sizes[0].more_mm is None
    (found,) = [p for p in parts_beside(other, one) if p.part == "browband"]
    assert found.missing == "one"


def test_two_bits_differ_in_length_thickness_and_ring_but_in_no_holes() -> None:
    one, other = bit_fact(120, thickness_mm=14), bit_fact(127, thickness_mm=16)
    sizes = {size.key: size for size in parts_beside(one, other)[0].sizes}
    assert sizes["length"].more_mm == pytest.approx(7)
    assert sizes["thickness"].more_mm == pytest.approx(2)
    assert sizes["ring"].alike
    assert all(size.holes is None for size in sizes.values())


# Hole for hole


def test_a_bridle_in_parts_is_a_ruler_for_one_measured_whole() -> None:
    # 2 x 200 + 540 = 940 on hole 1; 940 - 32 on hole 2.
    known = bridle_fact(cheek_mm=200, head_mm=540, holes=7, spacing_mm=16)
    # 908 on hole 3 of 5, 15 apart: 968 on hole 1.
    found = holes_beside(known, whole(908, hole=3))
    assert found[1].one == 2
    assert found[1].other == 3
    assert found[1].off_mm == pytest.approx(0)


def test_a_hole_out_of_reach_says_by_how_much() -> None:
    known = bridle_fact(cheek_mm=200, head_mm=540, holes=7, spacing_mm=16)
    found = holes_beside(known, whole(908, hole=3))
    # Hole 7 of the known: 940 - 6 x 32 = 748; the last of the other: 968 - 120 = 848.
    assert found[6].other is None
    assert found[6].off_mm == pytest.approx(50)
    short = holes_beside(known, whole(700, hole=1))
    assert short[0].other is None
    assert short[0].off_mm == pytest.approx(-120)


def test_a_bridle_not_measured_names_no_hole_and_says_why() -> None:
    bare = bridle_fact(head_mm=None)
    assert holes_beside(bare, bridle_fact()) == ()
    assert holes_beside(bridle_fact(), bare) == ()
    (name, why) = not_measured((bare, bridle_fact()))[0]
    assert name == bare.name
    assert "headpiece" in why


@given(
    cheek=st.floats(150, 300),
    holes=st.integers(1, 11),
    spacing=st.floats(10, 30),
)
def test_a_bridle_beside_itself_answers_hole_for_hole(
    cheek: float, holes: int, spacing: float
) -> None:
    bridle = bridle_fact(cheek_mm=cheek, holes=holes, spacing_mm=spacing)
    for hole in holes_beside(bridle, bridle):
        assert hole.other == hole.one
        assert hole.off_mm == pytest.approx(0, abs=1e-6)


@given(one=st.floats(150, 300), other=st.floats(150, 300))
def test_the_hole_named_is_the_nearest_there_is(one: float, other: float) -> None:
    first, second = bridle_fact(cheek_mm=one), bridle_fact(cheek_mm=other)
    spacing, holes = 15.875, 7
    for found in holes_beside(first, second):
        length = one - spacing * (found.one - 1)
        offs = [other - spacing * hole - length for hole in range(holes)]
        nearest = min(offs, key=abs)
        assert abs(found.off_mm) == pytest.approx(abs(nearest), abs=1e-6)
        if found.other is not None:
            assert offs[found.other - 1] == pytest.approx(found.off_mm, abs=1e-6)


# The page


def page_of(client: Client, yard: Yard, **asked: str) -> Any:
    return client.get(reverse("fitting:tack-beside", args=[yard.slug]), asked)


def test_two_bits_stand_beside_each_other_with_whom_they_fit(
    viewer: Client, yard: Yard
) -> None:
    one = make_bit(yard, name="Old one", length_mm=120.65, ring_mm=55)
    other = make_bit(yard, name="New one", length_mm=127, ring_mm=65)
    make_horse(yard, name="Tansy")
    ensure_planned(yard)
    page = page_of(viewer, yard, one=one.key, other=other.key).content.decode()
    assert "¼\u2009in (6\u2009mm) longer" in page
    assert "⅜\u2009in (10\u2009mm) larger" in page
    assert "On whom each sits today" in page
    assert "Tansy" in page
    assert "Hole for hole" not in page


def test_two_bridles_say_hole_for_hole(keeper: Client, yard: Yard) -> None:
    one, other = make_bridle(yard), make_bridle(yard, "New bridle")
    PartRow.objects.filter(tack=other, part="cheekpieces").update(length_mm=216)
    page = page_of(keeper, yard, one=one.key, other=other.key).content.decode()
    assert "Hole for hole" in page
    assert "about 1 hole<" in page
    assert "none: even its shortest hole is ⅝\u2009in (16 mm) a side too long" in page


def test_made_up_sets_stand_beside_each_other_and_beside_a_bridle(
    viewer: Client, yard: Yard
) -> None:
    one, other = make_bridle(yard), make_bridle(yard, "New bridle")
    PartRow.objects.filter(tack=other, part="cheekpieces").update(length_mm=216)
    bits = [make_bit(yard, name=n, length_mm=mm) for n, mm in (("A", 114), ("B", 127))]
    for name, straps, bit in (("First set", one, bits[0]), ("Second", other, bits[1])):
        made = TackSet.objects.create(yard=yard, key=name.split()[0].lower(), name=name)
        for slot in ("headpiece", "cheekpieces"):
            made.parts.create(slot=slot, tack=straps)
        made.parts.create(slot="bit", tack=bit)
    make_horse(yard, name="Tansy")
    ensure_planned(yard)
    page = page_of(viewer, yard, one="set-first", other="set-second").content.decode()
    assert "Made-up sets" in page
    assert "Hole for hole" in page
    assert "about 1 hole<" in page
    assert "½\u2009in (13\u2009mm) longer" in page  # the bits
    assert "Tansy" in page
    page = page_of(viewer, yard, one="set-first", other=other.key).content.decode()
    assert "Hole for hole" in page
    assert "not there" in page  # the bridle alone has no bit
    refused = page_of(viewer, yard, one="set-first", other=bits[0].key)
    assert refused.status_code == 422
    assert "First set is a made-up set, A a bit" in refused.content.decode()
    first = yard.sets.get(key="first").get_absolute_url()
    assert "?one=set-first" in viewer.get(first).content.decode()


@pytest.mark.parametrize("asked", ["same", "kinds", "unknown", "strange"])
def test_what_cannot_be_put_beside_is_refused_in_words(
    keeper: Client, yard: Yard, asked: str
) -> None:
    bit, bridle = make_bit(yard), make_bridle(yard)
    theirs = make_bit(make_yard())
    other, said = {
        "same": (bit.key, "That is the first one"),
        "kinds": (bridle.key, "they have no part in common"),
        "unknown": ("no-such", "No such item hangs here."),
        "strange": (theirs.key, "No such item hangs here."),
    }[asked]
    page = page_of(keeper, yard, one=bit.key, other=other)
    assert page.status_code == 422
    assert said in page.content.decode()


def test_from_an_item_only_the_other_is_to_choose(keeper: Client, yard: Yard) -> None:
    bit, other = make_bit(yard), make_bit(yard)
    item = keeper.get(bit.get_absolute_url()).content.decode()
    assert f"?one={bit.key}" in item
    page = page_of(keeper, yard, one=bit.key)
    assert page.status_code == 200
    assert f'<option value="{bit.key}" selected>' in page.content.decode()
    TackRow.objects.filter(pk=other.pk).delete()
    assert "It takes two items" in page_of(keeper, yard).content.decode()


def test_the_page_asks_no_more_of_a_full_room(
    keeper: Client, yard: Yard, django_assert_num_queries: Any
) -> None:
    one, other = make_bridle(yard), make_bridle(yard, "New bridle")
    ensure_planned(yard)
    page_of(keeper, yard, one=one.key, other=other.key)
    with django_assert_num_queries(8):
        page_of(keeper, yard, one=one.key, other=other.key)
    for _ in range(5):
        make_bit(yard)
        make_horse(yard)
    ensure_planned(yard)
    page_of(keeper, yard, one=one.key, other=other.key)
    with django_assert_num_queries(8):
        page_of(keeper, yard, one=one.key, other=other.key)
