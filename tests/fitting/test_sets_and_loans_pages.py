"""Made-up sets and loans, written in, changed and refused; who may."""

from __future__ import annotations

from datetime import date

from django.test import Client
from django.urls import reverse

from fitting.models import Loan, Part, Tack, TackSet, Yard
from tests.fitting.making_tack import add, make_bridle, make_set, room
from tests.make import make_bit, make_horse, make_yard


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
    assert "No such item hangs here now." in page
    taken = {"name": "Brown bridle", "headpiece": bridle.pk}
    assert "An item bears that name" in keeper.post(address, taken).content.decode()
    assert not TackSet.objects.exists()


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
    assert "No such horse stands here now: choose again." in page.content.decode()
    assert "Holes are counted from 1." in page.content.decode()


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


def test_where_no_bridle_and_no_bit_hangs_the_form_says_what_comes_first(
    keeper: Client, yard: Yard
) -> None:
    Tack.objects.create(yard=yard, key="rug", name="Rain rug", kind="rug")
    address = reverse("fitting:make-up", args=[yard.slug])
    page = keeper.get(address).content.decode()
    assert "No bridle and no bit on the pegs" in page
    assert reverse("fitting:add-tack", args=[yard.slug]) in page
    assert "<select" not in page
    make_bit(yard)
    page = keeper.get(address).content.decode()
    assert "No bridle and no bit on the pegs" not in page
    assert "<select" in page
