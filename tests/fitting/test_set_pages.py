"""A made-up set's page: its parts, whom it fits, another like it."""

from __future__ import annotations

from django.test import Client
from django.urls import reverse

from fitting.models import Part, TackSet, Yard
from starting.writes import replan, today_in
from tests.fitting.making_mixing_pages import (
    make_bridle,
    make_filly,
    make_set,
    make_snaffle,
)


def test_a_set_tells_its_parts_whom_it_fits_and_what_else_uses_them(
    viewer: Client, yard: Yard
) -> None:
    make_filly(yard)
    bridle, bit = make_bridle(yard), make_snaffle(yard)
    Part.objects.filter(tack=bridle, part="headpiece").update(strap_width_mm=19)
    Part.objects.filter(tack=bridle, part="cheekpieces").update(strap_width_mm=13)
    hung = {"headpiece": bridle, "cheekpieces": bridle}
    made = make_set(yard, "Best", **hung, bit=bit)
    make_set(yard, "Other", bit=bit)
    replan(yard, today_in(yard))
    page = viewer.get(made.get_absolute_url()).content.decode()
    assert "Straps of two widths" in page
    assert "is ¾\u2009in (19 mm) wide, the cheekpieces ½\u2009in (13 mm)" in page
    assert "In another set too: the bit." in page
    assert "In Other." in page
    assert "Teasel" in page
    assert "Take it apart" not in page


def test_a_part_of_one_set_alone_is_not_to_be_moved(keeper: Client, yard: Yard) -> None:
    bridle = make_bridle(yard)
    made = make_set(yard, "Best", browband=bridle)
    make_set(yard, "Other", noseband=bridle)
    page = keeper.get(made.get_absolute_url()).content.decode()
    assert "To be moved across" not in page
    assert "Straps of two widths" not in page


def test_another_like_it_is_prefilled_and_needs_a_name_of_its_own(
    keeper: Client, yard: Yard
) -> None:
    bridle, bit = make_bridle(yard), make_snaffle(yard)
    made = make_set(yard, "Best", headpiece=bridle, cheekpieces=bridle, bit=bit)
    page = keeper.get(made.get_absolute_url()).content.decode()
    address = page.partition("?headpiece=")[2].partition('"')[0].replace("&amp;", "&")
    new = reverse("fitting:make-up", args=[yard.slug])
    form = keeper.get(f"{new}?headpiece={address}").content.decode()
    assert form.count(f'value="{bridle.pk}" selected') == 2
    assert f'value="{bit.pk}" selected' in form
    sent = {"name": "Second", "headpiece": bridle.pk, "cheekpieces": bridle.pk}
    assert keeper.post(new, sent).status_code == 302
    assert TackSet.objects.count() == 2


def test_a_prefilled_item_of_a_stranger_is_left_out(keeper: Client, yard: Yard) -> None:
    theirs = make_bridle(Yard.objects.create(name="Other", slug="other"))
    new = reverse("fitting:make-up", args=[yard.slug])
    answer = keeper.get(f"{new}?headpiece={theirs.key}&bit=nothing")
    assert answer.status_code == 200
    assert "selected" not in answer.content.decode().partition("<form")[2].replace(
        'value="" selected', ""
    )


def test_a_set_that_nothing_hangs_says_so_beside_its_answer(
    viewer: Client, yard: Yard
) -> None:
    horse, bit, bridle = make_filly(yard), make_snaffle(yard), make_bridle(yard)
    bare = make_set(yard, "Bare", bit=bit)
    hung = make_set(yard, "Hung", headpiece=bridle, cheekpieces=bridle, bit=bit)
    whole = make_set(yard, "Whole", whole=bridle, bit=bit)
    replan(yard, today_in(yard))
    for made, unhung in ((bare, True), (hung, False), (whole, False)):
        page = viewer.get(made.get_absolute_url()).content.decode()
        assert ("Nothing in it hangs on the head" in page) is unhung
        address = reverse("fitting:set-on", args=[yard.slug, horse.key, made.key])
        page = viewer.get(address).content.decode()
        assert ("how it hangs is not told" in page) is unhung
