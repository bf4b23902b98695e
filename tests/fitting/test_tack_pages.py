"""The tack room, its items and its made-up sets, as they are read and written."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Loan, Part, SetPart, Tack, TackSet, TryOn, Yard
from starting.writes.replan import ensure_planned
from tests.make import make_bit, make_horse, make_measurement, make_yard

BIT = {
    "name": "Small eggbutt",
    "label_size": "4 1/2",
    "mouthpiece-length": "4 3/4",
    "mouthpiece-thickness": "14 mm",
    "mouthpiece-ring": "65 mm",
    "mouthpiece-cheek": "eggbutt",
    "mouthpiece-mouthpiece": "single_jointed",
    "token": "once",
}
BRIDLE = {
    "name": "Brown bridle",
    "headpiece-length": "21 in",
    "headpiece-holes": "7",
    "headpiece-spacing": "16 mm",
    "cheekpieces-length": "20 cm",
    "noseband-there": "on",
    "token": "once",
}


def today() -> date:
    return timezone.localdate()


def make_bridle(yard: Yard, name: str = "Brown bridle", **fields: Any) -> Tack:
    key = name.lower().replace(" ", "-")
    row = Tack.objects.create(yard=yard, key=key, name=name, kind="bridle", **fields)
    Part.objects.create(
        tack=row, part="headpiece", length_mm=540, holes=7, spacing_mm=16
    )
    Part.objects.create(tack=row, part="cheekpieces", length_mm=200)
    return row


def make_set(yard: Yard, bridle: Tack, bit: Tack | None = None) -> TackSet:
    row = TackSet.objects.create(yard=yard, key="best", name="Best bridle")
    SetPart.objects.create(made_up=row, slot="headpiece", tack=bridle)
    SetPart.objects.create(made_up=row, slot="cheekpieces", tack=bridle)
    if bit:
        SetPart.objects.create(made_up=row, slot="bit", tack=bit)
    return row


def fitted(yard: Yard, name: str, mouth_mm: float = 112.0, **fields: Any) -> None:
    horse = make_horse(yard, name=name, **fields)
    make_measurement(horse, "mouth_width", value=mouth_mm, method="dowel")


def room(client: Client, yard: Yard) -> str:
    answer = client.get(reverse("fitting:tack-room", args=[yard.slug]))
    assert answer.status_code == 200
    return answer.content.decode()


def add(yard: Yard, kind: str) -> str:
    return f"{reverse('fitting:add-tack', args=[yard.slug])}?kind={kind}"


def edit(item: Tack) -> str:
    return reverse("fitting:edit-tack", args=[item.yard.slug, item.key])


# The tack room


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
    assert "Measured 4¾\u2009in; the label says 5, 6\u2009mm too much." in page
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


# One item


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
    assert "Length 21\u2009in, hole to hole 16\u2009mm, 7 holes." in page
    assert "Not measured." in page  # the noseband


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


# Putting up and correcting


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
        ({"headpiece-holes": "0"}, "greater than or equal to 1"),
        ({"headpiece-holes": "400"}, "less than or equal to 40"),
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


# Sets


def test_a_set_is_made_up_from_bridles_and_a_bit(keeper: Client, yard: Yard) -> None:
    bridle, bit = make_bridle(yard), make_bit(yard, name="Blue trunk bit")
    address = reverse("fitting:make-up", args=[yard.slug])
    assert "Brown bridle (21¼\u2009in)" in keeper.get(address).content.decode()
    sent = {
        "name": "Best bridle",
        "headpiece": bridle.pk,
        "cheekpieces": bridle.pk,
        "bit": bit.pk,
        "token": "once",
    }
    for _ in range(2):
        assert keeper.post(address, sent).status_code == 302
    made_up = TackSet.objects.get()
    slots = dict(made_up.parts.values_list("slot", "tack__name"))
    assert slots == {
        "headpiece": "Brown bridle",
        "cheekpieces": "Brown bridle",
        "bit": "Blue trunk bit",
    }
    page = room(keeper, yard)
    assert "Headpiece and cheekpieces: Brown bridle; bit: Blue trunk bit." in page


def test_a_set_is_changed_and_taken_apart(keeper: Client, yard: Yard) -> None:
    bridle, bit = make_bridle(yard), make_bit(yard)
    made_up = make_set(yard, bridle)
    address = reverse("fitting:edit-set", args=[yard.slug, made_up.key])
    assert f'value="{bridle.pk}" selected' in keeper.get(address).content.decode()
    keeper.post(address, {"name": "Best bridle", "bit": bit.pk})
    assert list(made_up.parts.values_list("slot", flat=True)) == ["bit"]
    apart = reverse("fitting:delete-set", args=[yard.slug, made_up.key])
    assert "stay on their pegs" in keeper.get(apart).content.decode()
    keeper.post(apart)
    assert not TackSet.objects.exists()
    assert yard.tack.count() == 2


def test_an_empty_set_a_double_one_and_a_strangers_item_are_refused(
    keeper: Client, yard: Yard
) -> None:
    bridle = make_bridle(yard)
    Part.objects.create(tack=bridle, part="whole", length_mm=900)
    theirs = make_bit(make_yard())
    address = reverse("fitting:make-up", args=[yard.slug])
    empty = keeper.post(address, {"name": "Best bridle"})
    assert empty.status_code == 422
    assert "Choose at least one part." in empty.content.decode()
    double = {"name": "Best", "whole": bridle.pk, "headpiece": bridle.pk}
    page = keeper.post(address, double).content.decode()
    assert "A whole bridle has its own headpiece" in page
    page = keeper.post(address, {"name": "Best", "bit": theirs.pk}).content.decode()
    assert "Select a valid choice" in page
    taken = {"name": "Brown bridle", "headpiece": bridle.pk}
    assert "An item bears that name" in keeper.post(address, taken).content.decode()
    assert not TackSet.objects.exists()


# Loans


def test_an_item_is_lent_comes_back_and_a_wrong_loan_is_deleted(
    keeper: Client, yard: Yard
) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard, name="Tansy")
    address = reverse("fitting:lend", args=[yard.slug, bridle.key])
    assert "The lender's own hole" in keeper.get(address).content.decode()
    sent = {"to": tansy.pk, "own_hole": "2", "back_by": "2027-01-24", "token": "once"}
    for _ in range(2):
        keeper.post(address, sent)
    loan = Loan.objects.get()
    back = reverse("fitting:edit-loan", args=[yard.slug, bridle.key, loan.pk])
    keeper.post(back, {"to": tansy.pk, "own_hole": "2", "returned": "2026-01-02"})
    loan.refresh_from_db()
    assert loan.returned == date(2026, 1, 2)
    page = keeper.get(bridle.get_absolute_url()).content.decode()
    assert "back since 2 Jan 2026" in page
    keeper.post(reverse("fitting:delete-loan", args=[yard.slug, bridle.key, loan.pk]))
    assert not Loan.objects.exists()


def test_a_loan_to_a_strangers_horse_or_on_no_hole_is_refused(
    keeper: Client, yard: Yard
) -> None:
    bridle, theirs = make_bridle(yard), make_horse(make_yard())
    address = reverse("fitting:lend", args=[yard.slug, bridle.key])
    page = keeper.post(address, {"to": theirs.pk, "own_hole": "-1"})
    assert page.status_code == 422
    assert "Select a valid choice" in page.content.decode()
    assert "greater than or equal to 1" in page.content.decode()


# Who may


def addresses(yard: Yard) -> dict[str, str]:
    bridle = make_bridle(yard)
    made_up = make_set(yard, bridle)
    loan = Loan.objects.create(tack=bridle, to=make_horse(yard))
    item, of_set = [yard.slug, bridle.key], [yard.slug, made_up.key]
    return {
        "add-tack": add(yard, "bit"),
        "make-up": reverse("fitting:make-up", args=[yard.slug]),
        "edit-set": reverse("fitting:edit-set", args=of_set),
        "delete-set": reverse("fitting:delete-set", args=of_set),
        "edit-tack": reverse("fitting:edit-tack", args=item),
        "take-down": reverse("fitting:take-down", args=item),
        "delete-tack": reverse("fitting:delete-tack", args=item),
        "lend": reverse("fitting:lend", args=item),
        "edit-loan": reverse("fitting:edit-loan", args=[*item, loan.pk]),
        "delete-loan": reverse("fitting:delete-loan", args=[*item, loan.pk]),
    }


def test_the_forms_are_the_keepers_alone(
    helper: Client, viewer: Client, stranger: Client, client: Client, yard: Yard
) -> None:
    gone = make_bit(yard)
    up_again = reverse("fitting:put-up-again", args=[yard.slug, gone.key])
    assert helper.post(up_again).status_code == 403
    for name, address in addresses(yard).items():
        assert helper.get(address).status_code == 403, name
        assert viewer.post(address).status_code == 403, name
        assert stranger.get(address).status_code == 404, name
        assert client.get(address).status_code == 302, name


def test_the_keeper_may_open_every_form(keeper: Client, yard: Yard) -> None:
    for name, address in addresses(yard).items():
        assert keeper.get(address).status_code == 200, name


def test_everybody_of_the_yard_reads_and_sees_no_forms(
    helper: Client, viewer: Client, stranger: Client, yard: Yard
) -> None:
    bit = make_bit(yard, name="Blue trunk bit")
    pages = [reverse("fitting:tack-room", args=[yard.slug]), bit.get_absolute_url()]
    for address in pages:
        for client in (helper, viewer):
            page = client.get(address)
            assert page.status_code == 200
            assert "Blue trunk bit" in page.content.decode()
            assert "Delete it" not in page.content.decode()
            assert "Put up an item" not in page.content.decode()
        assert stranger.get(address).status_code == 404
    assert helper.post(pages[1]).status_code in {403, 405}


def test_an_item_of_another_yard_is_not_there(keeper: Client, yard: Yard) -> None:
    theirs = make_bit(make_yard())
    address = reverse("fitting:tack", args=[yard.slug, theirs.key])
    assert keeper.get(address).status_code == 404


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
