"""The tack room and the page of an item, as they are read."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Loan, SetPart, Tack, TackSet, TryOn, Yard
from starting.writes.replan import ensure_planned
from tests.fitting.making_tack import BRIDLE, add, make_bridle, room
from tests.make import make_bit, make_horse, make_measurement


def today() -> date:
    return timezone.localdate()


def fitted(yard: Yard, name: str, mouth_mm: float = 112.0, **fields: Any) -> None:
    horse = make_horse(yard, name=name, **fields)
    make_measurement(horse, "mouth_width", value=mouth_mm, method="dowel")


def test_an_empty_tack_room_says_what_will_hang_there(
    keeper: Client, viewer: Client, yard: Yard
) -> None:
    assert "No tack on the pegs" in room(keeper, yard)
    assert "Put up an item" in room(keeper, yard)
    assert "No tack on the pegs" in room(viewer, yard)
    assert "Put up an item" not in room(viewer, yard)


def test_the_measured_size_stands_beside_the_label(keeper: Client, yard: Yard) -> None:
    bit = make_bit(yard, name="Blue trunk bit", length_mm=120.65)
    Tack.objects.filter(pk=bit.pk).update(label_size="5", belongs_to="Sam")
    page = room(keeper, yard)
    assert "Measured 4¾\u2009in; the label says 5, ¼\u2009in (6 mm) too much." in page
    assert "Belongs to Sam." in page


def test_each_youngster_has_its_answer_and_a_grown_horse_none(
    keeper: Client, yard: Yard
) -> None:
    fitted(yard, "Tansy", 112.0)
    fitted(yard, "Bramling", 130.0)
    make_horse(yard, name="Corncrake")
    make_horse(yard, name="Old Marl", grown=True)
    make_bit(yard, name="Blue trunk bit", length_mm=118)
    ensure_planned(yard)
    page = room(keeper, yard)
    assert page.count('<span class="w-good">good</span>') == 2  # wide, and phone
    assert page.count('<span class="w-no">no</span>') == 2
    assert "measure mouth width" in page
    assert "Old Marl" not in page


def test_of_many_youngsters_only_those_it_fits_are_named(
    keeper: Client, yard: Yard
) -> None:
    for number in range(8):
        fitted(yard, f"Good {number}", 112.0)
    fitted(yard, "Wide one", 140.0)
    make_bit(yard, name="Blue trunk bit", length_mm=118)
    make_bit(yard, name="Far too small", length_mm=70)
    ensure_planned(yard)
    page = room(keeper, yard)
    assert "Good 0" in page
    assert "and 2 more" in page
    assert "Wide one" not in page
    assert "Nobody, as far as is known." in page


def test_a_loan_is_shown_with_the_lenders_hole_and_when_it_goes_back(
    keeper: Client, yard: Yard
) -> None:
    bridle = make_bridle(yard)
    tansy = make_horse(yard, name="Tansy")
    lent = Loan.objects.create(
        tack=bridle, to=tansy, own_hole=2, back_by=date(2027, 1, 24)
    )
    said = (
        "Lent to Tansy; put back on hole 2, the lender&#x27;s own; back by 24 Jan 2027"
    )
    assert said in room(keeper, yard)
    Loan.objects.filter(pk=lent.pk).update(returned=date(2026, 1, 2))
    assert "Lent to Tansy" not in room(keeper, yard)


def test_what_is_taken_down_hangs_apart(keeper: Client, yard: Yard) -> None:
    bit = make_bit(yard, name="Old bit")
    Tack.objects.filter(pk=bit.pk).update(gone=date(2025, 5, 3))
    page = room(keeper, yard)
    assert "Taken down" in page
    assert "3 May 2025" in page


def test_the_tack_room_takes_as_many_queries_for_much_as_for_little(
    keeper: Client, yard: Yard, django_assert_num_queries: Any
) -> None:
    address = reverse("fitting:tack-room", args=[yard.slug])
    grow(yard, horses=1, bits=2)
    with django_assert_num_queries(12):
        keeper.get(address)
    grow(yard, horses=5, bits=10)
    with django_assert_num_queries(12):
        keeper.get(address)


def grow(yard: Yard, *, horses: int, bits: int) -> None:
    """Add horses that each tried the first bit, bits, a bridle, a loan, a set."""
    rows = [make_horse(yard) for _ in range(horses)]
    bridle = make_bridle(yard, f"Bridle {yard.tack.count()}")
    for _ in range(bits):
        make_bit(yard)
    for horse in rows:
        bit = yard.tack.filter(kind="bit")[0]
        tried = TryOn.objects.create(horse=horse, tack=bit, on=today(), how="worn")
        tried.parts.create(part="mouthpiece", seen="sits_right")
    Loan.objects.create(tack=bridle, to=rows[0])
    made_up = TackSet.objects.create(
        yard=yard, key=f"set-{bridle.key}", name=f"Set of {bridle.name}"
    )
    SetPart.objects.create(made_up=made_up, slot="headpiece", tack=bridle)
    yard.refresh_from_db()
    Yard.objects.filter(pk=yard.pk).update(version=yard.version + 1)
    yard.refresh_from_db()
    ensure_planned(yard)


def test_an_item_says_whom_it_fits_and_rests_its_numbers_on_sources(
    keeper: Client, yard: Yard
) -> None:
    fitted(yard, "Tansy", 112.0)
    fitted(yard, "Old Marl", 112.0, grown=True, foaled="2012")
    bit = make_bit(yard, name="Blue trunk bit", length_mm=118)
    ensure_planned(yard)
    page = keeper.get(bit.get_absolute_url()).content.decode()
    assert page.index("Tansy") < page.index("Old Marl")
    assert "right for an eggbutt" in page
    assert "Have the mouth looked at by a vet" in page
    assert "Common practice, no published source" in page
    assert "Anttila" in page
    assert "Good until" in page


def test_an_item_shows_what_was_typed_where_it_was_another_unit(
    keeper: Client, yard: Yard
) -> None:
    keeper.post(add(yard, "bridle"), BRIDLE)
    page = keeper.get(Tack.objects.get().get_absolute_url()).content.decode()
    assert "7⅞\u2009in (written 20 cm)" in page
    assert "Length 21\u2009in, hole to hole ⅝\u2009in (16 mm), 7 holes." in page
    assert "Not measured." in page  # the noseband


def test_a_yard_in_cm_has_what_is_finer_in_mm_alone(keeper: Client, yard: Yard) -> None:
    Yard.objects.update(length_unit="cm")
    keeper.post(add(yard, "bridle"), BRIDLE)
    page = keeper.get(Tack.objects.get().get_absolute_url()).content.decode()
    assert "hole to hole 16\u2009mm, 7 holes." in page


def test_an_item_takes_as_many_queries_for_much_as_for_little(
    keeper: Client, yard: Yard, django_assert_num_queries: Any
) -> None:
    grow(yard, horses=1, bits=2)
    address = yard.tack.filter(kind="bit")[0].get_absolute_url()
    with django_assert_num_queries(19):
        keeper.get(address)
    grow(yard, horses=5, bits=10)
    with django_assert_num_queries(19):
        keeper.get(address)


def test_an_item_without_horses_or_without_parts_says_so(
    keeper: Client, yard: Yard
) -> None:
    bit = make_bit(yard)
    assert "Nobody to fit it on" in keeper.get(bit.get_absolute_url()).content.decode()
    bare = Tack.objects.create(yard=yard, key="bare", name="Bare", kind="other")
    page = keeper.get(bare.get_absolute_url()).content.decode()
    assert "Without sizes nothing can be said of it" in page


def test_a_bit_tried_on_stands_on_its_page(keeper: Client, yard: Yard) -> None:
    bit, tansy = make_bit(yard), make_horse(yard, name="Tansy")
    row = TryOn.objects.create(
        horse=tansy, tack=bit, on=today() - timedelta(days=3), how="worn", who="Jo"
    )
    row.parts.create(part="mouthpiece", seen="too_long")
    page = keeper.get(bit.get_absolute_url()).content.decode()
    assert "Tansy, put on" in page
    assert "Mouthpiece: too long." in page
    assert "With Jo." in page
