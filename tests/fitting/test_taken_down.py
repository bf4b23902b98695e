"""Taking tack down, and deleting only what nothing hangs on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from fitting.hangs_on import SHOWN, StillHangsError
from fitting.models import FirstWorn, Horse, Loan, Tack, TackSet, TryOn, Yard
from fitting.reads.facts import tack_facts
from fitting.reads.hangs_on import hangs_on_item
from fitting.writes.horses import delete_horse
from fitting.writes.tack import delete_item, take_apart
from starting.models import Session
from starting.writes.yards import delete_yard
from tests.fitting.making_tack import make_bridle, make_set, room
from tests.make import make_bit, make_horse

ON = date(2026, 3, 2)


def delete(thing: Tack | TackSet) -> str:
    page = "delete-set" if isinstance(thing, TackSet) else "delete-tack"
    return reverse(f"fitting:{page}", args=[thing.yard.slug, thing.key])


def session_with(horse: Horse, **thing: Tack | TackSet) -> Session:
    row = Session.objects.create(horse=horse, on=ON, stage="feet")
    row.worn.create(**thing)
    return row


HANGS: dict[str, Callable[[Horse, Tack], object]] = {
    "1 try-on": lambda horse, bit: TryOn.objects.create(
        horse=horse, tack=bit, on=ON, how="held"
    ),
    "1 try-on, struck": lambda horse, bit: TryOn.objects.create(
        horse=horse, tack=bit, on=ON, how="held", struck="The wrong horse"
    ),
    "1 first time worn": lambda horse, bit: FirstWorn.objects.create(
        horse=horse, kind="bit", tack=bit, on=ON
    ),
    "1 loan": lambda horse, bit: Loan.objects.create(
        tack=bit, to=horse, start=ON, returned=ON
    ),
    "1 session": lambda horse, bit: session_with(horse, tack=bit),
    "1 made-up set": lambda horse, bit: make_set(horse.yard, bit),
}


def test_an_item_is_taken_down_and_put_up_again(keeper: Client, yard: Yard) -> None:
    bit = make_bit(yard)
    address = reverse("fitting:take-down", args=[yard.slug, bit.key])
    assert "no longer asked about" in keeper.get(address).content.decode()
    early = keeper.post(address, {"gone": "2999-01-01"})
    assert early.status_code == 422
    keeper.post(address, {"gone": "2026-01-05"})
    bit.refresh_from_db()
    assert bit.gone == date(2026, 1, 5)
    assert "Put it up again" in keeper.get(bit.get_absolute_url()).content.decode()
    keeper.post(reverse("fitting:put-up-again", args=[yard.slug, bit.key]))
    bit.refresh_from_db()
    assert bit.gone is None


def test_nothing_is_taken_down_before_it_was_bought_or_in_a_year_cut_short(
    keeper: Client, yard: Yard
) -> None:
    bit = make_bit(yard)
    Tack.objects.filter(pk=bit.pk).update(bought=date(2025, 9, 19))
    address = reverse("fitting:take-down", args=[yard.slug, bit.key])
    for day, why in (
        ("2025-09-18", "It was bought on 19 Sep 2025: not before."),
        ("0026-01-05", "The year reads 26: write it in four figures."),
    ):
        page = keeper.post(address, {"gone": day})
        assert page.status_code == 422
        assert why in page.content.decode()
    bit.refresh_from_db()
    assert bit.gone is None
    keeper.post(address, {"gone": "2025-09-19"})
    bit.refresh_from_db()
    assert bit.gone == date(2025, 9, 19)


# What anything hangs on is not deleted


@pytest.mark.parametrize("said", HANGS)
def test_an_item_on_which_anything_hangs_is_not_deleted(
    keeper: Client, yard: Yard, said: str
) -> None:
    bit = make_bit(yard)
    HANGS[said](make_horse(yard, name="Tansy"), bit)
    asked = keeper.get(delete(bit))
    refused = keeper.post(delete(bit))
    assert (asked.status_code, refused.status_code) == (200, 422)
    for page in (asked.content.decode(), refused.content.decode()):
        assert said.partition(",")[0] in page
        assert "Take it down instead" in page
        assert reverse("fitting:take-down", args=[yard.slug, bit.key]) in page
        assert ">Delete</button>" not in page
    assert Tack.objects.filter(pk=bit.pk).exists()
    with pytest.raises(StillHangsError, match=said.partition(",")[0]):
        delete_item(bit)


def test_a_struck_try_on_is_told_as_struck_and_still_hangs(yard: Yard) -> None:
    bit = make_bit(yard)
    HANGS["1 try-on, struck"](make_horse(yard, name="Tansy"), bit)
    (kind,) = hangs_on_item(bit)
    assert kind.records[0].said == "Tansy, held against 2 Mar 2026, struck out"


def test_a_mistake_is_undone_step_by_step_by_the_pages_that_are_named(
    keeper: Client, yard: Yard
) -> None:
    bit, horse = make_bit(yard), make_horse(yard, name="Tansy")
    tried = TryOn.objects.create(horse=horse, tack=bit, on=ON, how="held")
    loan = Loan.objects.create(tack=bit, to=horse)
    worn = FirstWorn.objects.create(horse=horse, kind="bit", tack=bit, on=ON)
    session = session_with(horse, tack=bit)
    page = keeper.get(delete(bit)).content.decode()
    assert "Delete it on its own page" in page
    of_horse = [yard.slug, horse.key]
    steps = {
        ("fitting:edit-tryon", "fitting:delete-tryon"): [*of_horse, tried.pk],
        ("fitting:edit-loan", "fitting:delete-loan"): [yard.slug, bit.key, loan.pk],
        ("fitting:edit-first-worn", "fitting:delete-first-worn"): [*of_horse, worn.pk],
        ("starting:edit-session", "starting:delete-session"): [*of_horse, session.pk],
    }
    for (mend, remove), parts in steps.items():
        mended, removed = reverse(mend, args=parts), reverse(remove, args=parts)
        assert f'href="{mended}"' in page
        assert f'href="{removed}"' in keeper.get(mended).content.decode()
        assert keeper.post(delete(bit)).status_code == 422
        assert keeper.post(removed).status_code == 302
    assert "Nothing hangs on it" in keeper.get(delete(bit)).content.decode()
    assert keeper.post(delete(bit)).status_code == 302
    assert not Tack.objects.exists()


def test_of_many_records_a_few_are_shown_and_the_others_counted(
    keeper: Client, yard: Yard
) -> None:
    bit, horse = make_bit(yard), make_horse(yard)
    for day in range(1, SHOWN + 3):
        TryOn.objects.create(horse=horse, tack=bit, on=date(2026, 3, day), how="worn")
    page = keeper.get(delete(bit)).content.decode()
    assert f"{SHOWN + 2} try-ons" in page
    assert "and 2 more" in page
    assert page.count("put on ") == SHOWN


@pytest.mark.parametrize("how", ["tried", "worn"])
def test_a_set_that_was_tried_or_worn_is_not_taken_apart(
    keeper: Client, yard: Yard, how: str
) -> None:
    made_up, horse = make_set(yard, make_bridle(yard)), make_horse(yard, name="Tansy")
    if how == "tried":
        TryOn.objects.create(horse=horse, made_up=made_up, on=ON, how="worn")
    else:
        session_with(horse, made_up=made_up)
    refused = keeper.post(delete(made_up))
    page = refused.content.decode()
    assert refused.status_code == 422
    assert ("1 try-on" if how == "tried" else "1 session") in page
    assert reverse("fitting:take-set-down", args=[yard.slug, made_up.key]) in page
    with pytest.raises(StillHangsError):
        take_apart(made_up)
    assert TackSet.objects.filter(pk=made_up.pk).exists()


# A set that is taken down


def test_a_set_is_taken_down_and_put_up_again(keeper: Client, yard: Yard) -> None:
    made_up, horse = make_set(yard, make_bridle(yard)), make_horse(yard, name="Tansy")
    TryOn.objects.create(horse=horse, made_up=made_up, on=ON, how="worn")
    down = reverse("fitting:take-set-down", args=[yard.slug, made_up.key])
    assert "no longer asked about" in keeper.get(down).content.decode()
    assert keeper.post(down, {"gone": "2999-01-01"}).status_code == 422
    for _ in range(2):
        sent = {"gone": "2026-01-05", "token": "once"}
        assert keeper.post(down, sent).status_code == 302
    made_up.refresh_from_db()
    assert (made_up.gone, made_up.revision) == (date(2026, 1, 5), 2)
    page = keeper.get(made_up.get_absolute_url()).content.decode()
    assert "Taken down 5 Jan 2026" in page
    assert "Tansy, put on" in page
    up = reverse("fitting:put-set-up-again", args=[yard.slug, made_up.key])
    assert up in page
    keeper.post(up)
    made_up.refresh_from_db()
    assert made_up.gone is None


def test_a_set_that_is_taken_down_is_asked_about_no_more(
    keeper: Client, yard: Yard
) -> None:
    horse = make_horse(yard, name="Tansy")
    made_up = make_set(yard, make_bridle(yard), make_bit(yard))
    asking = [
        reverse("fitting:try-on", args=[yard.slug, horse.key]),
        reverse("fitting:horse-tack", args=[yard.slug, horse.key]),
        f"{reverse('fitting:does-it-fit', args=[yard.slug])}?horse={horse.key}",
        reverse("fitting:who-fits", args=[yard.slug]),
        reverse("fitting:tack-beside", args=[yard.slug]),
        reverse("starting:log-session", args=[yard.slug, horse.key]),
    ]
    for address in asking:
        assert "Best bridle" in keeper.get(address, follow=True).content.decode()
    TackSet.objects.filter(pk=made_up.pk).update(gone=ON)
    Yard.objects.filter(pk=yard.pk).update(version=yard.version + 1)
    for address in asking:
        page = keeper.get(address, follow=True).content.decode()
        assert "Best bridle" not in page, address
    assert tack_facts(yard)[1] == ()
    shown = room(keeper, yard)
    assert shown.index("Taken down") < shown.index("Best bridle")


def test_a_session_in_which_a_set_was_worn_still_says_so_when_it_is_down(
    keeper: Client, yard: Yard
) -> None:
    horse, made_up = make_horse(yard), make_set(yard, make_bridle(yard))
    session = session_with(horse, made_up=made_up)
    TackSet.objects.filter(pk=made_up.pk).update(gone=ON)
    there = reverse("starting:edit-session", args=[yard.slug, horse.key, session.pk])
    assert "Best bridle" in keeper.get(there).content.decode()


# Elsewhere


def test_the_admin_deletes_no_tack_on_which_anything_hangs(yard: Yard) -> None:
    repairer = Client()
    repairer.force_login(User.objects.create_superuser("repairer"))
    horse, made_up = make_horse(yard), make_set(yard, make_bridle(yard))
    bit, free = make_bit(yard), make_bit(yard)
    TryOn.objects.create(horse=horse, tack=bit, on=ON, how="held")
    TryOn.objects.create(horse=horse, made_up=made_up, on=ON, how="held")
    for row in (bit, made_up, free):
        name = f"admin:fitting_{row._meta.model_name}"
        repairer.post(reverse(f"{name}_delete", args=[row.pk]), {"post": "yes"})
        picked = {"action": "delete_selected", "_selected_action": [row.pk]}
        repairer.post(reverse(f"{name}_changelist"), picked | {"post": "yes"})
    assert Tack.objects.filter(pk=bit.pk).exists()
    assert TackSet.objects.filter(pk=made_up.pk).exists()
    assert not Tack.objects.filter(pk=free.pk).exists()


def test_a_horse_and_a_whole_yard_are_deleted_as_before(yard: Yard) -> None:
    horse, bit = make_horse(yard), make_bit(yard)
    TryOn.objects.create(horse=horse, tack=bit, on=ON, how="held")
    Loan.objects.create(tack=bit, to=horse)
    delete_horse(horse)
    assert not TryOn.objects.exists()
    assert hangs_on_item(bit) == ()
    session_with(make_horse(yard), tack=bit)
    delete_yard(yard)
    assert not Tack.objects.exists()
