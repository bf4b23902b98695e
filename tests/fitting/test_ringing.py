"""A stop sign of a try-on that rang the vet: on every page that says put it on."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Tack, TackSet, TryOn, Yard
from fitting.reads.today import today_in
from fitting.ringing import still_holds
from fitting.writes.tryons import strike_tryon, write_tryon
from starting.models import OffWork
from starting.writes import replan
from tests.make import make_bit, make_horse

SEEN = date(2026, 11, 2)
CLEARED = (SEEN, date(2026, 11, 9))
SIGN = "Nothing is put on Tansy before the vet has said so."


@pytest.mark.parametrize(
    ("off", "day", "holds"),
    [
        (((SEEN, None),), SEEN + timedelta(days=200), True),
        ((CLEARED,), date(2026, 11, 8), True),
        ((CLEARED,), date(2026, 11, 9), False),
        # another spell off work, after the vet cleared this one, says nothing of it
        ((CLEARED, (date(2026, 11, 20), None)), date(2026, 12, 1), False),
        # off work since before: the vet has not been yet
        (((date(2026, 10, 1), None),), date(2026, 12, 1), True),
        ((), SEEN + timedelta(days=1), True),
        ((), SEEN + timedelta(days=2), False),
    ],
)
def test_a_sign_holds_while_the_horse_is_off_work_for_it(
    off: tuple[tuple[date, date | None], ...], day: date, *, holds: bool
) -> None:
    assert still_holds(SEEN, off, day) is holds


def pages(horse: Horse, bit: Tack, made: TackSet) -> dict[str, str]:
    yard = horse.yard.slug
    asked = f"?horse={horse.key}&item={bit.key}"
    bridle = f"?horse={horse.key}&on={today_in(horse.yard)}&bit=yes"
    return {
        "tack": reverse("fitting:horse-tack", args=[yard, horse.key]),
        "item": bit.get_absolute_url(),
        "fit": reverse("fitting:does-it-fit", args=[yard]) + asked,
        "bridle": reverse("fitting:mix-bridle", args=[yard]) + bridle,
        "step": reverse("starting:step", args=[yard, horse.key, "bridle"]),
        "set": made.get_absolute_url(),
    }


def says(client: Client, address: str) -> bool:
    answer = client.get(address)
    assert answer.status_code == 200
    page = answer.content.decode()
    return SIGN in page and "Blood on the lip." in page


def test_the_sign_stands_on_every_page_until_the_vet_clears_it(
    viewer: Client, yard: Yard
) -> None:
    tansy, other = make_horse(yard, name="Tansy"), make_horse(yard, name="Bran")
    bit = make_bit(yard)
    made = TackSet.objects.create(yard=yard, key="made", name="First bridle")
    made.parts.create(slot="bit", tack=bit)
    today = today_in(yard)
    row = TryOn(horse=tansy, tack=bit, how="worn", stop="ring_vet")
    row.on, row.stop_sign = today - timedelta(days=9), "Blood on the lip."
    write_tryon(row, [])
    replan(yard, today)
    of_item = {name: says(viewer, at) for name, at in pages(tansy, bit, made).items()}
    assert of_item == dict.fromkeys(of_item, True)  # the bit is in the set
    of_other = {name: says(viewer, at) for name, at in pages(other, bit, made).items()}
    assert of_other == dict.fromkeys(of_other, False) | {"item": True, "set": True}
    OffWork.objects.update(cleared_on=today)
    assert not any(says(viewer, at) for at in pages(tansy, bit, made).values())
    OffWork.objects.update(cleared_on=None)
    row.struck = "It was another horse."
    strike_tryon(row, "", "")
    assert not any(says(viewer, at) for at in pages(tansy, bit, made).values())


def test_a_sign_seen_of_a_set_stands_with_its_items_once(
    viewer: Client, yard: Yard
) -> None:
    tansy, bit, other = make_horse(yard, name="Tansy"), make_bit(yard), make_bit(yard)
    made = TackSet.objects.create(yard=yard, key="made", name="First bridle")
    made.parts.create(slot="bit", tack=bit)
    row = TryOn(horse=tansy, made_up=made, how="worn", stop="ring_vet")
    row.on, row.stop_sign = today_in(yard), "Blood on the lip."
    write_tryon(row, [])
    replan(yard, today_in(yard))
    for thing, times in ((bit, 1), (made, 1), (other, 0)):
        page = viewer.get(thing.get_absolute_url()).content.decode()
        assert page.count(SIGN) == times
