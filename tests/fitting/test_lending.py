"""Loans: what is out, whose it is, when and how it goes back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from django.test import Client
from django.urls import reverse

from fitting.lending import WASH, Lent, on_giving_back, say_loan, why_back
from fitting.models import Loan, Tack, Yard
from fitting.reads.facts import lent_by_horse
from fitting.reads.lent import loans_of
from fitting.reads.tack import BRIEF_FROM
from fitting.reads.today import today_in
from starting.writes.replan import ensure_planned
from tests.fitting.making_tack import make_bridle
from tests.make import make_bit, make_horse, make_yard

DAY = date(2027, 1, 24)
LENT = Lent(
    item="Brown bridle",
    key="brown",
    kind="bridle",
    lender="Old Marl",
    own_hole=3,
    back_by=DAY,
)


def lend(yard: Yard, item: Tack) -> str:
    return reverse("fitting:lend", args=[yard.slug, item.key])


def give_back(loan: Loan) -> str:
    slug = loan.tack.yard.slug
    return reverse("fitting:return-loan", args=[slug, loan.tack.key, loan.pk])


# In words


def test_a_loan_is_late_from_the_day_after_it_should_be_back() -> None:
    assert not LENT.is_late(DAY)
    assert LENT.is_late(DAY + timedelta(days=1))
    assert say_loan(LENT, "Tansy").endswith("back by 24 Jan 2027.")
    assert not replace(LENT, returned=DAY).is_late(DAY + timedelta(days=9))
    assert not replace(LENT, back_by=None).is_late(DAY)


def test_a_loan_says_since_when_where_that_is_known() -> None:
    lent = replace(LENT, start=date(2026, 11, 3))
    assert say_loan(lent, "Tansy").startswith("Lent to Tansy since 3 Nov 2026; put ba")
    back = say_loan(replace(lent, returned=DAY), "Tansy")
    assert back.startswith("Lent to Tansy on 3 Nov 2026; ")
    assert back.endswith("back since 24 Jan 2027.")
    assert say_loan(replace(LENT, own_hole=None), "Tansy") == (
        "Lent to Tansy; back by 24 Jan 2027."
    )


def test_what_goes_back_says_to_whom_and_by_when() -> None:
    assert why_back(LENT, DAY) == "It goes back to Old Marl by 24 Jan 2027."
    late = why_back(LENT, DAY + timedelta(days=1))
    assert late == "It should have gone back to Old Marl by 24 Jan 2027."


def test_a_bit_is_washed_and_a_strap_goes_back_on_its_hole() -> None:
    assert on_giving_back(LENT) == ("Put it back on hole 3, the lender's own.",)
    bit = Lent(item="Snaffle", key="snaffle", kind="bit")
    assert on_giving_back(bit) == (WASH,)


def test_a_bit_that_is_out_is_said_to_be_washed_before_it_goes_back(
    yard: Yard,
) -> None:
    bit, bridle = make_bit(yard), make_bridle(yard)
    tansy, today = make_horse(yard, name="Tansy"), today_in(yard)
    for item in (bit, bridle):
        Loan.objects.create(tack=item, to=tansy)
    assert [row.wash for row in loans_of(bit, today)] == [WASH]
    assert [row.wash for row in loans_of(bridle, today)] == [""]
    bit.loans.update(returned=today)
    assert [row.wash for row in loans_of(bit, today)] == [""]


# On the pages


def test_the_form_of_a_loan_keeps_whose_the_item_is(keeper: Client, yard: Yard) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard, name="Tansy")
    keeper.post(lend(yard, bridle), {"to": tansy.pk, "lender": "  Old   Marl "})
    bridle.refresh_from_db()
    assert bridle.belongs_to == "Old Marl"
    assert bridle.history.count() == 2
    assert (
        "Belongs to Old Marl." in keeper.get(bridle.get_absolute_url()).content.decode()
    )


def test_a_loan_keeps_the_day_it_went_and_none_that_cannot_be(
    keeper: Client, yard: Yard
) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard, name="Tansy")
    today = today_in(yard)
    form = keeper.get(lend(yard, bridle)).content.decode()
    assert f'value="{today.isoformat()}"' in form  # it goes today, if nothing is said
    sent = {"to": tansy.pk, "start": (today + timedelta(days=1)).isoformat()}
    page = keeper.post(lend(yard, bridle), sent)
    assert page.status_code == 422
    assert "That day is still to come." in page.content.decode()
    sent |= {"start": today.isoformat(), "back_by": "2020-01-01"}
    page = keeper.post(lend(yard, bridle), sent)
    assert page.status_code == 422
    assert "It goes back on or after the day it was lent." in page.content.decode()
    assert not Loan.objects.exists()
    keeper.post(lend(yard, bridle), sent | {"back_by": ""})
    assert Loan.objects.get().start == today
    said = f"Lent to Tansy since {today.day} {today:%b %Y}."
    assert said in keeper.get(bridle.get_absolute_url()).content.decode()


def test_an_item_that_is_out_is_not_lent_twice(keeper: Client, yard: Yard) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard, name="Tansy")
    Loan.objects.create(tack=bridle, to=tansy)
    page = keeper.post(lend(yard, bridle), {"to": make_horse(yard).pk})
    assert page.status_code == 422
    assert "It is lent to Tansy already" in page.content.decode()
    assert Loan.objects.count() == 1


def test_what_was_taken_down_is_not_lent(keeper: Client, yard: Yard) -> None:
    bridle = make_bridle(yard, gone=date(2025, 1, 1))
    page = keeper.post(lend(yard, bridle), {"to": make_horse(yard).pk})
    assert page.status_code == 422
    assert "put it up again first" in page.content.decode()


def test_a_hole_the_item_has_not_is_refused(keeper: Client, yard: Yard) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard)
    page = keeper.post(lend(yard, bridle), {"to": tansy.pk, "own_hole": "8"})
    assert page.status_code == 422
    assert "It has 7 holes at an end" in page.content.decode()
    keeper.post(lend(yard, bridle), {"to": tansy.pk, "own_hole": "7"})
    assert Loan.objects.get().own_hole == 7


def test_no_hole_is_asked_of_what_has_none(keeper: Client, yard: Yard) -> None:
    rug = Tack.objects.create(yard=yard, key="rug", name="Rain rug", kind="rug")
    asks = {}
    for item in (make_bridle(yard), make_bit(yard), rug):
        page = keeper.get(lend(yard, item)).content.decode()
        asks[item.kind] = 'name="own_hole"' in page
        assert ("own hole is kept" in page) is asks[item.kind]
    assert asks == {"bridle": True, "bit": False, "rug": False}
    keeper.post(lend(yard, rug), {"to": make_horse(yard).pk, "own_hole": "3"})
    assert Loan.objects.get().own_hole is None


def test_another_lender_written_meanwhile_is_not_lost(
    keeper: Client, yard: Yard
) -> None:
    bridle, tansy = make_bridle(yard), make_horse(yard)
    Tack.objects.filter(pk=bridle.pk).update(belongs_to="Sam")
    sent = {"to": tansy.pk, "lender": "Jo", "seen_lender": ""}
    page = keeper.post(lend(yard, bridle), sent)
    assert page.status_code == 422
    assert "It says now: Sam." in page.content.decode()
    assert 'value="Jo"' in page.content.decode()
    keeper.post(lend(yard, bridle), sent | {"seen_lender": "Sam"})
    bridle.refresh_from_db()
    assert bridle.belongs_to == "Jo"


def test_one_press_writes_it_back_and_a_second_changes_nothing(
    keeper: Client, helper: Client, yard: Yard
) -> None:
    bit, tansy = make_bit(yard), make_horse(yard)
    loan = Loan.objects.create(tack=bit, to=tansy, own_hole=None)
    assert helper.post(give_back(loan)).status_code == 403
    page = keeper.post(give_back(loan), follow=True).content.decode()
    assert WASH in page
    loan.refresh_from_db()
    assert loan.returned == today_in(yard)
    long_ago = date(2020, 1, 1)
    Loan.objects.filter(pk=loan.pk).update(returned=long_ago)
    keeper.post(give_back(loan))
    loan.refresh_from_db()
    assert loan.returned == long_ago


def test_a_strangers_loan_is_not_found(keeper: Client, yard: Yard) -> None:
    other = make_yard()
    loan = Loan.objects.create(tack=make_bridle(other), to=make_horse(other))
    assert keeper.get(give_back(loan)).status_code in {404, 405}
    address = reverse("fitting:return-loan", args=[yard.slug, loan.tack.key, loan.pk])
    assert keeper.post(address).status_code == 404


def test_what_is_overdue_stands_in_the_room_and_on_today(
    keeper: Client, yard: Yard
) -> None:
    bridle, tansy = make_bridle(yard, belongs_to="Sam"), make_horse(yard, name="Tansy")
    late = today_in(yard) - timedelta(days=8)
    loan = Loan.objects.create(tack=bridle, to=tansy, back_by=late, own_hole=3)
    ensure_planned(yard)
    room = reverse("fitting:tack-room", args=[yard.slug])
    today = reverse("starting:today", args=[yard.slug])
    page = keeper.get(room).content.decode()
    assert "Should have gone back" in page
    assert "Overdue." in page
    assert (
        lend(yard, bridle) not in keeper.get(bridle.get_absolute_url()).content.decode()
    )
    page = keeper.get(today).content.decode()
    assert "Tansy: give back Brown bridle" in page
    assert "Overdue since" in page
    assert "It should have gone back to Sam" in page
    assert bridle.get_absolute_url() in page
    keeper.post(give_back(loan))
    yard.refresh_from_db()
    ensure_planned(yard)
    assert "Should have gone back" not in keeper.get(room).content.decode()
    assert "Tansy: give back" not in keeper.get(today).content.decode()


def test_the_room_shows_only_what_is_lent_or_of_one_kind(
    keeper: Client, yard: Yard
) -> None:
    bridle = make_bridle(yard)
    make_bit(yard, name="Blue trunk bit")
    Loan.objects.create(tack=bridle, to=make_horse(yard))
    address = reverse("fitting:tack-room", args=[yard.slug])
    lent = keeper.get(address, {"show": "lent"}).content.decode()
    assert "Brown bridle" in lent
    assert "Blue trunk bit" not in lent
    bits = keeper.get(address, {"show": "bit"}).content.decode()
    assert "Blue trunk bit" in bits
    assert "Brown bridle" not in bits
    for nonsense in ("", "' or 1", "rug"):
        page = keeper.get(address, {"show": nonsense}).content.decode()
        assert "Blue trunk bit" in page
        assert "Brown bridle" in page


def test_a_second_loan_of_the_same_item_is_another_entry(yard: Yard) -> None:
    bit, tansy, fennel = make_bit(yard), make_horse(yard), make_horse(yard)
    for horse in (tansy, fennel, tansy):
        Loan.objects.create(tack=bit, to=horse)
    gone = make_bit(yard)
    Loan.objects.create(tack=gone, to=tansy)
    Tack.objects.filter(pk=gone.pk).update(gone=date(2025, 1, 1))
    found = lent_by_horse(yard)
    assert [lent.time for lent in found[tansy.pk]] == [1, 2]
    assert [lent.time for lent in found[fennel.pk]] == [1]


def test_taking_down_what_is_lent_says_so(keeper: Client, yard: Yard) -> None:
    bridle = make_bridle(yard)
    address = reverse("fitting:take-down", args=[yard.slug, bridle.key])
    assert "If it is back" not in keeper.get(address).content.decode()
    Loan.objects.create(tack=bridle, to=make_horse(yard, name="Tansy"))
    page = keeper.get(address).content.decode()
    assert "Lent to Tansy. If it is back, write that first" in page


def test_a_full_room_says_of_each_horse_only_by_kind_on_a_phone(
    keeper: Client, yard: Yard
) -> None:
    make_horse(yard, name="Tansy")
    bridle = make_bridle(yard)
    address = reverse("fitting:tack-room", args=[yard.slug])
    hint = "Whom each fits stands here once you choose a kind above."
    assert hint not in keeper.get(address).content.decode()
    for _ in range(BRIEF_FROM):
        make_bit(yard)
    page = keeper.get(address).content.decode()
    assert hint in page
    assert bridle.name in page
    of_kind = keeper.get(address, {"show": "bit"}).content.decode()
    assert hint not in of_kind
    assert of_kind.count("narrow") > page.count("narrow")
