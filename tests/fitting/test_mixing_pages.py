"""The page that makes the best bridle up from what hangs here."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from fitting.models import Loan, Tack, TackSet, TryOn, TryOnPart, Yard
from starting.writes import replan, today_in
from tests.fitting.making_mixing_pages import (
    STRAPS,
    make_bridle,
    make_filly,
    make_set,
    make_snaffle,
)
from tests.make import make_bit, make_horse

pytestmark = pytest.mark.django_db


def page_of(client: Client, yard: Yard, query: str = "horse=teasel") -> str:
    answer = client.get(f"{reverse('fitting:mix-bridle', args=[yard.slug])}?{query}")
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def press(client: Client, yard: Yard, page: str) -> Any:
    """Press the first button that makes it up, with all that its form says."""
    form = page.partition(f'action="{reverse("fitting:make-up", args=[yard.slug])}"')[2]
    fields = form.partition("</form>")[0].split('type="hidden" name="')[1:]
    sent = {
        field.partition('"')[0]: field.partition('value="')[2].partition('"')[0]
        for field in fields
    }
    address = reverse("fitting:make-up", args=[yard.slug])
    return client.post(address, sent, follow=True)


def test_the_best_bridle_stands_there_and_one_press_makes_it(
    keeper: Client, yard: Yard
) -> None:
    make_filly(yard)
    make_bridle(yard)
    make_snaffle(yard)
    page = page_of(keeper, yard)
    assert "The best:" in page
    assert "<b>Hole 4</b>, 3 to let down, 3 to take up." in page
    assert "Without a throatlash: none hangs here." in page
    assert press(keeper, yard, page).status_code == 200
    made = press(keeper, yard, page)  # once more, as on a poor line
    row = TackSet.objects.get()
    assert row.name == "Bridle for Teasel"
    assert set(row.parts.values_list("slot", "tack__name")) == {
        *((slot, "Hazel") for slot in STRAPS),
        ("bit", "Snaffle"),
    }
    assert "Made up from" in made.content.decode()
    again = page_of(keeper, yard)
    assert "Made up so already:" in again
    assert "Make it up</button>" not in again


def test_what_the_page_promises_the_set_keeps(keeper: Client, yard: Yard) -> None:
    make_filly(yard)
    make_bridle(yard)
    make_snaffle(yard)
    press(keeper, yard, page_of(keeper, yard))
    replan(yard, today_in(yard))
    made = keeper.get(TackSet.objects.get().get_absolute_url()).content.decode()
    assert (
        "Hole 4 of 7, ⅛\u2009in (2 mm) a side long: 3 to let down, 3 to take up."
        in made
    )


def test_what_another_horse_wears_is_said_and_left_to_it(
    keeper: Client, yard: Yard
) -> None:
    make_filly(yard)
    bramble = make_horse(yard, name="Bramble")
    first, second = make_bridle(yard, "Ash"), make_bridle(yard, "Beech")
    bit = make_snaffle(yard)
    slots = dict.fromkeys(("headpiece", "cheekpieces", "browband"), first)
    made = make_set(yard, "Brambles", **slots, bit=bit)
    day = today_in(yard) - timedelta(days=2)
    tried = TryOn.objects.create(horse=bramble, on=day, made_up=made, how="worn")
    TryOnPart.objects.create(tryon=tried, part="browband", seen="sits_right")
    page = page_of(keeper, yard)
    best, _, rest = page.partition("Next best:")
    assert second.name in best
    assert "Ash" not in best
    assert f"In Brambles: Bramble wore it {day.day} {day:%b}." in best  # the bit's
    assert "In a set already, so to be moved across: bit." in best
    assert "Ash" in rest


def test_what_is_lent_elsewhere_is_at_hand_only_once_it_is_due_back(
    keeper: Client, yard: Yard
) -> None:
    make_filly(yard)
    other = make_horse(yard, name="Bramble")
    bridle = make_bridle(yard)
    make_snaffle(yard)
    today = today_in(yard)
    loan = Loan.objects.create(
        tack=bridle, to=other, back_by=today + timedelta(days=10)
    )
    page = page_of(keeper, yard)
    assert "No bridle can be made up" in page
    for missing in ("headpiece hangs", "cheekpieces hang", "browband hangs"):
        assert f"No {missing} here, but Hazel is lent to Bramble." in page
    assert "Without a noseband: none hangs here, but Hazel is lent to Bramble." in page
    assert "Without a throatlash: none hangs here." in page
    last = today + timedelta(days=10)
    assert "No bridle can" in page_of(keeper, yard, f"horse=teasel&on={last}")
    later = today + timedelta(days=11)
    assert "The best:" in page_of(keeper, yard, f"horse=teasel&on={later}")
    loan.back_by = today - timedelta(days=1)  # overdue: nobody knows when it comes
    loan.save()
    assert "No bridle can" in page_of(keeper, yard, f"horse=teasel&on={later}")
    loan.to = yard.horses.get(key="teasel")
    loan.save()
    assert "Lent to Teasel." in page_of(keeper, yard)


def test_what_is_taken_down_is_not_at_hand(keeper: Client, yard: Yard) -> None:
    make_filly(yard)
    make_snaffle(yard)
    bridle = make_bridle(yard)
    Tack.objects.filter(pk=bridle.pk).update(gone=date(2026, 1, 1))
    assert "No headpiece hangs here." in page_of(keeper, yard)


def test_what_is_not_measured_is_asked_for_and_never_good(
    keeper: Client, yard: Yard
) -> None:
    make_filly(yard).measurements.filter(measure="brow").delete()
    make_bridle(yard, noseband={"longest_mm": None})
    make_snaffle(yard)
    page = page_of(keeper, yard)
    assert "The best: <span" in page
    assert page.partition("</h2>")[0].endswith('w-unknown">can&#x27;t say</span>')
    assert "Measure brow" in page
    assert "Write down length of the noseband" in page


def test_a_bit_can_be_left_off(keeper: Client, yard: Yard) -> None:
    make_filly(yard)
    make_bridle(yard)
    make_snaffle(yard)
    assert "Snaffle" in page_of(keeper, yard)
    assert "Snaffle" not in page_of(keeper, yard, "horse=teasel&bit=no")


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("horse=nobody", "No horse of that name stands here."),
        ("horse=teasel&on=2001-01-01", "From today to"),
        ("horse=teasel&on=2999-01-01", "From today to"),
        ("horse=teasel&on=soon", "That is no day. Write"),
        ("horse=teasel&bit=perhaps", "Select a valid choice."),
    ],
)
def test_an_address_that_asks_nonsense_is_answered_in_words(
    keeper: Client, yard: Yard, query: str, said: str
) -> None:
    make_filly(yard)
    address = reverse("fitting:mix-bridle", args=[yard.slug])
    answer = keeper.get(f"{address}?{query}")
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_a_horse_of_another_yard_is_not_found(keeper: Client, yard: Yard) -> None:
    make_filly(yard)
    theirs = make_filly(Yard.objects.create(name="Other", slug="other"), "Stranger")
    address = reverse("fitting:mix-bridle", args=[yard.slug])
    assert keeper.get(f"{address}?horse={theirs.key}").status_code == 422


def test_a_helper_sees_the_best_and_makes_nothing_up(
    helper: Client, yard: Yard
) -> None:
    make_filly(yard)
    make_bridle(yard)
    make_snaffle(yard)
    page = page_of(helper, yard)
    assert "The best:" in page
    assert "Make it up" not in page


def test_an_empty_yard_and_an_empty_room_say_the_first_act(
    keeper: Client, yard: Yard
) -> None:
    address = reverse("fitting:mix-bridle", args=[yard.slug])
    assert "Nobody to make it up for" in keeper.get(address).content.decode()
    make_filly(yard)
    assert "Put up" in page_of(keeper, yard)


def asked(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as seen:
        assert client.get(address).status_code == 200
    return len(seen.captured_queries)


def test_a_larger_tack_room_asks_no_more(keeper: Client, yard: Yard) -> None:
    make_filly(yard)
    bridle, bit = make_bridle(yard), make_snaffle(yard)
    made = make_set(yard, "Best", headpiece=bridle, cheekpieces=bridle, bit=bit)
    pages = (
        f"{reverse('fitting:mix-bridle', args=[yard.slug])}?horse=teasel",
        made.get_absolute_url(),
    )
    day = today_in(yard) - timedelta(days=3)
    tried = TryOn.objects.create(
        horse=yard.horses.get(), on=day, made_up=made, how="worn", answer="good"
    )
    TryOnPart.objects.create(tryon=tried, part="browband", seen="sits_right")
    replan(yard, today_in(yard))
    few = [asked(keeper, page) for page in pages]
    for number in range(6):
        other = make_horse(yard)
        bridle, bit = make_bridle(yard, f"B {number}"), make_bit(yard)
        make_set(yard, f"S{number}", headpiece=bridle, bit=bit)
        Loan.objects.create(tack=bit, to=other)
        TryOn.objects.create(horse=other, on=day, tack=bit, how="worn", answer="good")
    replan(yard, today_in(yard))
    assert [asked(keeper, page) for page in pages] == few
